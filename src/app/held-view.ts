import { heldOver, type Bounds } from '../checks/held-signal.ts';
import type { Stretch } from '../checks/value-measurement.ts';
import { fromCanonical } from '../quantities/convert.ts';
import { formatNumber, unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { freshness } from '../signals/freshness.ts';
import { heldState, rangeWords, type HeldView } from '../ui/held-words.ts';
import type { ChosenSignals } from '../checks/chosen-signal.ts';
import { pressureUnitOf, type PressureUnits } from './shown-pressure.ts';

export interface HeldAsked {
  readonly bounds: Bounds;
  readonly signals: ChosenSignals;
  /** What the source's clock shows now, ms: a value that is not current is none. */
  readonly nowMs: number;
  /** Over which part of the time it held; empty before there is any. */
  readonly over: readonly Stretch[];
}

/** Something that has to hold while something else is measured, as it is shown: in the units of this browser. */
export function heldView({ bounds, signals, nowMs, over }: HeldAsked, units: PressureUnits): HeldView {
  const { label, dimension, unit: usual } = SIGNALS[bounds.signal];
  const unit: UnitId = dimension === 'pressure' ? pressureUnitOf(bounds.signal, units) : usual;
  const value = currentValue(signals, bounds, nowMs);
  const shown = (canonical: number | null) =>
    canonical === null ? null : formatNumber(fromCanonical(canonical, unit), { decimals: digitsOf(unit) });
  const { shareOutside } = heldOver(signals, bounds, over);
  return {
    label,
    value: shown(value) ?? '',
    unit: unitSymbol(unit),
    asked: rangeWords(shown(bounds.min), shown(bounds.max), unitSymbol(unit)),
    state: heldState(value, bounds.min, bounds.max),
    share: shareOutside === null ? null : 1 - shareOutside,
  };
}

const digitsOf = (unit: UnitId): number => (unit === 'MPa' ? 1 : 0);

/** The last number of a signal; null where there is none or it is not fresh. */
export function currentValue(
  signals: ChosenSignals,
  { signal }: Pick<Bounds, 'signal'>,
  nowMs: number,
): number | null {
  const heard = signals[signal];
  if (!heard || freshness(heard.trace, nowMs).state !== 'fresh') return null;
  const value = heard.trace.value[heard.trace.length - 1]!;
  return Number.isFinite(value) ? value : null;
}
