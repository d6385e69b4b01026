import type { CheckSettings } from '../checks/check-settings.ts';
import type { Verdict } from '../grading/verdict.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import type { ValueSummary } from '../jobs/run.ts';
import { formatNumber } from '../quantities/format.ts';
import type { FactRow } from '../ui/fact-list.ts';
import type { WindowMark } from '../ui/window-scale.ts';
import { measuredLabel, pressureScale, type PressureUnits } from './shown-pressure.ts';
import { shownUnit, shownValue } from './value-words.ts';

/** How the value of a check is shown in this browser. */
export interface ResultScale {
  readonly unit: string;
  readonly digits: number;
  /** From the unit in which it is kept. */
  readonly of: (kept: number) => number;
}

/** The unit and the decimals of a graded value: pressures as this browser shows them, times in s, volumes in mL. */
export function resultScale(
  quantity: ValueSummary['quantity'],
  settings: CheckSettings,
  units: PressureUnits,
): ResultScale {
  if (quantity === 'pressure') return pressureScale(settings, units);
  const digits = quantity === 'time' ? 2 : 1;
  return { unit: shownUnit(quantity), digits, of: (kept) => shownValue(kept, quantity) };
}

/** A value against its window, as it is drawn. */
export interface WindowView extends Pick<ResultScale, 'unit' | 'digits'> {
  readonly label: string;
  readonly min: number | null;
  readonly max: number | null;
  readonly value: WindowMark;
}

/** The graded value against its window, with two standard uncertainties; null without a value or a window. */
export function windowView(
  { limit, valueSummary }: JudgedCheck,
  settings: CheckSettings,
  scale: ResultScale,
): WindowView | null {
  if (limit?.kind !== 'window' || !valueSummary || valueSummary.value === null) return null;
  const { value, standardUncertainty } = valueSummary;
  const of = (kept: number | null) => (kept === null ? null : scale.of(kept));
  const halfWidth = Number.isFinite(standardUncertainty) ? 2 * scale.of(standardUncertainty) : 0;
  return {
    label: measuredLabel(settings),
    unit: scale.unit,
    digits: scale.digits,
    min: of(limit.min),
    max: of(limit.max),
    value: { value: scale.of(value), halfWidth, label: 'measured' },
  };
}

/** What was measured beside the value; pressures in the unit that the value has. */
export function factRows(facts: ValueSummary['facts'], pressure: ResultScale): readonly FactRow[] {
  return facts.map(({ name, value, unit }) => {
    const rate = unit === 'kPa/s';
    const isPressure = unit === 'kPa' || rate;
    const shown = isPressure ? pressure.of(value) : value;
    return {
      name: name.replace(/^./, (first) => first.toUpperCase()),
      value: figure(shown),
      unit: isPressure ? `${pressure.unit}${rate ? '/s' : ''}` : unit,
    };
  });
}

/** Four figures, as many as any of these is worth. */
function figure(value: number): string {
  const size = Math.abs(value);
  const whole = size < 1 ? 1 : Math.floor(Math.log10(size)) + 1;
  return formatNumber(value, { decimals: Number.isInteger(value) ? 0 : Math.max(0, 4 - whole) });
}

/** The distance to the boundary in the unit in which the value is shown. */
export function verdictInUnit(verdict: Verdict, scale: ResultScale): Verdict {
  if (!verdict.nearest) return verdict;
  const { atValue, distance } = verdict.nearest;
  return {
    ...verdict,
    nearest: { ...verdict.nearest, atValue: scale.of(atValue), distance: scale.of(distance) },
  };
}
