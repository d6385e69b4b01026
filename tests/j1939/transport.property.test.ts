import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BrokenTransfer, BusMessage } from '../../src/j1939/bus-message.ts';
import {
  collectMessages,
  expireTransfers,
  MOST_TRANSFERS,
  START_TRANSPORT,
} from '../../src/j1939/transport.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import { batchOf, bam, cts, endAck, packet, rows, rts, type Sent } from './fixtures/transport-frames.ts';

const RUNS = { numRuns: 150 };

/** A whole exchange: what it must give, and its frames in order. */
interface Exchange {
  readonly pgn: number;
  readonly from: number;
  readonly to: number;
  readonly channel: number;
  readonly data: Uint8Array;
  readonly frames: readonly Sent[];
}

const place = ({ from, to, channel }: Pick<Exchange, 'from' | 'to' | 'channel'>) => ({
  atMs: 0,
  from,
  to,
  channel,
});
const packets = (parts: Omit<Exchange, 'frames'>) =>
  Array.from({ length: Math.ceil(parts.data.length / 7) }, (_, i) => packet(place(parts), parts.data, i + 1));

const parts = fc.record({
  pgn: fc.constantFrom(65226, 65227, 65259, 54272, 0x1ff00),
  from: fc.nat(253),
  channel: fc.nat(2),
  data: fc.uint8Array({ minLength: 9, maxLength: 90 }),
});

const announcedToAll: fc.Arbitrary<Exchange> = parts.map((rest) => {
  const whole = { ...rest, to: 0xff };
  return { ...whole, frames: [bam(place(whole), whole.pgn, whole.data.length), ...packets(whole)] };
});

/** Packets in any order and some of them twice, as after CTS messages that ask again; with or without the receiver's side. */
const betweenTwo: fc.Arbitrary<Exchange> = fc
  .tuple(parts, fc.nat(253), fc.boolean(), fc.nat(1000))
  .map(([rest, to, both, seed]) => {
    const whole = { ...rest, to };
    const back = { atMs: 0, from: to, to: rest.from, channel: rest.channel };
    const sent = packets(whole);
    const again = sent.filter((_, i) => (seed + i) % 3 === 0);
    const shuffled = [...sent, ...again].map((frame, i) => ({ frame, rank: ((i + 1) * (seed + 7)) % 101 }));
    shuffled.sort((a, b) => a.rank - b.rank);
    const replies = both ? [cts(back, rest.pgn, sent.length, 1)] : [];
    const last = both ? [endAck(back, rest.pgn, rest.data.length)] : [];
    const frames = [
      rts(place(whole), rest.pgn, rest.data.length),
      ...replies,
      ...shuffled.map(({ frame }) => frame),
      ...last,
    ];
    return { ...whole, frames };
  });

/** Exchanges that share no pair of addresses, in any interleaving that keeps the order within each. */
const interleaved = fc
  .tuple(
    fc.uniqueArray(fc.oneof(announcedToAll, betweenTwo), {
      minLength: 1,
      maxLength: 12,
      // One conversation a pair, in both directions: replies of one would else be taken for those of the other.
      selector: ({ channel, from, to }) => [channel, Math.min(from, to), Math.max(from, to)].join(),
    }),
    fc.infiniteStream(fc.nat(1000)),
  )
  .map(([exchanges, chance]) => {
    const left = exchanges.map(({ frames }) => [...frames]);
    const woven: Sent[] = [];
    for (let open = left; open.length > 0; open = left.filter((each) => each.length > 0))
      woven.push(open[chance.next().value! % open.length]!.shift()!);
    return { exchanges, frames: woven.map((frame, i) => ({ ...frame, atMs: i })) };
  });

interface Outcome {
  readonly messages: BusMessage[];
  readonly broken: BrokenTransfer[];
}

/** Through the reducer in pieces cut at the given places. */
function inPieces(batch: FrameBatch, places: readonly number[]): Outcome & { size: number } {
  const cuts = [0, ...places.map((each) => each % (batch.count + 1)).sort((a, b) => a - b), batch.count];
  let state = START_TRANSPORT;
  const outcome: Outcome = { messages: [], broken: [] };
  for (let i = 0; i + 1 < cuts.length; i++) {
    const step = collectMessages(state, rows(batch, cuts[i]!, cuts[i + 1]!));
    state = step.state;
    outcome.messages.push(...step.messages);
    outcome.broken.push(...step.broken);
  }
  return { ...outcome, size: state.transfers.size };
}

const keyOf = ({
  pgn,
  data,
  ...rest
}: {
  pgn: number;
  data: Uint8Array;
  origin: number;
  destination: number;
}) => [pgn, rest.origin, rest.destination, ...data].join();

describe('transfers', () => {
  test('are joined right in any interleaving and however the frames are cut into batches', () => {
    fc.assert(
      fc.property(interleaved, fc.array(fc.nat(500), { maxLength: 6 }), ({ exchanges, frames }, places) => {
        const { messages, broken } = inPieces(batchOf(frames), places);
        const wanted = exchanges.map(({ channel, from, to, ...rest }) =>
          keyOf({ ...rest, origin: channel * 256 + from, destination: to }),
        );
        const got = messages.map(keyOf);
        expect(got.sort()).toEqual(wanted.sort());
        expect(broken).toEqual([]);
      }),
      RUNS,
    );
  });
});

