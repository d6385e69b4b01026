import { fromCanonical, toCanonical } from '../quantities/convert.ts';
import { formatNumber, unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { readNumber } from './read-number.ts';

/** What can be typed from an instrument; volumes have their own field. */
export type GaugeQuantity = 'pressure' | 'time';

/** Units that each quantity may be typed in; the first is the one kept inside apart from times, which people read in seconds. */
export const GAUGE_UNITS = {
  pressure: ['kPa', 'bar', 'psi', 'MPa', 'inHg'],
  time: ['s'],
} as const satisfies Record<GaugeQuantity, readonly UnitId[]>;
export type GaugeUnit = (typeof GAUGE_UNITS)[GaugeQuantity][number];

/**
 * What an instrument is worth. A dial has a class in per cent of its full scale and a division; a display has per cent of what it shows,
 * digits, and the step of its last digit. All numbers in `unit`.
 */
export interface GaugeInstrument {
  readonly id: string;
  readonly name: string;
  readonly kind: 'dial' | 'display';
  readonly unit: GaugeUnit;
  readonly fullScale: number;
  readonly percent: number;
  /** Displays only: how many steps of the last digit come on top. */
  readonly digits: number;
  readonly step: number;
}

/** A value as it was typed and as it is kept: canonical unit (kPa or ms), half-widths in the same. */
export interface ValueEntered {
  readonly value: number;
  readonly typed: string;
  readonly tolerance: number;
  readonly halfStep: number;
  readonly instrument: string;
}

/** Values that are likely meant, canonical; what is outside is asked about before it counts. */
export interface LikelyRange {
  readonly min: number;
  readonly max: number;
}

const significant = (value: number): string => {
  const decimals = value === 0 ? 0 : Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value))));
  const text = formatNumber(value, { decimals: Math.min(6, decimals) });
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
};

/** A canonical value in a unit with its symbol, four figures: "1.265 MPa". */
export const inUnit = (canonical: number, unit: UnitId): string =>
  `${significant(fromCanonical(canonical, unit))}\u00a0${unitSymbol(unit)}`;

/** Half-widths of what the instrument is worth at a reading, canonical unit. */
export function instrumentWorth(
  canonical: number,
  { kind, unit, fullScale, percent, digits, step }: GaugeInstrument,
): { readonly tolerance: number; readonly halfStep: number } {
  const share = percent / 100;
  const tolerance =
    kind === 'dial'
      ? toCanonical(fullScale, unit) * share
      : Math.abs(canonical) * share + digits * toCanonical(step, unit);
  return { tolerance, halfStep: toCanonical(step, unit) / 2 };
}

/**
 * No common-rail engine has more pressure and nothing is further below the atmosphere than a vacuum; nobody waits longer than ten minutes.
 * Common practice, no source.
 */
const POSSIBLE: Readonly<Record<GaugeQuantity, LikelyRange>> = {
  pressure: { min: -110, max: 300_000 },
  time: { min: 0, max: 600_000 },
};

/** A value that can be but is hardly meant: what to ask, and in which other units the same number would be likely. */
export interface UnlikelyReading {
  readonly value: number;
  readonly question: string;
  readonly instead: readonly GaugeUnit[];
}

export type GaugeRead = { value: number } | { refusal: string } | { unlikely: UnlikelyReading };

/**
 * What was typed, held against what can be, what is likely meant and what the instrument can show.
 * @returns the canonical value; the reason why it cannot be, in plain words; or, where it is unlikely and was not `confirmed`, what to ask
 */
export function readGauge(
  text: string,
  unit: GaugeUnit,
  meant: {
    readonly quantity: GaugeQuantity;
    readonly likely: LikelyRange;
    readonly instrument: GaugeInstrument | null;
    readonly confirmed: boolean;
  },
): GaugeRead {
  const read = readNumber(text, { min: null, max: null, unit: unitSymbol(unit) });
  if ('refusal' in read) return read;
  const { likely, quantity, instrument, confirmed } = meant;
  const value = toCanonical(read.value, unit);
  const typed = `${text.trim()}\u00a0${unitSymbol(unit)}`;
  if (isOutside(value, POSSIBLE[quantity]))
    return { refusal: `${typed} cannot be. Check the number and the unit.` };
  if (!confirmed && isOutside(value, likely)) {
    const units: readonly GaugeUnit[] = GAUGE_UNITS[quantity];
    const instead = units.filter(
      (other) => other !== unit && !isOutside(toCanonical(read.value, other), likely),
    );
    const side = value > likely.max ? 'more' : 'less';
    const usual = `${inUnit(likely.min, unit)} to ${inUnit(likely.max, unit)}`;
    return {
      unlikely: { value, instead, question: `${typed} is ${side} than is usual here (${usual}). Is it so?` },
    };
  }
  if (instrument && Math.abs(value) > toCanonical(instrument.fullScale, instrument.unit)) {
    const most = inUnit(toCanonical(instrument.fullScale, instrument.unit), unit);
    return {
      refusal: `${instrument.name} shows no more than ${most}. Check the number, the unit and the instrument.`,
    };
  }
  return { value };
}

const isOutside = (value: number, { min, max }: LikelyRange): boolean => value < min || value > max;

/** The value both ways, e.g. "12.65 bar = 1 265 kPa"; once where both are the same. */
export function bothWays(canonical: number, unit: GaugeUnit): string {
  const kept: UnitId = unit === 's' ? 's' : 'kPa';
  const typed = inUnit(canonical, unit);
  return unit === kept
    ? `${typed}${unit === 'kPa' ? ` = ${inUnit(canonical, 'bar')}` : ''}`
    : `${typed} = ${inUnit(canonical, kept)}`;
}

/** The texts of a typed instrument. */
export interface InstrumentText {
  readonly name: string;
  readonly kind: 'dial' | 'display';
  readonly fullScale: string;
  readonly percent: string;
  readonly digits: string;
  readonly step: string;
}

export type InstrumentMistakes = Readonly<Partial<Record<keyof InstrumentText, string>>>;

/** A typed instrument, or what is wrong with each field. */
export function readInstrument(
  text: InstrumentText,
  unit: GaugeUnit,
): { instrument: GaugeInstrument } | { mistakes: InstrumentMistakes } {
  const symbol = unitSymbol(unit);
  const read = {
    fullScale: readNumber(text.fullScale, { min: 0.001, max: 1_000_000, unit: symbol }),
    percent: readNumber(text.percent, { min: 0, max: 25, unit: '%' }),
    digits: readNumber(text.kind === 'dial' ? '0' : text.digits, { min: 0, max: 100, unit: 'digits' }),
    step: readNumber(text.step, { min: 0.000_001, max: 1_000_000, unit: symbol }),
  };
  const mistakes: Partial<Record<keyof InstrumentText, string>> = {};
  const number = (field: keyof typeof read): number => {
    const outcome = read[field];
    if ('value' in outcome) return outcome.value;
    mistakes[field] = outcome.refusal;
    return NaN;
  };
  const name = text.name.trim();
  if (name === '') mistakes.name = 'Give the instrument a name.';
  const [fullScale, percent, digits, step] = [
    number('fullScale'),
    number('percent'),
    number('digits'),
    number('step'),
  ];
  if (step > fullScale) mistakes.step = 'A step cannot be more than the full scale.';
  if (Object.keys(mistakes).length > 0) return { mistakes };
  return { instrument: { id: 'typed', name, kind: text.kind, unit, fullScale, percent, digits, step } };
}
