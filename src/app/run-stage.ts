import type { Verdict } from '../grading/verdict.ts';
import type { RunValues } from '../jobs/run-entries.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { LinkKind } from '../link/link-state.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';
import type { ClockView } from '../ui/crank-clock-words.ts';

/** Where a run stands, which decides what the screen asks for next. `crank` and `read` belong to crank deliveries. */
export type Stage = 'prepare' | 'connect' | 'crank' | 'read' | 'measure' | 'verdict';

export interface StageFacts {
  readonly run: StoredRun;
  readonly guide: ProcedureCheck;
  readonly values: RunValues;
  readonly link: LinkKind;
  readonly clock: ClockView;
  readonly doneCranking: boolean;
  readonly verdict: Verdict | null;
}

const NOT_OPEN: readonly LinkKind[] = ['none', 'opening', 'refused'];
const OVER: readonly LinkKind[] = ['ended', 'lost'];

/** The stage of a run. A log that was dropped is measured already: it asks for no cautions. */
export function stageOf(facts: StageFacts): Stage {
  const { run, guide, values, link, clock, doneCranking, verdict } = facts;
  if (run.kind !== 'crank delivery') return otherStage(facts);
  if (verdict) return 'verdict';
  if (run.source.adapter !== 'log-file' && !cautionsAccepted(guide, values)) return 'prepare';
  if (NOT_OPEN.includes(link)) return 'connect';
  const reached = clock.state === 'done' || clock.state === 'over time';
  return OVER.includes(link) || doneCranking || reached ? 'read' : 'crank';
}

function otherStage(facts: StageFacts): Stage {
  const { run, guide, values, link } = facts;
  if (isFinished(facts)) return 'verdict';
  if (run.source.adapter !== 'log-file' && !cautionsAccepted(guide, values)) return 'prepare';
  return NOT_OPEN.includes(link) && run.kind !== 'inspection' ? 'connect' : 'measure';
}

/** A result is there and nothing more is waited for: typed, or the data are over. A value that is still moving is no result. */
function isFinished({ run, values, link, verdict }: StageFacts): boolean {
  if (verdict === null) return false;
  if (run.kind === 'inspection') return verdict.word !== 'not valid';
  if (run.kind === 'collected volume') return values.volume !== null;
  return values.value !== null || OVER.includes(link);
}

/** Every caution of the check has been ticked. */
export const cautionsAccepted = (guide: ProcedureCheck, values: RunValues): boolean =>
  guide.cautions.every(({ id }) => values.cautions.has(id));
