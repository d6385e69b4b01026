import type { CurvePoint } from './boundary-curve.ts';
import type { Limit, LimitCondition, LimitSheet, SpeedChart } from './limit-sheet.ts';
import { LIMIT_UNIT, printedSymbol } from './printed-unit.ts';
import { rangeText } from './serial-range.ts';

/** One thing that differs between two sheets; null where one of them has none of it. */
export interface SheetDifference {
  /** Where, in words: "crank-delivery, failBelow at 140 rpm". */
  readonly place: string;
  readonly before: string | null;
  readonly after: string | null;
}

/**
 * What differs from one sheet to another, in the order of the sheet, what is gone last; empty when they say the same. Limits are compared by their check, curves by
 * the speeds of their points. The ids of the revisions are left out: they say which one it is, not what it says.
 */
export function sheetDifferences(before: LimitSheet, after: LimitSheet): readonly SheetDifference[] {
  return compared(factsOf(before), factsOf(after));
}

/** A difference as one plain sentence. */
export function differenceSentence({ place, before, after }: SheetDifference): string {
  const start = place.charAt(0).toUpperCase() + place.slice(1);
  if (before === null) return `${start}: ${after} is new.`;
  return after === null ? `${start}: ${before} is gone.` : `${start}: ${before} becomes ${after}.`;
}

/** What a sheet says, each by its place. A value of null says nothing. */
type Facts = ReadonlyMap<string, string | null>;

/** In the order of the new sheet; what is gone stands at the end. */
function compared(before: Facts, after: Facts): readonly SheetDifference[] {
  const places = [...new Set([...after.keys(), ...before.keys()])];
  return places
    .map((place) => ({ place, before: before.get(place) ?? null, after: after.get(place) ?? null }))
    .filter((row) => row.before !== row.after);
}

function factsOf(sheet: LimitSheet): Facts {
  return new Map<string, string | null>([
    ['title', sheet.title],
    ['made up for practice', sheet.invented ? 'yes' : 'no'],
    ['engine family', sheet.engineFamily],
    ['serial numbers', sheet.serialRanges.map(rangeText).join('; ') || null],
    ['sheet id', sheet.sheetId],
    ['revision', sheet.revision],
    ['valid from', sheet.validFrom],
    ['read from', sheet.readFrom],
    ['confirmed', sheet.confirmedOn === null ? null : `${sheet.confirmedOn} by ${sheet.confirmedBy}`],
    ...sheet.limits.flatMap(limitFacts),
  ]);
}

type Fact = readonly [place: string, value: string | null];

function limitFacts(limit: Limit): readonly Fact[] {
  const own = limit.kind === 'speed chart' ? chartFacts(limit) : windowFacts(limit);
  const shared: readonly Fact[] = [
    ['title', limit.title],
    ['kind', limit.kind],
    ['operating point', limit.operatingPoint ?? null],
    ['printed in', limit.printedUnit === undefined ? null : printedSymbol(limit.printedUnit)],
    ['time tolerance', withUnit(limit.timeTolerancePercent, '%')],
    ['repeatability limit', limit.repeatabilityLimit === undefined ? null : `${limit.repeatabilityLimit}`],
    ...limit.conditions.map(conditionFact),
  ];
  return [...shared, ...own].map(([place, value]): Fact => [`${limit.check}, ${place}`, value]);
}

function windowFacts(window: Extract<Limit, { kind: 'window' }>): readonly Fact[] {
  const unit = LIMIT_UNIT[window.quantity];
  return [
    ['quantity', window.quantity],
    ['lowest', withUnit(window.min, unit)],
    ['highest', withUnit(window.max, unit)],
    ['lowest as printed', window.printedNumbers?.min ?? null],
    ['highest as printed', window.printedNumbers?.max ?? null],
    ['time', withUnit(window.durationSeconds, 's')],
  ];
}

const CURVES = [
  ['failBelow', 'fail below'],
  ['passAbove', 'pass above'],
  ['failAbove', 'fail above'],
] as const;

function chartFacts(chart: SpeedChart): readonly Fact[] {
  const { tracing, printedNumbers } = chart;
  return [
    ['cranks', `${chart.cranks} of ${chart.crankSeconds} s`],
    ['average speed', chart.speedAverage],
    ['join', chart.join],
    ...CURVES.flatMap(([name, words]) => curveFacts(words, chart[name] ?? [])),
    ...CURVES.map(([name, words]): Fact => [
      `${words} as printed`,
      (printedNumbers?.[name] ?? []).flat().join(' ') || null,
    ]),
    ['tracing, in volume ±', withUnit(tracing?.uVolumeMl, 'mL')],
    ['tracing, in speed ±', withUnit(tracing?.uSpeedRpm, 'rpm')],
    ['tracing, picture', tracing?.picture ?? null],
    ['tracing, note', tracing?.note || null],
  ];
}

const curveFacts = (name: string, points: readonly CurvePoint[]): readonly Fact[] =>
  points.map(([speed, volume]): Fact => [`${name} at ${speed} rpm`, `${volume} mL`]);

const CONDITIONS: Readonly<Record<LimitCondition['signal'], { name: string; unit: string }>> = {
  fuelTemperature: { name: 'fuel temperature', unit: '°C' },
  coolantTemperature: { name: 'coolant temperature', unit: '°C' },
  batteryVoltage: { name: 'battery voltage', unit: 'V' },
  railPressure: { name: 'rail pressure', unit: 'kPa' },
};

function conditionFact({ signal, min, max, outside }: LimitCondition, index: number): Fact {
  const { name, unit } = CONDITIONS[signal];
  const text = [min === null ? null : `from ${min} ${unit}`, max === null ? null : `to ${max} ${unit}`];
  const then = outside === 'warn' ? 'else a warning' : 'else no verdict';
  return [`condition ${index + 1}`, `${name} ${text.filter((each) => each !== null).join(' ')}, ${then}`];
}

const withUnit = (value: number | null | undefined, unit: string): string | null =>
  value === null || value === undefined ? null : `${value} ${unit}`;
