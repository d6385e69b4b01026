import { problem, type Problem } from '../problems/problem.ts';
import type { CurvePoint } from './boundary-curve.ts';
import type { Limit, SpeedChart, Window } from './limit-sheet.ts';
import {
  fromPrinted,
  LIMIT_UNIT,
  printedQuantity,
  printedSymbol,
  readPrinted,
  type PrintedUnit,
} from './printed-unit.ts';

/** A printed number may differ from the kept one by no more than this share: that is arithmetic, not another number. */
const SAME_WITHIN = 1e-6;

/**
 * Where the numbers as they were printed do not fit those that are kept: a unit of something else, another number of points, a number that
 * converts to another one. Empty where a limit brings no printed numbers.
 */
export function printedMistakes(limit: Limit, place: string): readonly Problem[] {
  const quantity = limit.kind === 'window' ? limit.quantity : 'volume';
  const unit = limit.printedUnit ?? LIMIT_UNIT[quantity];
  if (printedQuantity(unit) !== quantity)
    return [problem('limit.printed-unit', { place, unit: printedSymbol(unit), quantity })];
  return limit.kind === 'window'
    ? printedWindowMistakes(limit, unit, place)
    : printedCurveMistakes(limit, unit, place);
}

function printedWindowMistakes(
  { printedNumbers, min, max }: Window,
  unit: PrintedUnit,
  place: string,
): readonly Problem[] {
  if (!printedNumbers) return [];
  return [
    ...differing(printedNumbers.min, min, unit, `${place}, min`),
    ...differing(printedNumbers.max, max, unit, `${place}, max`),
  ];
}

const CURVES = ['failBelow', 'passAbove', 'failAbove'] as const;

function printedCurveMistakes(chart: SpeedChart, unit: PrintedUnit, place: string): readonly Problem[] {
  const { printedNumbers } = chart;
  if (!printedNumbers) return [];
  return CURVES.flatMap((name) => {
    const points: readonly CurvePoint[] = chart[name] ?? [];
    const printed = printedNumbers[name] ?? [];
    const here = `${place}, ${name}`;
    if (printed.length !== points.length)
      return [problem('limit.printed-points', { place: here, printed: printed.length, kept: points.length })];
    return points.flatMap(([speed, volume], index) => {
      const [speedText = '', volumeText = ''] = printed[index] ?? [];
      const point = `${here}, point ${index + 1}`;
      return [
        ...differing(speedText, speed, 'rpm', `${point}, speed`),
        ...differing(volumeText, volume, unit, `${point}, volume`),
      ];
    });
  });
}

function differing(
  typed: string | null,
  kept: number | null,
  unit: PrintedUnit | 'rpm',
  place: string,
): readonly Problem[] {
  if (typed === null && kept === null) return [];
  const keptUnit = unit === 'rpm' ? 'rpm' : LIMIT_UNIT[printedQuantity(unit)];
  const shown = unit === 'rpm' ? 'rpm' : printedSymbol(unit);
  const keptText = kept === null ? 'none' : `${Number(kept.toPrecision(6))} ${keptUnit}`;
  if (typed === null) return [differs({ place, printed: 'none', converted: 'none', kept: keptText })];
  const read = readPrinted(typed);
  if (!read.ok) return [read.problem];
  const converted = unit === 'rpm' ? read.value : fromPrinted(read.value, unit);
  if (kept !== null && Math.abs(converted - kept) <= SAME_WITHIN * Math.max(1e-3, Math.abs(kept))) return [];
  const convertedText = `${Number(converted.toPrecision(6))} ${keptUnit}`;
  return [differs({ place, printed: `${typed} ${shown}`, converted: convertedText, kept: keptText })];
}

const differs = (context: Problem['context']): Problem => problem('limit.printed-differs', context);
