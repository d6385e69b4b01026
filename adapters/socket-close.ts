import { problem, type Problem } from '../src/problems/problem.ts';

/** What a WebSocket says when it closes. */
export interface SocketClosing {
  readonly code: number;
  readonly reason: string;
}

/**
 * Why a connection that had been open is over, by its close code (RFC 6455, 7.4.1, and the IANA registry of close codes).
 *
 * `link.lost` where connecting again may help: without a closing (1006, 1005), going away (1001), an error or restart there
 * (1011, 1012, 1014), too busy (1013), and also 1000, "done": a bridge is a live source and has no end, so one that closes
 * in order was restarted or switched off, and the run must go on when it is back rather than end as if all had come.
 * `why` and `code` stand in the context for the record.
 *
 * Where the other side would refuse the same again: `device.socket-refused` (1008, 3000, 3003, 3008 and its own 4000 and more)
 * and `device.socket-protocol` (1002, 1003, 1007, 1009, 1010).
 */
export function closingProblem({ code, reason }: SocketClosing, device: string): Problem {
  const why = reason === '' ? (WORDS[code] ?? `code ${code}`) : reason;
  if (PROTOCOL.includes(code)) return problem('device.socket-protocol', { device, why, code });
  if (REFUSED.includes(code) || code >= 4000) return problem('device.socket-refused', { device, why, code });
  return problem('link.lost', { device, why, code });
}

const PROTOCOL: readonly number[] = [1002, 1003, 1007, 1009, 1010];
const REFUSED: readonly number[] = [1008, 3000, 3003, 3008];

const WORDS: Readonly<Record<number, string>> = {
  1000: 'the bridge closed the connection',
  1001: 'the bridge is going away',
  1002: 'it could not make sense of the connection',
  1003: 'it does not take this kind of data',
  1005: 'the bridge closed the connection without saying why',
  1006: 'the connection broke off',
  1007: 'it got data that did not fit',
  1008: 'it does not allow this',
  1009: 'it got a message too big for it',
  1010: 'it wanted an extension that the browser lacks',
  1011: 'the bridge met an error of its own',
  1012: 'the bridge is restarting',
  1013: 'the bridge is too busy now',
  1014: 'a gateway on the way got no proper answer',
  3000: 'it wants a sign-in',
  3003: 'it forbids this',
  3008: 'it waited too long',
};
