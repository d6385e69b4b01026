import type { PressureDeviationSettings } from '../checks/check-settings.ts';
import type { Band } from '../checks/deviation-bands.ts';
import type { PressureDeviation } from '../checks/pressure-deviation.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import { isOpen } from '../link/link-state.ts';
import { describeProblem } from '../problems/problem.ts';
import type { BandGrade, DeviationView } from '../ui/deviation.ts';
import { formatNumber } from '../quantities/format.ts';
import type { RunView } from './run-view.ts';
import { pressureScale, type PressureScale, type PressureUnits } from './shown-pressure.ts';

/** Less time in a cell says nothing of it: common practice, no source. */
const FEW_SECONDS = 2;

/** A drive as it is shown: big and quiet while it is recorded, with its tables after; null for checks of another kind. */
export function deviationView(
  { measurement, limit }: JudgedCheck,
  view: RunView,
  units: PressureUnits,
): DeviationView | null {
  const { settings } = view.guide;
  if (measurement.kind !== 'pressure deviation' || settings.kind !== 'pressure deviation') return null;
  const { value: measured } = measurement;
  const scale = pressureScale(settings, units);
  const most = limit?.kind === 'window' ? limit.max : null;
  const zeroMs = view.pipeline?.firstMs ?? 0;
  return {
    recording: isOpen(view.link),
    seconds: measured.facts.find(({ name }) => name === 'time')?.value ?? 0,
    neededSeconds: settings.leastSeconds,
    worst: measured.value === null ? null : scale.of(measured.value),
    stretchSeconds: settings.stretchSeconds,
    unit: scale.unit,
    digits: scale.digits,
    ...namesOf(settings, measured),
    cells: measured.cells.map((row) =>
      row.map(({ seconds, values, meanKPa }) => ({
        seconds,
        meanShortfall: values === 0 ? null : scale.of(0 - meanKPa),
        grade: gradeOf(seconds, 0 - meanKPa, most),
      })),
    ),
    stretches: measured.worst.map((stretch) => ({
      startMs: stretch.startMs - zeroMs,
      endMs: stretch.endMs - zeroMs,
      meanShortfall: scale.of(stretch.meanShortfallKPa),
      mostShortfall: scale.of(stretch.mostShortfallKPa),
      speedRpm: stretch.speedRpm,
      loadPercent: stretch.loadPercent,
    })),
    words: wordsOf(measured, most, scale),
  };
}

/** How a mean shortfall stands to the most that is allowed: without a limit it is only measured. */
function gradeOf(seconds: number, shortfallKPa: number, most: number | null): BandGrade {
  if (!(seconds >= FEW_SECONDS)) return 'few';
  if (most === null) return 'measured';
  if (shortfallKPa > most) return 'short';
  return shortfallKPa < -most ? 'over' : 'good';
}

/** An axis with one band was not known in the data. */
function namesOf(
  { speedBandsRpm, loadBandsPercent }: PressureDeviationSettings,
  measured: PressureDeviation,
): Pick<DeviationView, 'speedBands' | 'loadBands'> {
  const { cells } = measured;
  const load = cells[0] ?? [];
  return {
    speedBands:
      cells.length < 2 && speedBandsRpm.length > 0
        ? ['any speed']
        : measured.speedBands.map((band) => bandName(band, 'rpm')),
    loadBands:
      load.length < 2 && loadBandsPercent.length > 0
        ? ['any load']
        : load.map((band) => bandName(band, '% load')),
  };
}

function bandName({ from, to }: Pick<Band, 'from' | 'to'>, unit: string): string {
  if (from === null) return to === null ? 'any' : `to ${to} ${unit}`;
  return to === null ? `above ${from} ${unit}` : `${from} to ${to} ${unit}`;
}

function wordsOf(measured: PressureDeviation, most: number | null, scale: PressureScale): string {
  if (measured.typed) return 'The shortfall was typed.';
  const [first] = measured.reasons;
  if (first) return describeProblem(first).message;
  if (measured.value === null || most === null) return 'There is no limit to hold it against.';
  const shown = `${formatNumber(scale.of(most), { decimals: scale.digits })} ${scale.unit}`;
  return measured.value > most
    ? `Falls short by more than the ${shown} that are allowed.`
    : `Never short by more than the ${shown} that are allowed.`;
}
