import { measureCollectedVolume } from '../checks/collected-volume.ts';
import type { CollectedVolumeSettings } from '../checks/check-settings.ts';
import { collectionOf, type Collection } from '../checks/collection.ts';
import type { CollectedVolume, ConditionValues, VolumeMeasurement } from '../checks/measurement.ts';
import { applyOverrides } from '../checks/overrides.ts';
import { collectedArithmetic } from '../grading/arithmetic.ts';
import { gradeCollectedRate } from '../grading/grade-rate.ts';
import { gradeCollectedVolume } from '../grading/grade-window.ts';
import { notValid } from '../grading/judge.ts';
import type { Verdict } from '../grading/verdict.ts';
import type { Window } from '../limits/limit-sheet.ts';
import { conditionsOver } from './conditions-over.ts';
import type { CheckToJudge, JudgedCheck } from './judged-check.ts';
import { typedVolume, withChoices } from './judge-run.ts';
import { limitOfCheck, type FoundLimit } from './limit-of-check.ts';
import { overridesOf } from './overrides-of.ts';
import { rateSummary, volumeSummary } from './value-summary.ts';

/** A volume collected over a time: the time from wherever it is known, graded as a volume or, where the limit is a flow, as a flow. */
export function judgeCollection(asked: CheckToJudge, settings: CollectedVolumeSettings): JudgedCheck {
  const { kind, facts, values } = asked;
  const found = limitOfCheck(asked);
  const collection = collectionOf({
    settings,
    signals: facts.signals,
    cranks: facts.cranks.map((entry, place) => withChoices(entry, place, values)),
    typedMs: values.collectedMs,
    stopwatch: values.stopwatch,
    lastMs: facts.lastMs,
    chosen: values.stretch,
  });
  const volume = typedVolume(values);
  const conditions = conditionsOver(facts.signals, collection.stretches);
  const measured = { volume: volume.ok ? volume.value : null, collection, conditions };
  const collected = collectedOf(asked, settings, found.window, measured);
  const verdict = collected.volume ? verdictOn(collected, found) : null;
  const isRate = found.window?.quantity === 'rate';
  return {
    kind,
    limit: found.limit,
    measurement: { kind: 'collected volume', collected, collection },
    verdict,
    valueSummary: isRate
      ? rateSummary(collected)
      : volumeSummary(collected.volume, collected.volumeAtTargetMl),
    arithmetic: verdict && found.window ? collectedArithmetic(collected, found.window, verdict) : [],
    volumeProblem: volume.ok ? null : volume.problem,
  };
}

interface Measured {
  readonly volume: VolumeMeasurement | null;
  readonly collection: Collection;
  readonly conditions: ConditionValues;
}

/** The limit's own time comes first; a flow asks for none. What is wrong with the clock stands before what follows from it. */
function collectedOf(
  { values }: CheckToJudge,
  settings: CollectedVolumeSettings,
  window: Window | null,
  { volume, collection, conditions }: Measured,
): CollectedVolume {
  const asksForTime = window?.quantity !== 'rate';
  const collected = measureCollectedVolume({
    limit: {
      conditions: window?.conditions ?? [],
      durationSeconds: asksForTime ? (window?.durationSeconds ?? settings.seconds) : null,
      timeTolerancePercent: window?.timeTolerancePercent,
    },
    volume,
    time: collection.time,
    conditions,
    overrides: overridesOf(values),
  });
  const clock = applyOverrides(collection, overridesOf(values));
  const clockSaysWhy = collection.reasons.length > 0 && collection.time === null;
  const own = clockSaysWhy
    ? collected.reasons.filter(({ code }) => code !== 'check.no-time')
    : collected.reasons;
  return {
    ...collected,
    reasons: [...clock.reasons, ...own],
    warnings: [...clock.warnings, ...collected.warnings],
  };
}

function verdictOn(collected: CollectedVolume, { window, warnings, missing }: FoundLimit): Verdict {
  if (!window || missing)
    return notValid(
      [...(missing ? [missing] : []), ...collected.reasons],
      [...collected.warnings, ...warnings],
    );
  const graded =
    window.quantity === 'rate'
      ? gradeCollectedRate(collected, window)
      : gradeCollectedVolume(collected, window);
  return { ...graded, warnings: [...graded.warnings, ...warnings] };
}
