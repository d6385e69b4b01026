import { FRAME_ERROR, FRAME_EXTENDED, type FrameBatch } from '../wire/frame-batch.ts';
import { bitsRow, LEAST_BITS, MOST_BITS } from './frame-bits.ts';

const ADDRESSES = 256;
/** Buckets of one second each. */
export const SECONDS_KEPT = 10;

/** Frames of one channel by source address, from the beginning. */
interface ChannelTally {
  readonly frames: Float64Array;
  readonly lastAtMs: Float64Array;
}

/** One second of traffic. `byAddress` is keyed by channel and holds counts by source address. */
interface Second {
  /** Whole seconds of the frames' clock. */
  readonly second: number;
  frames: number;
  leastBits: number;
  mostBits: number;
  readonly byAddress: Map<number, Uint32Array>;
}

/**
 * What the bus has carried: totals, and the last ten seconds in buckets of one second of the frames' clock. An immutable value; a batch
 * copies what it changes.
 */
export interface BusTally {
  /** Data and remote frames of both identifier lengths, sent ones among them: they too are traffic. */
  readonly frames: number;
  /** Error frames that the bridge reported. */
  readonly errorFrames: number;
  readonly firstAtMs: number | null;
  readonly lastAtMs: number | null;
  readonly channels: ReadonlyMap<number, ChannelTally>;
  /** Oldest first. */
  readonly seconds: readonly Readonly<Second>[];
}

export const START_TALLY: BusTally = {
  frames: 0,
  errorFrames: 0,
  firstAtMs: null,
  lastAtMs: null,
  channels: new Map(),
  seconds: [],
};

/** What one batch changes; each part is copied once before it is changed. */
interface Draft {
  readonly channels: Map<number, ChannelTally>;
  seconds: Second[];
  /** The newest of `seconds` is already a copy. */
  ownsNewest: boolean;
}

/** Where the frames of one channel are counted within one second (null: frames without time). */
interface Place {
  readonly of: ChannelTally;
  readonly counts: Uint32Array;
}

/**
 * The tally with one batch of frames more. 11-bit frames count as traffic but belong to no address. Frames without time (NaN) count in the
 * totals, and in the second of those beside them. At a break of time the buckets begin anew. Never throws.
 */
export function tallyFrames(tally: BusTally, batch: FrameBatch): BusTally {
  const { count, id, flags, length, channel, atMs } = batch;
  const draft = draftOf(tally, batch);
  const owned = new Set<number>();
  let places: Place[] = []; // by channel, within `second`
  let second: Second | null = null;
  let endMs = -Infinity; // of `second`
  let errorFrames = 0;
  for (let frame = 0; frame < count; frame++) {
    const kind = flags[frame]!;
    if ((kind & FRAME_ERROR) !== 0) {
      errorFrames++;
      continue;
    }
    const ms = atMs[frame]!;
    if (ms >= endMs) {
      second = ownSecond(draft, Math.floor(ms / 1000));
      endMs = (second.second + 1) * 1000;
      places = [];
    }
    if ((kind & FRAME_EXTENDED) !== 0) {
      const place = (places[channel[frame]!] ??= placeOf(draft, owned, { channel: channel[frame]!, second }));
      const address = id[frame]! & 0xff;
      place.of.frames[address]!++;
      if (!Number.isNaN(ms)) place.of.lastAtMs[address] = ms;
      place.counts[address]!++;
    }
    if (second !== null) countFrame(second, bitsRow(kind, length[frame]!));
  }
  return joined(tally, batch, draft, errorFrames);
}

const draftOf = (tally: BusTally, { breakBefore }: FrameBatch): Draft => ({
  channels: new Map(tally.channels),
  seconds: breakBefore ? [] : [...tally.seconds],
  ownsNewest: false,
});

function countFrame(second: Second, row: number): void {
  second.frames++;
  second.leastBits += LEAST_BITS[row]!;
  second.mostBits += MOST_BITS[row]!;
}

function joined(tally: BusTally, batch: FrameBatch, draft: Draft, errorFrames: number): BusTally {
  const isTime = (atMs: number) => !Number.isNaN(atMs);
  const first = batch.atMs.find(isTime) ?? null;
  return {
    frames: tally.frames + batch.count - errorFrames,
    errorFrames: tally.errorFrames + errorFrames,
    firstAtMs: batch.breakBefore ? first : (tally.firstAtMs ?? first),
    lastAtMs: batch.atMs.findLast(isTime) ?? tally.lastAtMs,
    channels: draft.channels,
    seconds: draft.seconds,
  };
}

function placeOf(
  { channels }: Draft,
  owned: Set<number>,
  { channel, second }: { channel: number; second: Second | null },
): Place {
  const known = channels.get(channel);
  const of = known && owned.has(channel) ? known : copyOf(known);
  owned.add(channel);
  channels.set(channel, of);
  const counts = second?.byAddress.get(channel) ?? new Uint32Array(ADDRESSES);
  second?.byAddress.set(channel, counts);
  return { of, counts };
}

const copyOf = (known: ChannelTally | undefined): ChannelTally => ({
  frames: known?.frames.slice() ?? new Float64Array(ADDRESSES),
  lastAtMs: known?.lastAtMs.slice() ?? new Float64Array(ADDRESSES).fill(NaN),
});

/** The bucket of a second, which may be changed. What is stamped before the newest bucket counts there: time does not run backwards. */
function ownSecond(draft: Draft, second: number): Second {
  const newest = draft.seconds.at(-1);
  if (newest && second <= newest.second) {
    if (draft.ownsNewest) return newest;
    draft.ownsNewest = true;
    const byAddress = new Map([...newest.byAddress].map(([channel, counts]) => [channel, counts.slice()]));
    const copy = { ...newest, byAddress };
    draft.seconds[draft.seconds.length - 1] = copy;
    return copy;
  }
  draft.ownsNewest = true;
  const begun: Second = { second, frames: 0, leastBits: 0, mostBits: 0, byAddress: new Map() };
  draft.seconds = [...draft.seconds.filter((each) => each.second > second - SECONDS_KEPT), begun];
  return begun;
}
