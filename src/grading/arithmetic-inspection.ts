import type { Inspection } from '../checks/inspection.ts';
import type { ArithmeticStep } from './arithmetic-step.ts';
import type { Verdict } from './verdict.ts';

/** How the verdict on an inspection follows: each point with what was seen, then the rule. */
export function inspectionArithmetic({ points }: Inspection, verdict: Verdict): readonly ArithmeticStep[] {
  const each = points.map(({ point, seen }): ArithmeticStep => ({
    label: point.ask,
    formula: `not in order would be: ${point.whenNot}`,
    numbers: [],
    result: { text: seen },
  }));
  return [
    ...each,
    {
      label: 'Verdict',
      formula:
        'pass where all points are in order, else the worst of those that are not; none while one is open',
      numbers: [],
      result: { text: verdict.word },
    },
  ];
}
