import type { ChosenSignal, ChosenSignals } from '../checks/chosen-signal.ts';
import type { Crank } from '../crank/crank.ts';
import { crankUnderWay } from '../crank/find-cranks.ts';
import { withStarterOn } from '../crank/starter-on.ts';
import { conditionValues } from '../pipeline/condition-values.ts';
import { joinedAverage, type CrankTable } from '../pipeline/crank-table.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import { SIGNAL_IDS, type SignalId } from '../quantities/reading.ts';
import { millis } from '../quantities/time.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { CrankFacts } from './judge-run.ts';
import type { RunValues } from './run-entries.ts';

/** What the data say, for a check of any kind: beside the cranks, each signal of the one origin chosen for it. */
export interface CheckFacts extends CrankFacts {
  readonly signals: ChosenSignals;
  /** The crank going on, its end where the data end now; null between cranks. */
  readonly underWay: Crank | null;
  /** The last instant of the data, ms; null before any. */
  readonly lastMs: number | null;
}

/** The facts of a run without data: typed numbers only. */
export const NO_FACTS: CheckFacts = {
  cranks: [],
  average: null,
  conditions: {},
  signals: {},
  underWay: null,
  lastMs: null,
};

/**
 * Gathers what a check stands on. Pure, and copies no trace: cheap however long they are. Each signal comes from the origin that the person chose, else from
 * the one that trace-set chooses. `onDate` is the day of the run, yyyy-mm-dd, where it is known.
 */
export function checkFacts(
  pipeline: PipelineState | null,
  table: CrankTable,
  values: RunValues,
  onDate?: string,
): CheckFacts {
  const day = onDate === undefined ? {} : { onDate };
  if (!pipeline) return { ...NO_FACTS, ...day };
  const signals = chosenSignals(pipeline, values);
  return {
    cranks: table.cranks,
    average: joinedAverage(table.cranks, values.leftOut),
    conditions: conditionValues(pipeline, table.cranks),
    signals,
    underWay: table.underWay && goingOn(pipeline, table, signals),
    lastMs: pipeline.lastMs,
    ...day,
  };
}

function chosenSignals({ traces }: PipelineState, { origins }: RunValues): ChosenSignals {
  const found = SIGNAL_IDS.flatMap((signal): readonly (readonly [SignalId, ChosenSignal])[] => {
    const origin = chosenOrigin(traces, signal, origins.get(signal));
    return origin === null ? [] : [[signal, { trace: traceOf(traces, signal, origin), origin }]];
  });
  return Object.fromEntries(found);
}

/** The crank that has not ended yet, with the truest sign of its start that came so far. */
function goingOn(pipeline: PipelineState, { origin }: CrankTable, signals: ChosenSignals): Crank | null {
  const finder = origin === null ? undefined : pipeline.finders.get(origin);
  const going = finder ? crankUnderWay(finder) : null;
  if (!going) return null;
  const end = { atMs: millis(pipeline.lastMs ?? going.start.atMs), standardUncertaintyMs: 0 };
  const crank: Crank = {
    ...going,
    end,
    endedBy: 'cut',
    starterOn: going.start,
    startSign: 'speed',
  };
  return withStarterOn(crank, {
    battery: signals.batteryVoltage?.trace ?? null,
    starterMode: signals.starterMode?.trace ?? null,
  });
}
