import type { DeviationView } from '../../src/ui/deviation.ts';
import { NO_CURVE, type PressureCurveView } from '../../src/ui/pressure-curve.ts';
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

export const POINTS: readonly InspectionPoint[] = [
  {
    id: 'water',
    ask: 'Is the separator free of water?',
    look: 'Drain into a clear glass.',
    seen: null,
    note: '',
  },
  {
    id: 'air',
    ask: 'Is the fuel free of air?',
    look: 'Clear hose behind the filter.',
    seen: null,
    note: '',
  },
  {
    id: 'filter',
    ask: 'Is the filter clean?',
    look: 'Cut the old one open.',
    seen: 'not in order',
    note: 'black dirt',
  },
];

/** A decay p = 30 e^(-t/8) from 2 s on, in MPa; it falls through 20 and 5 where the logarithms say. */
const decayAt = (at: number) => (at < 2 ? 30 : 30 * Math.exp(-(at - 2) / 8));
const seconds = Array.from({ length: 241 }, (_, at) => at / 10);

export const curve = (view: Partial<PressureCurveView> = {}): PressureCurveView => ({
  ...NO_CURVE,
  points: seconds.map((at) => [at, decayAt(at)] as const),
  fromPressure: 20,
  toPressure: 5,
  fromSeconds: 2 + 8 * Math.log(30 / 20),
  toSeconds: 2 + 8 * Math.log(30 / 5),
  fitted: seconds.filter((at) => at > 5 && at < 17).map((at) => [at, decayAt(at)] as const),
  spanSeconds: 8 * Math.log(4),
  ratePerSecond: -1.4,
  tauSeconds: 8,
  words: 'Found: from 20 to 5 MPa.',
  ...view,
});

export const deviation = (view: Partial<DeviationView> = {}): DeviationView => ({
  recording: false,
  seconds: 754,
  neededSeconds: 600,
  worst: 18.4,
  stretchSeconds: 3,
  unit: 'MPa',
  digits: 1,
  speedBands: ['to 1000 rpm', 'to 1500 rpm'],
  loadBands: ['to 50 %', 'above 50 %'],
  cells: [
    [
      { seconds: 130, meanShortfall: 0.4, grade: 'good' },
      { seconds: 2, meanShortfall: null, grade: 'few' },
    ],
    [
      { seconds: 210, meanShortfall: -3.1, grade: 'over' },
      { seconds: 88, meanShortfall: 9.6, grade: 'short' },
    ],
  ],
  stretches: [
    {
      startMs: 312_000,
      endMs: 315_000,
      meanShortfall: 18.4,
      mostShortfall: 24.9,
      speedRpm: 1420,
      loadPercent: 96,
    },
    {
      startMs: 88_000,
      endMs: 91_000,
      meanShortfall: 7.2,
      mostShortfall: 9,
      speedRpm: null,
      loadPercent: null,
    },
  ],
  words: 'Pressure falls short under load above 1000 rpm.',
  ...view,
});
