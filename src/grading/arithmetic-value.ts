import type { MeasuredFact, ValueCause, ValueMeasurement } from '../checks/value-measurement.ts';
import type { Window } from '../limits/limit-sheet.ts';
import { LIMIT_UNIT } from '../limits/printed-unit.ts';
import { named, type ArithmeticStep, type NamedNumber } from './arithmetic-step.ts';
import { causeWords, placementSteps, verdictStep } from './arithmetic.ts';
import { windowValue } from './grade-value.ts';
import { placeInWindow } from './grade-window.ts';
import type { Verdict } from './verdict.ts';

/** The kinds of check that give one value. */
export type ValueKind = 'steady pressure' | 'pressure build' | 'pressure decay' | 'pressure deviation';

const FORMULA: Readonly<Record<ValueKind, string>> = {
  'steady pressure': 'area under the trace of the steady stretch ÷ its time (trapezoids)',
  'pressure build': 'instant of the rise to the upper pressure − instant of the beginning',
  'pressure decay': 'instant of the fall to the lower pressure − instant of the fall through the upper one',
  'pressure deviation':
    'commanded − actual pressure, area under the trace of the worst stretch ÷ its time; 0 where it never fell short',
};

const LABEL: Readonly<Record<ValueKind, string>> = {
  'steady pressure': 'Steady pressure',
  'pressure build': 'Time of the build',
  'pressure decay': 'Time of the decay',
  'pressure deviation': 'Worst mean shortfall',
};

/**
 * Every number behind the verdict on a measured value, in the order in which a person would work it out: what was measured, what the uncertainty
 * is made of, boundaries, distance, probability, verdict. Without a limit it ends after the uncertainty, without a value after what is missing.
 */
export function valueArithmetic(
  kind: ValueKind,
  measurement: ValueMeasurement,
  window: Window | null,
  verdict: Verdict | null,
): readonly ArithmeticStep[] {
  const value = windowValue(measurement);
  const placed = value && window ? placeInWindow(value, window) : null;
  return [
    ...(value ? [valueStep(kind, measurement, value.value), ...uncertaintySteps(measurement)] : []),
    ...(placed?.ok && verdict && verdict.leaning !== null ? placementSteps(placed.value, verdict) : []),
    ...(verdict ? [verdictStep(verdict)] : []),
  ];
}

function valueStep(kind: ValueKind, measurement: ValueMeasurement, value: number): ArithmeticStep {
  const { stretch, facts, typed, atLeast, quantity } = measurement;
  const edges = stretch
    ? [named('from', stretch.startMs / 1000, 's'), named('to', stretch.endMs / 1000, 's')]
    : [];
  return {
    label: typed ? 'Value read off an instrument' : LABEL[kind],
    formula: typed
      ? 'as typed'
      : atLeast
        ? `${FORMULA[kind]}; known only to be at least this`
        : FORMULA[kind],
    numbers: [...edges, ...facts.map(factNumber)],
    result: named(atLeast ? 'at least' : 'value', value, LIMIT_UNIT[quantity]),
  };
}

const factNumber = ({ name, value, unit }: MeasuredFact): NamedNumber => named(name, value, unit);

function uncertaintySteps({
  parts,
  standardUncertainty,
  quantity,
  typed,
}: ValueMeasurement): readonly ArithmeticStep[] {
  const unit = LIMIT_UNIT[quantity];
  const note =
    typed || quantity === 'time' ? '' : '; how far off the sensor itself may be is not known and not in it';
  return [
    {
      label: 'Standard uncertainty of the value',
      formula: `square root of the sum of the squares${note}`,
      numbers: parts.map((part) => named(causeOf(part.cause), part.standardUncertainty, unit)),
      result: named('u', standardUncertainty, unit),
    },
  ];
}

const causeOf = (cause: ValueCause): string => causeWords(cause);
