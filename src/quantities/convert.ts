import type { Dimension, UnitId } from './unit.ts';

/** canonical = (value - zero) * factor / divisor. Two whole numbers stay exact where one quotient would not. */
interface UnitDefinition {
  readonly dimension: Dimension;
  readonly factor: number;
  readonly divisor?: number;
  readonly zero?: number;
}

const KPA_PER_MMHG = 0.133322387415; // 13595.1 kg/m3 * 9.80665 m/s2 * 1 mm (mercury at 0 degC)

/** By definition, or NIST SP 811 Appendix B. The only factors in the project. */
const UNITS: Readonly<Record<UnitId, UnitDefinition>> = {
  rpm: { dimension: 'speed', factor: 1 },
  kPa: { dimension: 'pressure', factor: 1 },
  MPa: { dimension: 'pressure', factor: 1000 },
  bar: { dimension: 'pressure', factor: 100 },
  psi: { dimension: 'pressure', factor: 4.4482216152605, divisor: 0.64516 }, // lbf in N over in2 in 1000 mm2
  Pa: { dimension: 'pressure', factor: 1, divisor: 1000 },
  inHg: { dimension: 'pressure', factor: 25.4 * KPA_PER_MMHG },
  mmHg: { dimension: 'pressure', factor: KPA_PER_MMHG },
  V: { dimension: 'voltage', factor: 1 },
  mV: { dimension: 'voltage', factor: 1, divisor: 1000 },
  degC: { dimension: 'temperature', factor: 1 },
  degF: { dimension: 'temperature', factor: 1, divisor: 1.8, zero: 32 },
  mL: { dimension: 'volume', factor: 1 },
  L: { dimension: 'volume', factor: 1000 },
  usFlOz: { dimension: 'volume', factor: 29.5735295625 }, // 231 in3 / 128
  impFlOz: { dimension: 'volume', factor: 28.4130625 }, // 4.54609 L / 160
  ms: { dimension: 'span', factor: 1 },
  s: { dimension: 'span', factor: 1000 },
  min: { dimension: 'span', factor: 60_000 },
  percent: { dimension: 'ratio', factor: 1 },
  h: { dimension: 'hours', factor: 1 },
  state: { dimension: 'state', factor: 1 },
};

const CANONICAL: Readonly<Record<Dimension, UnitId>> = {
  speed: 'rpm',
  pressure: 'kPa',
  voltage: 'V',
  temperature: 'degC',
  volume: 'mL',
  span: 'ms',
  ratio: 'percent',
  hours: 'h',
  state: 'state',
};

/** Why a conversion was refused. Not a `Problem`: this folder stands below the catalogue. */
export interface UnlikeDimensions {
  readonly from: Dimension;
  readonly to: Dimension;
}

/** A `Result` whose failure names the two dimensions. */
export type Conversion =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly problem: UnlikeDimensions };

/** What a unit measures. */
export const dimensionOf = (unit: UnitId): Dimension => UNITS[unit].dimension;

/** The unit used inside for a dimension: rpm, kPa, V, degC, mL, ms, percent, h, state. */
export const canonicalUnit = (dimension: Dimension): UnitId => CANONICAL[dimension];

/** A value in `unit` as the canonical unit of its dimension. NaN and infinities pass through. */
export function toCanonical(value: number, unit: UnitId): number {
  const { factor, divisor = 1, zero = 0 } = UNITS[unit];
  return ((value - zero) * factor) / divisor;
}

/** A canonical value in `unit`. NaN and infinities pass through. */
export function fromCanonical(value: number, unit: UnitId): number {
  const { factor, divisor = 1, zero = 0 } = UNITS[unit];
  return (value * divisor) / factor + zero;
}

/** A value in another unit of the same dimension; refused between unlike dimensions. */
export function convert(value: number, from: UnitId, to: UnitId): Conversion {
  const problem: UnlikeDimensions = { from: dimensionOf(from), to: dimensionOf(to) };
  if (problem.from !== problem.to) return { ok: false, problem };
  return { ok: true, value: from === to ? value : fromCanonical(toCanonical(value, from), to) };
}
