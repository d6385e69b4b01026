import { tallyFrames, START_TALLY, type BusTally } from '../j1939/bus-tally.ts';
import { learnFacts, START_FACTS, type LearnedFacts } from '../j1939/learn-facts.ts';
import { collectMessages, START_TRANSPORT, type TransportState } from '../j1939/transport.ts';
import type { FrameBatch } from '../wire/frame-batch.ts';

/** What the bus tells beside the readings: identity and codes, link health, and the last frames as received. Immutable. */
export interface BusState {
  readonly transport: TransportState;
  readonly facts: LearnedFacts;
  readonly tally: BusTally;
  /** The last frames, oldest batch first: RECENT_FRAMES at least (where so many came), and less than one batch more. */
  readonly recent: readonly FrameBatch[];
}

export const START_BUS: BusState = {
  transport: START_TRANSPORT,
  facts: START_FACTS,
  tally: START_TALLY,
  recent: [],
};

/** Frames that the raw monitor can look back on. */
export const RECENT_FRAMES = 2000;
/** A batch is a view of its chunk's columns; one that would keep more than this alive is copied. */
const MOST_BYTES_KEPT_BY_VIEW = 64 * 1024;

/** The bus one batch of frames later. Timed or not; never throws. Memory stays bounded whatever comes. */
export function stepBus(bus: BusState, batch: FrameBatch): BusState {
  const { state, messages, broken } = collectMessages(bus.transport, batch);
  return {
    transport: state,
    facts: learnFacts(bus.facts, messages, broken),
    tally: tallyFrames(bus.tally, batch),
    recent: batch.count === 0 ? bus.recent : withBatch(bus.recent, batch),
  };
}

function withBatch(recent: readonly FrameBatch[], batch: FrameBatch): readonly FrameBatch[] {
  let first = recent.length;
  let frames = batch.count;
  while (first > 0 && frames < RECENT_FRAMES) frames += recent[--first]!.count;
  return [...recent.slice(first), compact(batch)];
}

/** The last rows of a batch, by themselves where the batch is long or its columns belong to a long chunk. */
function compact(batch: FrameBatch): FrameBatch {
  const from = Math.max(0, batch.count - RECENT_FRAMES);
  if (from === 0 && batch.data.buffer.byteLength <= MOST_BYTES_KEPT_BY_VIEW) return batch;
  return {
    count: batch.count - from,
    breakBefore: from === 0 && batch.breakBefore,
    atMs: batch.atMs.slice(from),
    id: batch.id.slice(from),
    flags: batch.flags.slice(from),
    length: batch.length.slice(from),
    channel: batch.channel.slice(from),
    data: batch.data.slice(8 * from),
  };
}
