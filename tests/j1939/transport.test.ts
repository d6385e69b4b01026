import { describe, expect, test } from 'vitest';
import {
  collectMessages,
  expireTransfers,
  MOST_TRANSFERS,
  START_TRANSPORT,
  type TransportState,
} from '../../src/j1939/transport.ts';
import {
  bam,
  batchOf,
  message,
  packet,
  rts,
  wholeBam,
  type Place,
  type Sent,
} from './fixtures/transport-frames.ts';

const VIN = 65260;
const DM1 = 65226;
const collect = (frames: readonly Sent[], state: TransportState = START_TRANSPORT) =>
  collectMessages(state, batchOf(frames));
const at = (atMs: number, from = 0x00, to = 0xff): Place => ({ atMs, from, to });

describe('a message announced to all (BAM)', () => {
  const data = message(18);

  test('is joined when its last packet comes, with that time, its exact size and its sender', () => {
    const { messages, broken } = collect(wholeBam(at(1000), VIN, data));
    expect(messages).toEqual([{ atMs: 1150, pgn: VIN, origin: 0, destination: 255, data, carriage: 'bam' }]);
    expect(broken).toEqual([]);
  });

  test('is joined from the bytes of the reference by hand: the VIN request answered in three packets', () => {
    // j1939.md: 17 characters and "*" are 18 bytes in 3 packets; announcement 20 12 00 03 FF EC FE 00.
    const hex = (text: string) => text.match(/../g)!.map((pair) => parseInt(pair, 16));
    const frames: Sent[] = [
      { atMs: 0, id: 0x1cecff00, data: hex('20120003FFECFE00') },
      { atMs: 50, id: 0x1cebff00, data: hex('015A5A5A54524B41') },
      { atMs: 100, id: 0x1cebff00, data: hex('0241325254303030') },
      { atMs: 150, id: 0x1cebff00, data: hex('033030312AFFFFFF') },
    ];
    const text = String.fromCharCode(...collect(frames).messages[0]!.data);
    expect(text).toBe('ZZZTRKAA2RT000001*');
  });

  test.each([9, 14, 15, 1784, 1785])('of %i bytes is joined whole', (size) => {
    const { messages } = collect(wholeBam(at(0), DM1, message(size), 10));
    expect(messages[0]!.data).toEqual(message(size));
  });

  test('announced to a single address is joined too', () => {
    const { messages } = collect(wholeBam(at(0, 0x8b, 0x25), 54272, data));
    expect(messages).toMatchObject([{ origin: 0x8b, destination: 0x25, carriage: 'bam' }]);
  });

  test('of one sender does not mix with that of another, or of another channel', () => {
    const streams = [
      wholeBam(at(0, 0x00), VIN, message(20, 1)),
      wholeBam(at(1, 0x0b), VIN, message(20, 2)),
      wholeBam({ ...at(2, 0x00), channel: 1 }, VIN, message(20, 3)),
    ];
    const woven = streams[0]!.flatMap((_, i) => streams.map((each) => each[i]!));
    const { messages } = collect(woven);
    expect(messages.map(({ origin, data: got }) => [origin, got])).toEqual([
      [0x00, message(20, 1)],
      [0x0b, message(20, 2)],
      [256, message(20, 3)],
    ]);
  });

  test('with a packet missing breaks off once, and says which; the rest of its packets are not news', () => {
    const frames = wholeBam(at(0), 65242, message(108)); // 16 packets
    frames.splice(9, 1);
    const { messages, broken } = collect(frames);
    expect(messages).toEqual([]);
    expect(broken).toEqual([
      {
        atMs: 500,
        pgn: 65242,
        origin: 0,
        destination: 255,
        reason: 'out of sequence',
        packets: 8,
        expected: 16,
        firstMissing: 9,
        abortReason: null,
      },
    ]);
  });

  test('bears a packet that comes twice with the same bytes, not one with other bytes', () => {
    const frames = wholeBam(at(0), VIN, data);
    const twice = [...frames.slice(0, 3), frames[2]!, ...frames.slice(3)];
    expect(collect(twice).messages).toHaveLength(1);
    const other = { ...frames[2]!, data: [2, 9, 9, 9, 9, 9, 9, 9] };
    const torn = [...frames.slice(0, 3), other, ...frames.slice(3)];
    expect(collect(torn)).toMatchObject({
      messages: [],
      broken: [{ reason: 'out of sequence', packets: 2 }],
    });
  });

  test('bears its last packet twice', () => {
    const frames = wholeBam(at(0), VIN, data);
    const { messages, broken } = collect([...frames, frames.at(-1)!]);
    expect([messages.length, broken.length]).toEqual([1, 0]);
  });

  test.each([0, 4, 255])('with a packet of number %i of 3 breaks off', (number) => {
    const frames = [bam(at(0), VIN, 18), packet(at(50), message(18), number)];
    expect(collect(frames).broken).toMatchObject([
      { reason: 'out of sequence', packets: 0, firstMissing: 1 },
    ]);
  });

  test('is replaced by a new announcement of the same sender, which is then joined', () => {
    const frames = [...wholeBam(at(0), DM1, message(30)).slice(0, 3), ...wholeBam(at(200), VIN, data)];
    const { messages, broken } = collect(frames);
    expect(broken).toMatchObject([{ pgn: DM1, reason: 'replaced', packets: 2, expected: 5, atMs: 200 }]);
    expect(messages).toMatchObject([{ pgn: VIN }]);
  });

  test('may leave out the padding of its last packet, but none of its bytes', () => {
    const frames = wholeBam(at(0), VIN, data);
    const cut = (length: number) => [
      ...frames.slice(0, -1),
      { ...frames.at(-1)!, data: frames.at(-1)!.data.slice(0, length) },
    ];
    expect(collect(cut(5)).messages).toHaveLength(1); // 18 = 7 + 7 + 4: number and 4 bytes
    expect(collect(cut(4)).messages).toHaveLength(0);
    const late = expireTransfers(collect(cut(4)).state, 1000).broken;
    expect(late).toMatchObject([{ reason: 'timed out', firstMissing: 3 }]);
  });
});

