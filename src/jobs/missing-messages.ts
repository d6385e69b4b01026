import type { ChosenSignals } from '../checks/chosen-signal.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { missingShare } from '../signals/missing-share.ts';

/** From here on missing messages are told; a busy bus loses one now and then. */
const TOLD_SHARE = 0.03;

/** `check.frames-missing` where part of the engine speed did not arrive, whatever the verdict came to. Nothing without engine speed. */
export function missingMessages(signals: ChosenSignals | undefined): readonly Problem[] {
  const speed = signals?.engineSpeed?.trace;
  const share = (speed && missingShare(speed)) ?? 0;
  return share < TOLD_SHARE ? [] : [problem('check.frames-missing', { percent: Math.round(100 * share) })];
}
