import { measureCrankDelivery } from '../checks/crank-delivery.ts';
import type { CrankDelivery } from '../checks/measurement.ts';
import { deliveryArithmetic } from '../grading/arithmetic.ts';
import { notValid } from '../grading/judge.ts';
import type { Problem } from '../problems/problem.ts';
import type { CheckFacts } from './check-facts.ts';
import type { CheckToJudge, JudgedCheck } from './judged-check.ts';
import { judgeRun, typedVolume, withChoices } from './judge-run.ts';
import { limitOfCheck } from './limit-of-check.ts';
import { missingMessages } from './missing-messages.ts';
import type { RunValues } from './run-entries.ts';
import { volumeSummary } from './value-summary.ts';

/** A crank delivery, as judge-run judges it; without a chart it is measured against no target, and not valid once a volume was typed. */
export function judgeDelivery(asked: CheckToJudge): JudgedCheck {
  const { kind, check, sheet, facts, values } = asked;
  const run = judgeRun(sheet, check, facts, values);
  if (!run.ok) return withoutChart(asked, run.problem);
  const { chart, delivery, verdict, volumeProblem } = run.value;
  return {
    kind,
    limit: chart,
    measurement: { kind: 'crank delivery', chart, delivery },
    verdict,
    valueSummary: volumeSummary(delivery.volume, delivery.volumeAtTargetMl),
    arithmetic: verdict ? deliveryArithmetic(delivery, chart, verdict) : [],
    volumeProblem,
  };
}

function withoutChart(asked: CheckToJudge, missing: Problem): JudgedCheck {
  const { kind, facts, values } = asked;
  const volume = typedVolume(values);
  const delivery = measuredAlone(facts, values);
  return {
    kind,
    limit: limitOfCheck(asked).limit,
    measurement: { kind: 'crank delivery', chart: null, delivery },
    verdict: values.volume
      ? notValid([missing, ...delivery.reasons], [...delivery.warnings, ...missingMessages(facts.signals)])
      : null,
    valueSummary: volumeSummary(delivery.volume, null),
    arithmetic: [],
    volumeProblem: volume.ok ? null : volume.problem,
  };
}

/** What was cranked is its own target: without a chart no time is right or wrong. */
function measuredAlone(facts: CheckFacts, values: RunValues): CrankDelivery {
  const cranks = facts.cranks.map((entry, place) => withChoices(entry, place, values));
  const counting = cranks.filter(({ leftOut }) => !leftOut);
  const seconds = counting.reduce((sum, { time }) => sum + time.spanMs, 0) / 1000;
  const volume = typedVolume(values);
  return measureCrankDelivery({
    limit: {
      cranks: Math.max(1, counting.length),
      crankSeconds: seconds / Math.max(1, counting.length),
      timeTolerancePercent: 5,
      conditions: [],
    },
    cranks,
    average: facts.average,
    volume: volume.ok ? volume.value : null,
  });
}
