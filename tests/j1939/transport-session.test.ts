import { describe, expect, test } from 'vitest';
import {
  collectMessages,
  expireTransfers,
  START_TRANSPORT,
  type TransportState,
} from '../../src/j1939/transport.ts';
import {
  abort,
  bam,
  batchOf,
  cts,
  endAck,
  message,
  packet,
  rts,
  wholeBam,
  type Place,
  type Sent,
} from './fixtures/transport-frames.ts';

const VIN = 65260;
const collect = (frames: readonly Sent[], state: TransportState = START_TRANSPORT) =>
  collectMessages(state, batchOf(frames));
const at = (atMs: number, from = 0x00, to = 0xff): Place => ({ atMs, from, to });
const engineTo = (atMs: number): Place => at(atMs, 0x00, 0xf9);
const toolTo = (atMs: number): Place => at(atMs, 0xf9, 0x00);

describe('a transfer between two addresses (RTS/CTS)', () => {
  const data = message(33); // 5 packets

  test('is joined when both sides are heard', () => {
    const { messages, broken } = collect([
      rts(engineTo(0), 65259, 33),
      cts(toolTo(5), 65259, 5, 1),
      ...[1, 2, 3, 4, 5].map((number) => packet(engineTo(10 * number), data, number)),
      endAck(toolTo(60), 65259, 33),
    ]);
    expect(messages).toEqual([{ atMs: 50, pgn: 65259, origin: 0, destination: 0xf9, data, carriage: 'rts' }]);
    expect(broken).toEqual([]);
  });

  test('is joined when only the sender is heard', () => {
    const packets = [1, 2, 3, 4, 5].map((number) => packet(engineTo(10 * number), data, number));
    expect(collect([rts(engineTo(0), 65259, 33), ...packets]).messages).toHaveLength(1);
  });

  test('takes the packets that the receiver asks for again, also when it asks after the last', () => {
    const sent = (atMs: number, number: number) => packet(engineTo(atMs), data, number);
    const { messages, broken } = collect([
      rts(engineTo(0), 65259, 33),
      cts(toolTo(5), 65259, 3, 1),
      sent(10, 1),
      sent(20, 3), // we and the receiver lost packet 2
      cts(toolTo(30), 65259, 2, 2),
      sent(40, 2),
      sent(50, 3),
      cts(toolTo(60), 65259, 2, 4),
      sent(70, 4),
      sent(80, 5),
      cts(toolTo(90), 65259, 1, 5), // we have all; the receiver does not
      sent(100, 5),
      endAck(toolTo(110), 65259, 33),
    ]);
    expect(messages).toMatchObject([{ atMs: 80, data }]);
    expect(broken).toEqual([]);
  });

  test('takes the later bytes of a packet that is sent again', () => {
    const wrong = { ...packet(engineTo(10), data, 1), data: [1, 0, 0, 0, 0, 0, 0, 0] };
    const packets = [1, 2, 3, 4, 5].map((number) => packet(engineTo(20 * number), data, number));
    expect(collect([rts(engineTo(0), 65259, 33), wrong, ...packets]).messages[0]!.data).toEqual(data);
  });

  test('lives through holds of the receiver, which may last', () => {
    const { messages } = collect([
      rts(engineTo(0), 65259, 33),
      ...[500, 1000, 1500, 2000, 2500].map((atMs) => cts(toolTo(atMs), 65259, 0, 0xff)),
      cts(toolTo(3000), 65259, 5, 1),
      ...[1, 2, 3, 4, 5].map((number) => packet(engineTo(3000 + 10 * number), data, number)),
    ]);
    expect(messages).toHaveLength(1);
  });

  test('that the receiver has whole and we have not is out of sequence, and says what we missed', () => {
    const { broken } = collect([
      rts(engineTo(0), 65259, 33),
      ...[1, 2, 4, 5].map((number) => packet(engineTo(10 * number), data, number)),
      endAck(toolTo(60), 65259, 33),
    ]);
    expect(broken).toMatchObject([{ reason: 'out of sequence', packets: 4, expected: 5, firstMissing: 3 }]);
  });

  test('both ways at once between the same two addresses is two transfers', () => {
    const back = message(20, 9);
    const { messages, broken } = collect([
      rts(engineTo(0), 65259, 33),
      rts(toolTo(1), 54272, 20),
      ...[1, 2, 3].flatMap((number) => [
        packet(engineTo(10 * number), data, number),
        packet(toolTo(10 * number + 1), back, number),
      ]),
      ...[4, 5].map((number) => packet(engineTo(10 * number), data, number)),
    ]);
    expect(messages.map((each) => [each.origin, each.data])).toEqual([
      [0xf9, back],
      [0x00, data],
    ]);
    expect(broken).toEqual([]);
  });

  test.each([
    ['sender', engineTo],
    ['receiver', toolTo],
  ])('aborted by the %s says so, with the reason byte and the group', (_, who) => {
    const { broken, messages } = collect([
      rts(engineTo(0), 65259, 33),
      packet(engineTo(10), data, 1),
      abort(who(20), 65259, 3),
      packet(engineTo(30), data, 2),
    ]);
    expect(messages).toEqual([]);
    expect(broken).toMatchObject([
      {
        reason: 'aborted',
        abortReason: 3,
        pgn: 65259,
        origin: 0,
        destination: 0xf9,
        packets: 1,
        expected: 5,
      },
    ]);
  });

  test('never answered and aborted by the sender after 1250 ms is aborted, not timed out', () => {
    // Bench C's brakes send the Abort 1299.96 ms after their RTS.
    const { broken } = collect([rts(engineTo(0), VIN, 18), abort(engineTo(1300), VIN, 0xff)]);
    expect(broken).toMatchObject([{ reason: 'aborted', abortReason: 255, packets: 0, expected: 3 }]);
  });

  test('is not aborted by an Abort that concerns another group: that is told apart', () => {
    const packets = [1, 2, 3, 4, 5].map((number) => packet(engineTo(10 * number), data, number));
    const frames = [rts(engineTo(0), 65259, 33), abort(toolTo(5), VIN, 1), ...packets];
    const { messages, broken } = collect(frames);
    expect(messages).toHaveLength(1);
    expect(broken).toMatchObject([
      { reason: 'aborted', pgn: VIN, origin: 0xf9, expected: 0, abortReason: 1 },
    ]);
    const bySender = [rts(engineTo(0), 65259, 33), abort(engineTo(5), VIN, 1), ...packets];
    expect(collect(bySender).messages).toHaveLength(1);
  });

  test('asked for by a CTS, or ended, without an announcement that was heard is told once', () => {
    const orphan = collect([cts(toolTo(0), VIN, 3, 1), ...wholeBam(engineTo(1), VIN, message(18)).slice(1)]);
    expect(orphan.broken).toMatchObject([{ reason: 'no session', pgn: VIN, origin: 0, destination: 0xf9 }]);
    const ended = collect([endAck(toolTo(0), VIN, 18)]);
    expect(ended.broken).toMatchObject([{ reason: 'no session', pgn: VIN, expected: 3 }]);
    expect(collect([abort(toolTo(0), VIN, 2)]).broken).toMatchObject([
      { reason: 'aborted', pgn: VIN, origin: 0xf9, abortReason: 2 },
    ]);
  });

  test('is not kept alive, or ended, by replies that concern another group', () => {
    const frames = [rts(engineTo(0), 65259, 33), cts(toolTo(1000), VIN, 1, 1), endAck(toolTo(1400), VIN, 18)];
    const { state, broken } = collect(frames);
    expect(broken).toEqual([]);
    expect(expireTransfers(state, 1451).broken).toMatchObject([{ reason: 'timed out', pgn: 65259 }]);
  });
});

