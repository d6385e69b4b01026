import type { CheckFinding } from './finding.ts';
import type { Procedure } from './procedure.ts';

/** Where a check stands in the order of the job. */
export type CheckState = 'open' | 'done' | 'repeat' | 'left out';

/** One check of the order, and what stands before it. */
export interface OrderedCheck {
  readonly checkId: string;
  readonly state: CheckState;
  /** Checks that come before it and are neither done nor left out. It may start once there are none. */
  readonly waitsFor: readonly string[];
}

/**
 * The checks in the procedure's order. A check is done when it has a verdict of its own from as many runs as are asked for; `repeat` when it has a
 * result that does not stand yet (too few runs, too close, not valid, disagreeing, or work was done since).
 */
export function checkOrder(procedure: Procedure, findings: readonly CheckFinding[]): readonly OrderedCheck[] {
  const byId = new Map(findings.map((finding) => [finding.checkId, finding]));
  const stateOf = (id: string): CheckState => checkState(byId.get(id) ?? null);
  return procedure.checks.map(({ id, needs }) => ({
    checkId: id,
    state: stateOf(id),
    waitsFor: needs.filter(
      (need) => UNMET.includes(stateOf(need)) && procedure.checks.some((c) => c.id === need),
    ),
  }));
}

/** Where one check stands; without a finding it is open. Left out with a reason it is not asked for again, even after runs that settled nothing. */
export function checkState(finding: CheckFinding | null): CheckState {
  if (!finding) return 'open';
  if (standsFirm(finding)) return 'done';
  if (finding.skipped !== null) return 'left out';
  return finding.word === null ? 'open' : 'repeat';
}

const UNMET: readonly CheckState[] = ['open', 'repeat'];

/** The finding is a verdict that can be believed: enough runs that agree, and nothing was done since. */
export const standsFirm = ({ word, runs, runsNeeded, repeatBecause }: CheckFinding): boolean =>
  word !== null && !UNSETTLED.includes(word) && runs >= runsNeeded && repeatBecause === null;

const UNSETTLED: readonly CheckFinding['word'][] = ['too close to call', 'not valid', 'disagree'];
