import { LIMIT_UNIT, fromPrinted, printedQuantity, type PrintedUnit } from '../limits/printed-unit.ts';
import type { Limit, LimitSheet, SerialRange, SpeedChart, Tracing } from '../limits/limit-sheet.ts';
import { cellNumber, numberText, type CurveRow } from '../ui/curve-edit.ts';
import {
  EMPTY_SHEET,
  VOLUME_UNITS,
  type LimitDraft,
  type SerialRangeDraft,
  type SheetDraft,
  type SpeedChartDraft,
  type VolumeUnit,
  type WindowDraft,
} from '../ui/sheet-draft.ts';

/** Which revision a draft becomes, and what cannot be typed: the uncertainty of traced curves, by check. */
export interface SheetIdentity {
  readonly id: string;
  readonly sheetId: string;
  readonly tracings: ReadonlyMap<string, Tracing>;
  /** The sheet that is revised: what the form does not show is carried over from its limits. */
  readonly base: LimitSheet | null;
}

/** A sheet as typed, as it would be kept. It may still hold mistakes: parse-limit-sheet.ts judges it. */
export function sheetOfDraft(draft: SheetDraft, { id, sheetId, tracings, base }: SheetIdentity): LimitSheet {
  return {
    formatVersion: 2,
    id,
    sheetId,
    replaces: null,
    title: draft.title.trim(),
    invented: false,
    engineFamily: draft.engineFamily.trim(),
    serialRanges: draft.ranges.map(rangeOf),
    revision: draft.revision.trim(),
    validFrom: draft.validFrom,
    readFrom: draft.readFrom.trim(),
    confirmedBy: draft.readBy.trim(),
    confirmedOn: draft.confirmedOn === '' ? null : draft.confirmedOn,
    limits: draft.limits.map((limit) => carriedOver(limitOf(limit, tracings), base)),
  };
}

function rangeOf({ prefix, from, to }: SerialRangeDraft): SerialRange {
  const end = (text: string) => (text.trim() === '' ? null : text.trim());
  const named = prefix.trim();
  return { ...(named === '' ? {} : { prefix: named }), from: end(from), to: end(to) };
}

function limitOf(limit: LimitDraft, tracings: ReadonlyMap<string, Tracing>): Limit {
  const check = limit.check.trim();
  const common = { check, title: limit.title.trim() || check, printedUnit: limit.unit, conditions: [] };
  return limit.kind === 'window'
    ? { ...common, ...windowOf(limit) }
    : { ...common, ...chartOf(limit, tracings.get(check)) };
}

/** With what the form does not show: conditions, tolerance of time, repeatability, and the operating point of a chart. */
function carriedOver(limit: Limit, base: LimitSheet | null): Limit {
  const before = base?.limits.find(({ check, kind }) => check === limit.check && kind === limit.kind);
  if (!before) return limit;
  const { conditions, timeTolerancePercent, repeatabilityLimit } = before;
  const operatingPoint = limit.kind === 'speed chart' ? before.operatingPoint : limit.operatingPoint;
  return {
    ...limit,
    conditions,
    ...(timeTolerancePercent === undefined ? {} : { timeTolerancePercent }),
    ...(repeatabilityLimit === undefined ? {} : { repeatabilityLimit }),
    ...(operatingPoint === undefined ? {} : { operatingPoint }),
  };
}

function windowOf(draft: WindowDraft) {
  const kept = (text: string) => (text.trim() === '' ? null : fromPrinted(cellNumber(text), draft.unit));
  const printed = (text: string) => (text.trim() === '' ? null : text.trim());
  const duration = cellNumber(draft.durationSeconds);
  const point = draft.operatingPoint.trim();
  return {
    kind: 'window' as const,
    quantity: printedQuantity(draft.unit),
    min: kept(draft.min),
    max: kept(draft.max),
    durationSeconds: Number.isNaN(duration) ? null : duration,
    ...(point === '' ? {} : { operatingPoint: point }),
    printedNumbers: { min: printed(draft.min), max: printed(draft.max) },
  };
}

