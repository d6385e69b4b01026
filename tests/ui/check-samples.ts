import type { GaugeInstrument } from '../../src/ui/gauge-reading.ts';
import type { InspectionPoint } from '../../src/ui/inspection.ts';
import type { FactRow } from '../../src/ui/fact-list.ts';
import type { HeldView } from '../../src/ui/held-words.ts';
import { WAITING_STEADY, type SteadyView } from '../../src/ui/steady-gauge.ts';
import { READY_STOPWATCH, type StopwatchView } from '../../src/ui/stopwatch-words.ts';

/** Invented data for looking at and testing the screen parts of the checks. No number here is a limit of any engine. */
export const HELD: HeldView = {
  label: 'Rail pressure',
  value: '71.4',
  unit: 'MPa',
  asked: '60 to 80 MPa',
  state: 'in',
  share: 0.97,
};

export const stopwatch = (view: Partial<StopwatchView> = {}): StopwatchView => ({
  ...READY_STOPWATCH,
  ...view,
});

export const SPEED: HeldView = {
  label: 'Engine speed',
  value: '702',
  unit: 'rpm',
  asked: '650 to 750 rpm',
  state: 'in',
  share: null,
};

export const steady = (view: Partial<SteadyView> = {}): SteadyView => ({
  ...WAITING_STEADY,
  label: 'Supply pressure',
  value: 412,
  state: 'fresh',
  trend: 'steady',
  min: 350,
  max: 500,
  speed: SPEED,
  steadySeconds: 3.2,
  ...view,
});

export const FACTS: readonly FactRow[] = [
  { name: 'Mean engine speed', value: '702', unit: 'rpm' },
  { name: 'Spread within the stretch', value: '6.2', unit: 'kPa' },
];

export const GAUGES: readonly GaugeInstrument[] = [
  {
    id: 'dial',
    name: 'Gauge 0 to 10 bar',
    kind: 'dial',
    unit: 'bar',
    fullScale: 10,
    percent: 1.6,
    digits: 0,
    step: 0.2,
  },
];

/** A grey picture of one pixel. */
const PICTURE = 'data:image/gif;base64,R0lGODlhAQABAIAAAJmZmf///yH5BAAAAAAALAAAAAABAAEAAAICRAEAOw==';

export const POINTS: readonly InspectionPoint[] = [
  {
    id: 'water',
    ask: 'Is the separator free of water?',
    look: 'Drain into a clear glass.',
    seen: null,
    note: '',
    photos: [],
  },
  {
    id: 'air',
    ask: 'Is the fuel free of air?',
    look: 'Clear hose behind the filter.',
    seen: null,
    note: '',
    photos: [],
  },
  {
    id: 'filter',
    ask: 'Is the filter clean?',
    look: 'Cut the old one open.',
    seen: 'not in order',
    note: 'black dirt',
    photos: [{ id: 'p1', url: PICTURE, note: 'the cut filter' }],
  },
];