describe('silence', () => {
  test('of 750 ms is borne by a BAM; more is not, and the instant is that of the limit', () => {
    const frames = (gapMs: number) => {
      const all = wholeBam(at(0), VIN, message(18), 50);
      return all.map((frame, i) => (i < 3 ? frame : { ...frame, atMs: 100 + gapMs }));
    };
    expect(collect(frames(750)).messages).toHaveLength(1);
    const { messages, broken } = collect(frames(751));
    expect(messages).toEqual([]);
    expect(broken).toMatchObject([{ reason: 'timed out', atMs: 850, packets: 2, firstMissing: 3 }]);
  });

  test('of 1450 ms (T3 and Tr) is borne by an RTS; more is not', () => {
    const { state, broken } = collect([rts(engineTo(0), VIN, 18)]);
    expect(broken).toEqual([]);
    expect(expireTransfers(state, 1450)).toEqual({ state, messages: [], broken: [] });
    expect(expireTransfers(state, 1450.1).broken).toMatchObject([
      { reason: 'timed out', atMs: 1450, packets: 0 },
    ]);
  });

  test('is seen at the end of a batch of other frames, and by the clock alone; told once', () => {
    const { state } = collect([bam(at(0), VIN, 18)]);
    const other: Sent = { atMs: 800, id: 0x0cf00400, data: [0, 0, 0, 0, 0, 0, 0, 0] };
    const later = collect([other], state);
    expect(later.broken).toMatchObject([{ reason: 'timed out', atMs: 750 }]);
    expect(expireTransfers(state, 800).broken).toEqual(later.broken);
    expect(expireTransfers(later.state, 5000).broken).toEqual([]);
    expect(expireTransfers(later.state, 5000).state.transfers.size).toBe(0);
  });

  test('is not known in a log without time: nothing times out', () => {
    const frames = wholeBam(at(NaN), VIN, message(18));
    const { state, broken } = collect(frames.slice(0, 2));
    expect(broken).toEqual([]);
    expect(expireTransfers(state, NaN).broken).toEqual([]);
    expect(collect(frames.slice(2), state).messages).toMatchObject([{ atMs: NaN, data: message(18) }]);
  });

  test('of unknown length at a break of time ends what ran', () => {
    const { state } = collect([bam(at(0), VIN, 18), packet(at(50), message(18), 1)]);
    const after = collectMessages(state, batchOf([packet(at(10), message(18), 2)], true));
    expect(after.broken.map(({ reason, packets }) => [reason, packets])).toEqual([
      ['no session', 1],
      ['timed out', 1],
    ]);
    expect(after.messages).toEqual([]);
  });

  test('of a transfer that is over is not told again at a break of time', () => {
    const { state } = collect(wholeBam(at(0), VIN, message(18)));
    expect(state.transfers.size).toBe(1);
    const after = collectMessages(state, batchOf([], true));
    expect([after.broken, after.state.transfers.size]).toEqual([[], 0]);
  });
});
