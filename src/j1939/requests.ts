import { failed, ok, type Result } from '../problems/result.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { BusMessage } from './bus-message.ts';
import { formCanId, GLOBAL_ADDRESS } from './can-id.ts';
import { groupName, PGN } from './group-names.ts';
import { acknowledgementKey, type LearnedFacts } from './learn-facts.ts';
import { addressText } from './source-addresses.ts';

/** Off-board diagnostic tool 1 (J1939-81): the address under which Meniscus asks. */
export const OUR_ADDRESS = 0xf9;
const PRIORITY = 6;
/** How long the asker waits before it gives up (J1939-21; j1939.md, "Requests and acknowledgements"). */
export const ANSWER_WAIT_MS = 1250;

/** One thing that may be asked for. Nothing is asked before the person has allowed it. */
export interface BusRequest {
  readonly id: 'vin' | 'component' | 'software' | 'activeCodes' | 'previousCodes' | 'engineHours';
  readonly pgn: number;
  readonly label: string;
  /** Why one asks, in plain words. */
  readonly purpose: string;
}

/** What sending a request does, for the person who is to allow it. */
export const REQUEST_EFFECT =
  'Sends one short message that asks for information. It changes nothing in the engine and commands nothing. The bridge must be open for sending.';

export const REQUESTS: readonly BusRequest[] = [
  {
    id: 'vin',
    pgn: PGN.vin,
    label: 'Vehicle identification number',
    purpose: 'Fills in which vehicle the job is about.',
  },
  {
    id: 'component',
    pgn: PGN.component,
    label: 'Component identification',
    purpose: 'Make, model and serial number of the engine; the serial number selects the limit sheet.',
  },
  {
    id: 'software',
    pgn: PGN.software,
    label: 'Software identification',
    purpose: 'Says which software the controller runs, for the report.',
  },
  {
    id: 'activeCodes',
    pgn: PGN.activeCodes,
    label: 'Active trouble codes (DM1)',
    purpose: 'Shows what the controllers complain of now. Most send it once a second without being asked.',
  },
  {
    id: 'previousCodes',
    pgn: PGN.previousCodes,
    label: 'Previously active trouble codes (DM2)',
    purpose: 'Shows what the controllers complained of before. They send it only when asked.',
  },
  {
    id: 'engineHours',
    pgn: PGN.hours,
    label: 'Engine hours',
    purpose: 'Fills in the hours of the engine for the job.',
  },
];

/** A frame to be sent: a 29-bit identifier and its data. */
export interface FrameToSend {
  readonly id: number;
  readonly data: readonly number[];
}

/** Whom to ask, and as whom. Everybody from F9 unless something else is said. */
export interface Asking {
  readonly destination?: number;
  readonly sourceAddress?: number;
}

/** The request frame for a group: PGN 59904, three bytes, low byte first. `pgn` is cut to 18 bits and addresses to 8. */
export function formRequest(pgn: number, asking: Asking = {}): FrameToSend {
  const { destination = GLOBAL_ADDRESS, sourceAddress = OUR_ADDRESS } = asking;
  return {
    id: formCanId({ priority: PRIORITY, pgn: PGN.request, sourceAddress, destination }),
    data: [pgn & 0xff, (pgn >>> 8) & 0xff, (pgn >>> 16) & 3],
  };
}

/** The frames for several groups, in their order. */
export const formRequests = (pgns: readonly number[], asking: Asking = {}): readonly FrameToSend[] =>
  pgns.map((pgn) => formRequest(pgn, asking));

/** A request that was sent, on the frames' own clock. `channel` is the bus it went to. */
export interface AskedRequest {
  readonly pgn: number;
  readonly destination: number;
  readonly sentMs: number;
  readonly channel: number;
}

/**
 * What became of a request to one controller: 'waiting', or why no answer will come. A negative answer counts from the instant of asking on;
 * silence counts after 1250 ms, also for a request to all (where others than the owners keep silent). Whether the data came is
 * seen in the facts: pass the instant of the last message of that group as `answeredMs`, null for none.
 */
export function requestOutcome(
  asked: AskedRequest,
  facts: LearnedFacts,
  nowMs: number,
  answeredMs: number | null,
): Result<'waiting' | 'answered', Problem> {
  if (answeredMs !== null && answeredMs >= asked.sentMs) return ok('answered');
  const what = groupName(asked.pgn) ?? `PGN ${asked.pgn}`;
  const answer = facts.acknowledgements.get(
    acknowledgementKey(asked.pgn, asked.channel * 256 + asked.destination),
  );
  if (answer && answer.atMs >= asked.sentMs && answer.answer !== 'acknowledged') {
    const who = addressText(answer.origin & 0xff);
    if (answer.answer === 'refused') return failed(problem('bus.request-refused', { who, what }));
    if (answer.answer === 'denied') return failed(problem('bus.request-denied', { who, what }));
    return failed(problem('bus.request-busy', { who, what }));
  }
  if (nowMs - asked.sentMs <= ANSWER_WAIT_MS) return ok('waiting');
  return failed(problem('bus.request-unanswered', { what }));
}

/** The instant of the last message of a group in a list; null where there is none. From one address, or from anybody (255). */
export function answeredAt(
  messages: readonly BusMessage[],
  { pgn, destination, channel }: Pick<AskedRequest, 'pgn' | 'destination' | 'channel'>,
): number | null {
  const from = messages.findLast(
    (message) =>
      message.pgn === pgn &&
      message.origin >>> 8 === channel &&
      (destination === GLOBAL_ADDRESS || (message.origin & 0xff) === destination),
  );
  return from?.atMs ?? null;
}