describe('an announcement that cannot be true', () => {
  test.each([
    ['of 8 bytes', bam(at(0), VIN, 8, 2)],
    ['of 1786 bytes', bam(at(0), VIN, 1786, 255)],
    ['of a packet too few', bam(at(0), VIN, 18, 2)],
    ['of a packet too many', bam(at(0), VIN, 18, 4)],
    ['of no packets', bam(at(0), VIN, 0, 0)],
    ['of a group that no identifier can hold', bam(at(0), 0x40000, 18)],
    ['by RTS to all', rts(at(0), VIN, 18)],
    ['of 5 bytes of frame', { ...bam(at(0), VIN, 18), data: [32, 18, 0, 3, 255] }],
  ])('%s is reported as bad, and its packets are not news', (_, announcement) => {
    const packets = [1, 2, 3].map((number) => packet(at(50 * number), message(18), number));
    const { messages, broken } = collect([announcement, ...packets]);
    expect(messages).toEqual([]);
    expect(broken).toMatchObject([{ reason: 'bad announcement' }]);
  });

  test('names the group only where it has one', () => {
    expect(collect([bam(at(0), VIN, 8)]).broken[0]!.pgn).toBe(VIN);
    expect(collect([bam(at(0), 0x40000, 18)]).broken[0]!.pgn).toBeNull();
    expect(collect([{ ...bam(at(0), VIN, 18), data: [32] }]).broken[0]!.pgn).toBeNull();
  });

  test('replaces what ran: both are told', () => {
    const { broken } = collect([bam(at(0), VIN, 18), bam(at(50), VIN, 5)]);
    expect(broken.map(({ reason }) => reason)).toEqual(['replaced', 'bad announcement']);
  });

  test.each([[[20, 1, 2, 3, 4, 5, 6, 7]], [[17, 1]], [[]]])(
    'is not seen in connection management %j',
    (data) => {
      const { state, broken } = collect([{ ...bam(at(0), VIN, 18), data }]);
      expect([state.transfers.size, broken]).toEqual([0, []]);
    },
  );
});

describe('packets that nobody announced', () => {
  test('are told once, not packet by packet', () => {
    const { messages, broken } = collect(wholeBam(at(0), VIN, message(40)).slice(2));
    expect(messages).toEqual([]);
    expect(broken).toMatchObject([{ reason: 'no session', pgn: null, packets: 1, expected: 0, atMs: 100 }]);
    expect(broken[0]).not.toHaveProperty('firstMissing');
  });

  test('are told again after 750 ms of silence', () => {
    const frames = [0, 750, 1501].map((atMs) => packet(at(atMs), message(18), 1));
    expect(collect(frames).broken.map(({ atMs }) => atMs)).toEqual([0, 1501]);
  });

  test('do not hinder the next announcement', () => {
    const { messages } = collect([packet(at(0), message(18), 3), ...wholeBam(at(10), VIN, message(18))]);
    expect(messages).toHaveLength(1);
  });
});

