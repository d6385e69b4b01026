import type { CheckSettings } from '../checks/check-settings.ts';
import type { GaugeInstrument, GaugeQuantity, GaugeUnit, LikelyRange } from '../ui/gauge-reading.ts';
import type { Settings } from './settings.ts';
import { measuredLabel, measuredSignal, pressureUnitOf } from './shown-pressure.ts';

/** What a person is asked to read off an instrument of their own. */
export interface GaugeAsked {
  readonly label: string;
  readonly quantity: GaugeQuantity;
  readonly unit: GaugeUnit;
  readonly likely: LikelyRange;
  readonly instruments: readonly GaugeInstrument[];
}

const dial = (fullScale: number, step: number): GaugeInstrument => ({
  id: `dial-${fullScale}`,
  name: `Dial gauge to ${fullScale} bar, class 1.6`,
  kind: 'dial',
  unit: 'bar',
  fullScale,
  percent: 1.6,
  digits: 0,
  step,
});

/** Gauges of accuracy class 1.6 (a class of EN 837-1, from memory) in usual ranges; ranges and divisions are common practice, no source. */
const PRESSURE_DIALS: readonly GaugeInstrument[] = [dial(16, 0.5), dial(25, 0.5), dial(4, 0.1)];
const VACUUM_DIALS: readonly GaugeInstrument[] = [
  { ...dial(1, 0.05), id: 'vacuum-1', name: 'Vacuum gauge to 1 bar, class 1.6' },
];
/** A hand on a button is up to 0.3 s off (common practice, no source; checks/collection.ts). */
const STOPWATCHES: readonly GaugeInstrument[] = [
  {
    id: 'stopwatch',
    name: 'Stopwatch, by hand',
    kind: 'display',
    unit: 's',
    fullScale: 3600,
    percent: 0,
    digits: 30,
    step: 0.01,
  },
];

/**
 * What is asked for in a check that a person measures with an instrument of their own; null for checks that give no such value. Ranges in
 * kPa and ms, wide enough for a sick engine: common practice, no source.
 */
export function gaugeAsked(settings: CheckSettings, kept: Settings): GaugeAsked | null {
  const typed = kept.instruments.filter(({ unit }) => (unit === 's') === isTime(settings));
  const own = (known: readonly GaugeInstrument[]) => [...typed, ...known];
  const label = measuredLabel(settings);
  const unit = pressureUnitOf(measuredSignal(settings), kept);
  const pressure = { label, quantity: 'pressure', unit } as const;
  const time = { label, quantity: 'time', unit: 's', instruments: own(STOPWATCHES) } as const;
  switch (settings.kind) {
    case 'steady pressure':
      if (settings.vacuum)
        return { ...pressure, likely: { min: -80, max: 80 }, instruments: own(VACUUM_DIALS) };
      return settings.signal === 'supplyPressure'
        ? { ...pressure, likely: { min: 20, max: 2500 }, instruments: own(PRESSURE_DIALS) }
        : { ...pressure, likely: { min: 0, max: 300_000 }, instruments: own([]) };
    case 'pressure build':
      return { ...time, likely: { min: 100, max: 60_000 } };
    case 'pressure decay':
      return { ...time, likely: { min: 100, max: 300_000 } };
    case 'pressure deviation':
      return { ...pressure, likely: { min: 0, max: 100_000 }, instruments: own([]) };
    case 'collected volume':
    case 'crank delivery':
    case 'inspection':
      return null;
  }
}

const isTime = ({ kind }: CheckSettings): boolean => kind === 'pressure build' || kind === 'pressure decay';

/** So many instruments of the shop are remembered. */
const MOST = 8;

/** The instruments with one more, which takes the place of one of the same name; the last typed comes first. */
export function withInstrument(
  instruments: readonly GaugeInstrument[],
  typed: GaugeInstrument,
): GaugeInstrument[] {
  const own = { ...typed, id: `own-${typed.name}` };
  return [own, ...instruments.filter(({ name }) => name !== typed.name)].slice(0, MOST);
}
