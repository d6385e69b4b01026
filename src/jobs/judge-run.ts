import { measureCrankDelivery } from '../checks/crank-delivery.ts';
import type { ChosenSignals } from '../checks/chosen-signal.ts';
import type { CrankEntry } from '../checks/crank-entry.ts';
import type { ConditionValues, CrankDelivery, VolumeMeasurement } from '../checks/measurement.ts';
import { measureVolume } from '../checks/volume.ts';
import type { SpeedAverage } from '../crank/crank.ts';
import { gradeSpeedChart } from '../grading/grade-speed-chart.ts';
import type { Verdict } from '../grading/verdict.ts';
import { chooseLimit } from '../limits/choose-limit.ts';
import type { LimitSheet, SpeedChart } from '../limits/limit-sheet.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { missingMessages } from './missing-messages.ts';
import { sheetInForce, type RunValues } from './run-entries.ts';

/** What the data say, whatever they came from: a pipeline's crank table, or typed numbers. */
export interface CrankFacts {
  readonly cranks: readonly Omit<CrankEntry, 'setEdges' | 'leftOut'>[];
  /** Joined over the cranks that count. */
  readonly average: SpeedAverage | null;
  readonly conditions: ConditionValues;
  /** For what did not arrive; left out where only cranks are known. */
  readonly signals?: ChosenSignals;
  /** The day of the run, yyyy-mm-dd; left out where it is not known. A sheet's validity and confirmation are weighed on it. */
  readonly onDate?: string;
}

export interface JudgedRun {
  readonly chart: SpeedChart;
  readonly delivery: CrankDelivery;
  /** Null until a volume was typed. */
  readonly verdict: Verdict | null;
  /** Why the typed volume cannot be taken. */
  readonly volumeProblem: Problem | null;
}

/**
 * From the facts of the data and what the person typed to a verdict: pure, so that the live screen, a replay and the command line
 * give the same. Fails without a sheet, and where it holds no speed chart for the check.
 * @param began the sheet that the run began with; one taken later in the run (`values.sheet`) holds instead.
 */
export function judgeRun(
  began: LimitSheet | null,
  check: string,
  facts: CrankFacts,
  values: RunValues,
): Result<JudgedRun> {
  const sheet = sheetInForce(began, values);
  if (!sheet) return failed(problem('limit.no-sheet', { check }));
  const serial = values.identity.get('serialNumber')?.value;
  const chosen = chooseLimit(sheet, check, {
    ...(serial === undefined ? {} : { serial }),
    ...(facts.onDate === undefined ? {} : { onDate: facts.onDate }),
  });
  if (!chosen.ok) return chosen;
  const { limit: chart, warnings } = chosen.value;
  if (chart.kind !== 'speed chart')
    return failed(problem('limit.not-a-speed-chart', { check, sheet: sheet.title }));
  const volume = typedVolume(values);
  const measured = volume.ok ? volume.value : null;
  const delivery = measureCrankDelivery({
    limit: chart,
    cranks: facts.cranks.map((entry, place) => withChoices(entry, place, values)),
    average: facts.average,
    volume: measured,
    conditions: facts.conditions,
    overrides: [...values.overrides].map(([code, reason]) => ({ code: code as ProblemCode, reason })),
  });
  const graded = measured ? gradeSpeedChart(delivery, chart) : null;
  return ok({
    chart,
    delivery,
    verdict: graded && {
      ...graded,
      warnings: [...graded.warnings, ...warnings, ...missingMessages(facts.signals)],
    },
    volumeProblem: volume.ok ? null : volume.problem,
  });
}

/** The volume as it was typed, with what its vessel is worth; null before one was typed. Fails where it cannot be taken. */
export function typedVolume({ volume, vessel }: RunValues): Result<VolumeMeasurement | null> {
  if (!volume) return ok(null);
  if (!vessel) return failed(problem('check.no-vessel'));
  const { readingsMl, photo } = volume;
  return measureVolume({
    vessel,
    readingsMl,
    ...(photo ? { photoUncertaintyMl: photo.standardUncertaintyMl } : {}),
  });
}

/** A crank with what the person said of it. */
export function withChoices(
  entry: CrankFacts['cranks'][number],
  place: number,
  values: RunValues,
): CrankEntry {
  const edges = values.edges.get(place);
  const leftOut = values.leftOut.get(place);
  return {
    ...entry,
    setEdges: edges
      ? {
          startMs: edges.startMs ?? entry.crank.starterOn.atMs,
          endMs: edges.endMs ?? entry.crank.end.atMs,
          reason: edges.reason,
        }
      : null,
    leftOut: leftOut === undefined ? null : { reason: leftOut },
  };
}
