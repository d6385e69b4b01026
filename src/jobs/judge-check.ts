import type { CheckSettings } from '../checks/check-settings.ts';
import { inspect, type Inspection } from '../checks/inspection.ts';
import { inspectionArithmetic } from '../grading/arithmetic-inspection.ts';
import { gradeInspection } from '../grading/grade-inspection.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { judgeCollection } from './judge-collection.ts';
import { judgeDelivery } from './judge-delivery.ts';
import { judgeValue } from './judge-value.ts';
import { missingMessages } from './missing-messages.ts';
import type { CheckToJudge, JudgedCheck } from './judged-check.ts';

/**
 * From the facts of the data and what the person did to a verdict, for every kind of check. Pure: the live screen, a replay, an imported log and typed numbers
 * go the same way. Without a limit the measurement is still given, and the verdict is `not valid` with the reason. Fails only where the run
 * has no settings for its kind.
 */
export function judgeCheck(asked: CheckToJudge): Result<JudgedCheck> {
  const { kind, guide } = asked;
  const settings = guide?.settings;
  if (kind === 'crank delivery') return ok(judgeDelivery(asked));
  if (!settings || settings.kind !== kind) return failed(problem('check.no-settings', { kind }));
  return ok(withMissing(asked, judged(asked, settings)));
}

/** The verdict with what its data lacked. Crank deliveries are told so where they are judged (judge-run.ts). */
function withMissing({ facts }: CheckToJudge, check: JudgedCheck): JudgedCheck {
  const { verdict } = check;
  if (!verdict) return check;
  return {
    ...check,
    verdict: { ...verdict, warnings: [...verdict.warnings, ...missingMessages(facts.signals)] },
  };
}

function judged(asked: CheckToJudge, settings: CheckSettings): JudgedCheck {
  switch (settings.kind) {
    case 'crank delivery':
      return judgeDelivery(asked);
    case 'collected volume':
      return judgeCollection(asked, settings);
    case 'inspection':
      return judgeInspection(asked, inspect(settings, asked.values.observations));
    case 'steady pressure':
    case 'pressure build':
    case 'pressure decay':
    case 'pressure deviation':
      return judgeValue(asked, settings);
  }
}

function judgeInspection({ kind }: CheckToJudge, inspection: Inspection): JudgedCheck {
  const verdict = gradeInspection(inspection);
  return {
    kind,
    limit: null,
    measurement: { kind: 'inspection', inspection },
    verdict,
    valueSummary: null,
    arithmetic: inspectionArithmetic(inspection, verdict),
    volumeProblem: null,
  };
}
