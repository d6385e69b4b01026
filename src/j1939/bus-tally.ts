import { FRAME_ERROR, FRAME_EXTENDED, type FrameBatch } from '../wire/frame-batch.ts';
import { bitsRow, LEAST_BITS, MOST_BITS } from './frame-bits.ts';

const ADDRESSES = 256;
/** Buckets of one second each. */
export const SECONDS_KEPT = 10;

const KINDS = FRAME_EXTENDED | FRAME_ERROR;

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
  /** Channels that are copies already. */
  readonly owned: Set<number>;
  seconds: Second[];
  /** The newest of `seconds` is already a copy. */
  ownsNewest: boolean;
}

/** Where the frames of one channel are counted within one second (of no second: frames without time). */
interface Place extends ChannelTally {
  readonly channel: number;
  readonly bucket: Uint32Array;
}

/**
 * The tally with one batch of frames more. 11-bit frames count as traffic but belong to no address. Frames without time (NaN) count in the
 * totals, and in the second of those beside them. At a break of time the buckets begin anew. Never throws.
 */
export function tallyFrames(tally: BusTally, batch: FrameBatch): BusTally {
  const { count, flags, length, atMs } = batch;
  const draft = draftOf(tally, batch);
  const sizes = new Uint32Array(LEAST_BITS.length); // frames of each length within `second`
  let second: Second | null = null;
  let endMs = -Infinity; // of `second`
  let from = 0;
  let errorFrames = 0;
  for (let frame = 0; frame < count; frame++) {
    if (atMs[frame]! >= endMs) {
      countAddresses(draft, batch, { from, to: frame, second });
      addSizes(second, sizes);
      from = frame;
      second = ownSecond(draft, Math.floor(atMs[frame]! / 1000));
      endMs = (second.second + 1) * 1000;
    }
    const kind = flags[frame]!;
    if ((kind & FRAME_ERROR) !== 0) errorFrames++;
    else sizes[bitsRow(kind, length[frame]!)]!++;
  }
  countAddresses(draft, batch, { from, to: count, second });
  addSizes(second, sizes);
  return joined(tally, batch, draft, errorFrames);
}

const draftOf = (tally: BusTally, { breakBefore }: FrameBatch): Draft => ({
  channels: new Map(tally.channels),
  owned: new Set(),
  seconds: breakBefore ? [] : [...tally.seconds],
  ownsNewest: false,
});

/** Counts a stretch of rows that lies within one second by channel and address. */
function countAddresses(
  draft: Draft,
  { channel, flags, id, atMs }: FrameBatch,
  { from, to, second }: { from: number; to: number; second: Second | null },
): void {
  const places: Place[] = []; // by channel
  let place: Place | null = null;
  for (let frame = from; frame < to; frame++) {
    if ((flags[frame]! & KINDS) !== FRAME_EXTENDED) continue;
    const on = channel[frame]!;
    if (place === null || place.channel !== on) place = places[on] ??= placeOf(draft, on, second);
    const address = id[frame]! & 0xff;
    place.frames[address]!++;
    place.bucket[address]!++;
    if (!Number.isNaN(atMs[frame]!)) place.lastAtMs[address] = atMs[frame]!;
  }
}

function addSizes(second: Second | null, sizes: Uint32Array): void {
  if (second !== null)
    sizes.forEach((frames, row) => {
      second.frames += frames;
      second.leastBits += frames * LEAST_BITS[row]!;
      second.mostBits += frames * MOST_BITS[row]!;
    });
  sizes.fill(0);
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

function placeOf({ channels, owned }: Draft, channel: number, second: Second | null): Place {
  const known = channels.get(channel);
  const of = known && owned.has(channel) ? known : copyOf(known);
  owned.add(channel);
  channels.set(channel, of);
  const bucket = second?.byAddress.get(channel) ?? new Uint32Array(ADDRESSES);
  second?.byAddress.set(channel, bucket);
  return { channel, frames: of.frames, lastAtMs: of.lastAtMs, bucket };
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