/** Frames near the protocol: control bytes and sizes that exist and that do not, few addresses so that they meet. */
const near: fc.Arbitrary<Sent> = fc.record({
  atMs: fc.constant(0),
  id: fc
    .tuple(
      fc.constantFrom(0x1cec, 0x1ceb, 0x18fe, 0x18e8),
      fc.constantFrom(0, 1, 0xf9, 0xff, 0xca),
      fc.nat(2),
    )
    .map(([top, ps, source]) => top * 65536 + ps * 256 + source),
  data: fc.oneof(
    fc.tuple(
      fc.constantFrom(16, 17, 19, 32, 255, 1, 2, 3),
      fc.constantFrom(9, 14, 18, 0, 255),
      fc.constantFrom(0, 1, 7),
      fc.constantFrom(0, 2, 3, 255),
      fc.constant(255),
      fc.constantFrom(0xec, 0xca, 255),
      fc.constantFrom(0xfe, 255),
      fc.constantFrom(0, 3, 255),
    ),
    fc.array(fc.nat(255), { maxLength: 8 }),
  ),
  channel: fc.nat(1),
  flags: fc.constantFrom(1, 1, 1, 1, 0, 3, 5, 9),
});
const anything: fc.Arbitrary<Sent> = fc.record({
  atMs: fc.constant(0),
  id: fc.nat(0xffffffff),
  data: fc.array(fc.nat(255), { maxLength: 8 }),
  channel: fc.nat(255),
  flags: fc.nat(15),
});

/** Steps of time that fall before, on and after the limits; some logs have no time at all. */
const timed = (frames: readonly Sent[], steps: readonly number[], untimed: boolean): Sent[] => {
  let atMs = 0;
  return frames.map((frame, i) => ({ ...frame, atMs: untimed ? NaN : (atMs += steps[i % steps.length]!) }));
};
const traffic = fc
  .tuple(
    fc.array(fc.oneof({ weight: 5, arbitrary: near }, { weight: 1, arbitrary: anything }), {
      maxLength: 300,
    }),
    fc.array(fc.constantFrom(0, 1, 10, 300, 750, 751, 1250, 1251, 1450, 1451), {
      minLength: 1,
      maxLength: 20,
    }),
    fc.integer({ min: 0, max: 9 }).map((each) => each === 0),
  )
  .map(([frames, steps, untimed]) => timed(frames, steps, untimed));

describe('any frames', () => {
  test('never throw, and give messages of a size that the protocol allows, and hold a bounded state', () => {
    fc.assert(
      fc.property(traffic, (frames) => {
        const { messages, broken, size } = inPieces(batchOf(frames), [frames.length >> 1]);
        expect(size).toBeLessThanOrEqual(MOST_TRANSFERS);
        for (const { carriage, data } of messages) {
          expect(data.length).toBeLessThanOrEqual(carriage === 'single' ? 8 : 1785);
          if (carriage !== 'single') expect(data.length).toBeGreaterThanOrEqual(9);
        }
        for (const { packets: count, expected, reason } of broken)
          if (reason !== 'no session') expect(count).toBeLessThanOrEqual(expected);
      }),
      RUNS,
    );
  });

  test('give the same messages and the same breaks however they are cut, one by one or all at once', () => {
    fc.assert(
      fc.property(traffic, fc.array(fc.nat(300), { maxLength: 8 }), (frames, places) => {
        const batch = batchOf(frames);
        const whole = inPieces(batch, []);
        const single = frames.map((_, i) => i);
        for (const cuts of [places, single]) {
          const cut = inPieces(batch, cuts);
          expect(cut.messages).toEqual(whole.messages);
          // Breaks of one instant may stand in another order.
          const sorted = (list: readonly BrokenTransfer[]) => list.map((each) => JSON.stringify(each)).sort();
          expect(sorted(cut.broken)).toEqual(sorted(whole.broken));
        }
      }),
      RUNS,
    );
  });

  test('count each announcement at most once: as a message, as broken, or as still going on', () => {
    fc.assert(
      fc.property(traffic, (frames) => {
        const sound = frames.filter(({ flags }) => flags === 1);
        const batch = batchOf(sound);
        const { state, messages, broken } = collectMessages(START_TRANSPORT, batch);
        const announced = sound.filter(
          ({ id, data }) => ((id >>> 16) & 0x3ff) === 0xec && (data[0] === 16 || data[0] === 32),
        ).length;
        const late = expireTransfers(state, Infinity).broken;
        const joined = messages.filter(({ carriage }) => carriage !== 'single').length;
        const known = [...broken, ...late].filter(
          ({ reason, expected }) => reason !== 'no session' && !(reason === 'aborted' && expected === 0),
        ).length;
        if (!sound.some(({ atMs }) => Number.isNaN(atMs))) expect(joined + known).toBe(announced);
        else expect(joined + known).toBeLessThanOrEqual(announced);
      }),
      RUNS,
    );
  });
});
