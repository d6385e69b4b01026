import type { SpeedAverage } from '../crank/crank.ts';
import type { SpeedChart } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { judgeConditions, type Judged } from './conditions.ts';
import type { CrankEntry } from './crank-entry.ts';
import { crankProblems } from './crank-problems.ts';
import { joinedUncertaintyMs } from './joined-crank-time.ts';
import type {
  ConditionValues,
  CountedCrank,
  CrankDelivery,
  Override,
  VolumeMeasurement,
} from './measurement.ts';
import { applyOverrides } from './overrides.ts';
import { rounded } from './rounded.ts';
import { scaledToTarget, timeOutside } from './time-on-target.ts';

/** All that a crank delivery is made of. */
export interface CrankDeliveryInput {
  readonly limit: Pick<SpeedChart, 'cranks' | 'crankSeconds' | 'timeTolerancePercent' | 'conditions'>;
  readonly cranks: readonly CrankEntry[];
  /** Speed over the cranks that count (crank-average joins them); null where there is none. */
  readonly average: SpeedAverage | null;
  readonly volume: VolumeMeasurement | null;
  readonly conditions?: ConditionValues;
  readonly overrides?: readonly Override[];
}

/**
 * Puts a crank delivery together: crank time of the cranks that count with its standard uncertainty (`joinedUncertaintyMs`), what makes it not valid, what warns. Outside the time tolerance `volumeAtTargetMl` is the volume scaled to the target time;
 * the reason stands unless overridden with a reason. A missing volume is no reason here: during the run it is simply not typed yet.
 */
export function measureCrankDelivery(input: CrankDeliveryInput): CrankDelivery {
  const { limit, volume } = input;
  const counting = input.cranks.filter(({ leftOut }) => !leftOut);
  const crankSeconds = counting.reduce((sum, { time }) => sum + time.spanMs, 0) / 1000;
  const crankSecondsUncertainty = joinedUncertaintyMs(counting) / 1000;
  const targetSeconds = limit.cranks * limit.crankSeconds;
  const late = timeOutside(crankSeconds, {
    seconds: targetSeconds,
    tolerancePercent: limit.timeTolerancePercent,
  });
  const scaled = late && volume ? scaledToTarget(volume.valueMl, crankSeconds, targetSeconds) : null;
  const judged = counting.length === 0 ? nothingCounts(input) : judge(input, late);
  return {
    cranks: input.cranks.map(toCounted),
    crankSeconds,
    crankSecondsUncertainty,
    targetSeconds,
    average: counting.length === 0 ? null : input.average,
    volume,
    volumeAtTargetMl: scaled,
    ...applyOverrides(judged, input.overrides ?? []),
  };
}

function toCounted({ crank, average, time, setEdges, leftOut }: CrankEntry): CountedCrank {
  return {
    crank,
    startMs: setEdges?.startMs ?? crank.starterOn.atMs,
    endMs: setEdges?.endMs ?? crank.end.atMs,
    average,
    time,
    counts: !leftOut,
    reason: leftOut?.reason ?? setEdges?.reason ?? null,
  };
}

/** Without a crank that counts only that is worth saying, not that the time is short as well. */
const nothingCounts = ({ cranks }: CrankDeliveryInput): Judged => ({
  reasons: [problem(cranks.length === 0 ? 'check.no-cranks' : 'check.all-cranks-left-out')],
  warnings: [],
});

function judge({ limit, cranks, conditions }: CrankDeliveryInput, late: Problem | null): Judged {
  const each = cranks.map((entry, index) => crankProblems(entry, index + 1));
  const around = judgeConditions(limit.conditions, conditions ?? {});
  return {
    reasons: [...each.flatMap(({ reasons }) => reasons), ...(late ? [late] : []), ...around.reasons],
    warnings: [
      ...each.flatMap(({ warnings }) => warnings),
      ...countWarnings(limit, cranks),
      ...around.warnings,
    ],
  };
}

/** More or fewer cranks than asked, and a single crank much longer than one should be: the starter's rest is part of the method. */
function countWarnings(
  { cranks: asked, crankSeconds, timeTolerancePercent }: CrankDeliveryInput['limit'],
  cranks: readonly CrankEntry[],
): readonly Problem[] {
  const counting = cranks.filter(({ leftOut }) => !leftOut);
  const longest = Math.max(...counting.map(({ time }) => time.spanMs)) / 1000;
  const found: Problem[] = [];
  if (counting.length !== asked) found.push(problem('check.crank-count', { found: counting.length, asked }));
  if (longest > crankSeconds * (1 + (2 * timeTolerancePercent) / 100)) {
    found.push(problem('check.crank-long', { seconds: rounded(longest, 1), asked: crankSeconds }));
  }
  return found;
}
