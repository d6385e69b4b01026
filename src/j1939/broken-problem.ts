import { problem, type Problem } from '../problems/problem.ts';
import type { BrokenTransfer } from './bus-message.ts';
import { abortReasonText } from './control-message.ts';
import { groupName } from './group-names.ts';
import { addressText } from './source-addresses.ts';

/** A broken transfer as a problem: who sent what, what happened to it, and what to do. */
export function brokenProblem(broken: BrokenTransfer): Problem {
  const { pgn, packets, expected, firstMissing } = broken;
  const context = {
    who: addressText(broken.origin & 0xff),
    what: pgn === null ? 'a message' : (groupName(pgn) ?? `PGN ${pgn}`),
    packets,
    expected,
  };
  switch (broken.reason) {
    case 'aborted':
      return problem('bus.transfer-aborted', {
        ...context,
        why: abortReasonText(broken.abortReason ?? 0xff),
      });
    case 'out of sequence':
      return problem('bus.transfer-packet-lost', { ...context, missing: firstMissing ?? packets + 1 });
    case 'timed out':
      return problem('bus.transfer-timed-out', context);
    case 'replaced':
      return problem('bus.transfer-replaced', context);
    case 'bad announcement':
      return problem('bus.transfer-badly-announced', context);
    case 'no session':
      return problem('bus.transfer-not-announced', context);
  }
}