function chartOf(
  draft: SpeedChartDraft,
  tracing: Tracing | undefined,
): Omit<SpeedChart, 'check' | 'title' | 'conditions'> {
  const { curves, unit } = draft;
  const points = (rows: readonly CurveRow[]) =>
    rows.map(({ speed, volume }): [number, number] => [
      cellNumber(speed),
      fromPrinted(cellNumber(volume), unit),
    ]);
  const printed = (rows: readonly CurveRow[]) =>
    rows.map(({ speed, volume }): [string, string] => [speed.trim(), volume.trim()]);
  const above = curves.failAbove.length > 0;
  return {
    kind: 'speed chart',
    cranks: cellNumber(draft.cranks),
    crankSeconds: cellNumber(draft.crankSeconds),
    timeTolerancePercent: 5,
    speedAverage: draft.speedAverage,
    join: curves.join,
    failBelow: points(curves.failBelow),
    passAbove: points(curves.passAbove),
    failAbove: above ? points(curves.failAbove) : null,
    printedNumbers: {
      failBelow: printed(curves.failBelow),
      passAbove: printed(curves.passAbove),
      failAbove: above ? printed(curves.failAbove) : null,
    },
    ...(tracing ? { tracing } : {}),
  };
}

/** A kept sheet as a draft to revise: numbers as they were printed where that is known. A confirmation was one of the old numbers: it is not taken over. */
export function draftOfSheet(sheet: LimitSheet): SheetDraft {
  return {
    ...EMPTY_SHEET,
    title: sheet.title,
    engineFamily: sheet.engineFamily,
    ranges: sheet.serialRanges.map(({ prefix, from, to }) => ({
      prefix: prefix ?? '',
      from: from ?? '',
      to: to ?? '',
    })),
    revision: sheet.revision,
    validFrom: sheet.validFrom,
    readFrom: sheet.readFrom,
    readBy: sheet.confirmedBy,
    limits: sheet.limits.map(limitDraft),
  };
}

function limitDraft(limit: Limit): LimitDraft {
  const { check, title } = limit;
  if (limit.kind === 'speed chart') return { ...chartDraft(limit), check, title };
  const unit: PrintedUnit = limit.printedUnit ?? LIMIT_UNIT[limit.quantity];
  const typed = (value: number | null, printed: string | null | undefined) =>
    printed ?? (value === null ? '' : numberText(value / fromPrinted(1, unit)));
  return {
    kind: 'window',
    check,
    title,
    unit,
    min: typed(limit.min, limit.printedNumbers?.min),
    max: typed(limit.max, limit.printedNumbers?.max),
    durationSeconds: limit.durationSeconds === null ? '' : numberText(limit.durationSeconds),
    operatingPoint: limit.operatingPoint ?? '',
  };
}

const isVolumeUnit = (unit: PrintedUnit | undefined): unit is VolumeUnit =>
  (VOLUME_UNITS as readonly PrintedUnit[]).includes(unit ?? 'kPa');

function chartDraft(chart: SpeedChart): Omit<SpeedChartDraft, 'check' | 'title'> {
  const unit = isVolumeUnit(chart.printedUnit) ? chart.printedUnit : 'mL';
  const rows = (name: 'failBelow' | 'passAbove' | 'failAbove'): readonly CurveRow[] =>
    chart.printedNumbers?.[name]?.map(([speed, volume]) => ({ speed, volume })) ??
    (chart[name] ?? []).map(([speed, volume]) => ({
      speed: numberText(speed),
      volume: numberText(volume / fromPrinted(1, unit)),
    }));
  return {
    kind: 'speed chart',
    unit,
    cranks: String(chart.cranks),
    crankSeconds: numberText(chart.crankSeconds),
    speedAverage: chart.speedAverage,
    curves: {
      failBelow: rows('failBelow'),
      passAbove: rows('passAbove'),
      failAbove: rows('failAbove'),
      join: chart.join,
    },
  };
}
