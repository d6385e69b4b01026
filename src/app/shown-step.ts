import type { ArithmeticStep as GradingStep, NamedNumber } from '../grading/arithmetic-step.ts';
import type { ArithmeticStep } from '../ui/arithmetic-sheet.ts';

/** A step of the arithmetic as text for the screen; numbers to six significant figures, so that they can be worked with. */
export function shownStep({ label, formula, numbers, result }: GradingStep): ArithmeticStep {
  return {
    label,
    formula,
    numbers: numbers.map((each) => `${each.name} ${figure(each)}`).join(' · '),
    result: 'text' in result ? result.text : figure(result),
  };
}

const figure = ({ value, unit }: NamedNumber): string =>
  `${Number.isFinite(value) ? Number(value.toPrecision(6)) : '–'} ${unit}`.trim();
