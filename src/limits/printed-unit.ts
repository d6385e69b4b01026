import { toCanonical } from '../quantities/convert.ts';
import { unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** What a window, or the volume of a chart, is a number of. */
export type LimitQuantity = 'volume' | 'pressure' | 'time' | 'rate';

/** The unit that limits of a quantity are kept in. A rate is a flow. */
export const LIMIT_UNIT = { volume: 'mL', pressure: 'kPa', time: 'ms', rate: 'mL/min' } as const;

/** Units that limits are printed in. */
export const PRINTED_UNITS = [
  'mL',
  'L',
  'usFlOz',
  'impFlOz',
  'kPa',
  'MPa',
  'bar',
  'psi',
  'Pa',
  'inHg',
  'mmHg',
  'ms',
  's',
  'min',
  'mL/min',
  'L/min',
  'L/h',
] as const;
export type PrintedUnit = (typeof PRINTED_UNITS)[number];

interface PrintedDefinition {
  readonly quantity: LimitQuantity;
  readonly unit: UnitId;
  /** For flows: minutes that the volume takes. */
  readonly minutes?: number;
}

const DEFINITIONS: Readonly<Record<PrintedUnit, PrintedDefinition>> = {
  mL: { quantity: 'volume', unit: 'mL' },
  L: { quantity: 'volume', unit: 'L' },
  usFlOz: { quantity: 'volume', unit: 'usFlOz' },
  impFlOz: { quantity: 'volume', unit: 'impFlOz' },
  kPa: { quantity: 'pressure', unit: 'kPa' },
  MPa: { quantity: 'pressure', unit: 'MPa' },
  bar: { quantity: 'pressure', unit: 'bar' },
  psi: { quantity: 'pressure', unit: 'psi' },
  Pa: { quantity: 'pressure', unit: 'Pa' },
  inHg: { quantity: 'pressure', unit: 'inHg' },
  mmHg: { quantity: 'pressure', unit: 'mmHg' },
  ms: { quantity: 'time', unit: 'ms' },
  s: { quantity: 'time', unit: 's' },
  min: { quantity: 'time', unit: 'min' },
  'mL/min': { quantity: 'rate', unit: 'mL', minutes: 1 },
  'L/min': { quantity: 'rate', unit: 'L', minutes: 1 },
  'L/h': { quantity: 'rate', unit: 'L', minutes: 60 },
};

/** What a printed unit is a unit of. */
export const printedQuantity = (unit: PrintedUnit): LimitQuantity => DEFINITIONS[unit].quantity;

/** The units that numbers of this quantity may be printed in, the one that is kept first. */
export const printedUnitsOf = (quantity: LimitQuantity): readonly PrintedUnit[] =>
  PRINTED_UNITS.filter((unit) => printedQuantity(unit) === quantity);

/** The unit as printed beside a number: "US fl oz", "L/h". */
export const printedSymbol = (unit: PrintedUnit): string =>
  unit.includes('/') ? unit : unitSymbol(unit as UnitId);

/** A number in a printed unit as the unit that limits of that quantity are kept in (`LIMIT_UNIT`). */
export function fromPrinted(value: number, unit: PrintedUnit): number {
  const { unit: id, minutes = 1 } = DEFINITIONS[unit];
  return toCanonical(value, id) / minutes;
}

/**
 * A number as it was printed or typed: "4.25", "4,25", "1 200". What could be two numbers ("1,200": a thousand or one and a bit) and what is none is
 * `limit.printed-number`.
 */
export function readPrinted(text: string): Result<number> {
  const bare = text.replace(/[\s\u202f\u00a0]/g, '').replace('\u2212', '-');
  if (/^[-+]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(bare))
    return failed(
      problem('limit.printed-number', { typed: text.trim(), why: 'the comma may be read in two ways' }),
    );
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(bare))
    return failed(
      problem('limit.printed-number', {
        typed: text.trim().slice(0, 40),
        why: bare ? 'it is no number' : 'it is empty',
      }),
    );
  return ok(Number(bare.replace(',', '.')));
}

/** A printed number beside the one that is kept: "4.25 US fl oz = 125.687 mL". Only the one in the printed unit where both are the same. */
export function shownBothWays(typed: string, kept: number, unit: PrintedUnit): string {
  const keptUnit = LIMIT_UNIT[printedQuantity(unit)];
  const printed = `${typed.trim()} ${printedSymbol(unit)}`;
  return unit === keptUnit ? printed : `${printed} = ${Number(kept.toPrecision(6))} ${keptUnit}`;
}