describe('what is heard', () => {
  const codes = [0x04, 0xff, 0xf7, 0x00, 0x09, 0x5d, 0xff, 0xff];

  test.each([65226, 65227, 65260, 65259, 65242, 64965])('of group %i in one frame is a message', (pgn) => {
    const { messages, state } = collect([{ atMs: 3, id: 0x18000000 + pgn * 256 + 0x0b, data: codes }]);
    expect(messages).toEqual([
      { atMs: 3, pgn, origin: 0x0b, destination: 255, data: Uint8Array.from(codes), carriage: 'single' },
    ]);
    expect(state).toBe(START_TRANSPORT);
  });

  test.each([
    [59392, 0x18e8fff9, 0xff],
    [59392, 0x18e800f9, 0x00],
    [60928, 0x18eefff9, 0xff],
  ])('of group %i to one address or all is a message', (pgn, id, destination) => {
    expect(collect([{ atMs: 3, id, data: codes }]).messages).toMatchObject([
      { pgn, destination, origin: 0xf9 },
    ]);
  });

  test('has the bytes of the frame, not more', () => {
    expect(collect([{ atMs: 3, id: 0x18feca00, data: [4, 255] }]).messages[0]!.data).toEqual(
      Uint8Array.of(4, 255),
    );
  });

  test.each([
    ['remote', 1 | 2],
    ['error', 1 | 4],
    ['sent', 1 | 8],
    ['11-bit', 0],
  ])('in a %s frame is nothing', (_, flags) => {
    const frames = wholeBam(at(0), VIN, message(18)).map((frame) => ({ ...frame, flags }));
    const { messages, broken } = collect([...frames, { atMs: 9, id: 0x18feca00, data: codes, flags }]);
    expect([messages, broken]).toEqual([[], []]);
  });

  test('with the extended data page, or on data page 1, is another group', () => {
    const id = [0x1aecff00, 0x1decff00, 0x1afeca00, 0x19feca00];
    const { messages, broken } = collect(
      id.map((each) => ({ atMs: 0, id: each, data: [32, 18, 0, 3, 255, 0, 0, 0] })),
    );
    expect([messages, broken]).toEqual([[], []]);
  });
});

describe('the state', () => {
  test('is a value: an older one still gives what it gave', () => {
    const frames = wholeBam(at(0), VIN, message(18));
    const early = collect(frames.slice(0, 2)).state;
    const first = collect(frames.slice(2), early);
    const other = collect([{ ...frames[2]!, data: [2, 0, 0, 0, 0, 0, 0, 0] }, frames[3]!], early);
    expect(collect(frames.slice(2), early)).toEqual(first);
    expect(other.messages[0]!.data).not.toEqual(first.messages[0]!.data);
  });

  test('holds no more than its most transfers: the oldest running one is told as replaced', () => {
    const many = Array.from({ length: MOST_TRANSFERS + 3 }, (_, from) => bam(at(from, from), VIN, 1785));
    const { state, broken } = collect(many);
    expect(state.transfers.size).toBe(MOST_TRANSFERS);
    expect(broken.map(({ origin, reason }) => [origin, reason])).toEqual([
      [0, 'replaced'],
      [1, 'replaced'],
      [2, 'replaced'],
    ]);
  });

  test('gives up what is over before what is running', () => {
    const done = wholeBam(at(0, 200), VIN, message(18), 1);
    const many = Array.from({ length: MOST_TRANSFERS }, (_, from) => bam(at(10 + from, from), VIN, 1785));
    const { state, broken } = collect([...done, ...many]);
    expect([state.transfers.size, broken]).toEqual([MOST_TRANSFERS, []]);
  });

  test('holds no bytes of transfers that are over', () => {
    const { state } = collect(wholeBam(at(0), VIN, message(1785), 1));
    expect([...state.transfers.values()].map(({ data }) => data.length)).toEqual([0]);
  });
});
