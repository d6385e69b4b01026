import { describe, expect, test } from 'vitest';
import { brokenProblem } from '../../src/j1939/broken-problem.ts';
import type { BrokenReason, BrokenTransfer } from '../../src/j1939/bus-message.ts';
import { parseCanId } from '../../src/j1939/can-id.ts';
import { abortReasonText, readControl } from '../../src/j1939/control-message.ts';
import { groupName } from '../../src/j1939/group-names.ts';
import { acknowledgementKey, START_FACTS, type LearnedFacts } from '../../src/j1939/learn-facts.ts';
import {
  answeredAt,
  formRequest,
  formRequests,
  REQUEST_EFFECT,
  requestOutcome,
  REQUESTS,
  type AskedRequest,
} from '../../src/j1939/requests.ts';
import { addressText, sourceName } from '../../src/j1939/source-addresses.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { bytes } from './fixtures/hex.ts';

describe('a request', () => {
  test('for the VIN to all is 18EAFFF9#ECFE00 (j1939.md)', () => {
    expect(formRequest(65260)).toEqual({ id: 0x18eafff9, data: [0xec, 0xfe, 0x00] });
  });

  test('to one address, and from another, has them in the identifier (18EA00F9: j1939.md)', () => {
    expect(formRequest(65260, { destination: 0 }).id).toBe(0x18ea00f9);
    expect(formRequest(65260, { destination: 0x0b, sourceAddress: 0xfa }).id).toBe(0x18ea0bfa);
  });

  test.each([
    ['vin', 'ECFE00'],
    ['component', 'EBFE00'],
    ['software', 'DAFE00'],
    ['activeCodes', 'CAFE00'],
    ['previousCodes', 'CBFE00'],
    ['engineHours', 'E5FE00'],
  ])('for %s asks for %s, low byte first', (id, hex) => {
    const { pgn } = REQUESTS.find((each) => each.id === id)!;
    expect(formRequest(pgn).data).toEqual([...bytes(hex)]);
  });

  test('of a group on data page 1 has it in the third byte; what is too large is cut', () => {
    expect(formRequest(0x1fece).data).toEqual([0xce, 0xfe, 0x01]);
    expect(formRequest(0xfffffece).data[2]).toBe(3);
  });

  test('for several groups is one frame each, in order', () => {
    expect(formRequests([65260, 65259], { destination: 0 })).toEqual([
      { id: 0x18ea00f9, data: [0xec, 0xfe, 0] },
      { id: 0x18ea00f9, data: [0xeb, 0xfe, 0] },
    ]);
  });

  test('is information only: priority 6, group 59904, three bytes; every purpose is said', () => {
    for (const { pgn, label, purpose } of REQUESTS) {
      const { id, data } = formRequest(pgn);
      expect(parseCanId(id)).toMatchObject({
        pgn: 59904,
        priority: 6,
        destination: 255,
        sourceAddress: 0xf9,
      });
      expect(data).toHaveLength(3);
      expect(label.length).toBeGreaterThan(5);
      expect(purpose).toMatch(/^[A-Z].*\.$/);
      expect(groupName(pgn)).not.toBeNull();
    }
    expect(new Set(REQUESTS.map(({ id }) => id)).size).toBe(REQUESTS.length);
    expect(REQUEST_EFFECT).toMatch(/commands nothing/);
  });
});

describe('the outcome of a request', () => {
  const asked: AskedRequest = { pgn: 65260, destination: 0, sentMs: 1000, channel: 0 };
  const answeredWith = (
    answer: 'acknowledged' | 'refused' | 'denied' | 'busy',
    atMs = 1100,
  ): LearnedFacts => ({
    ...START_FACTS,
    acknowledgements: new Map([
      [acknowledgementKey(65260, 0), { atMs, origin: 0, answer, pgn: 65260, askedBy: 0xf9 }],
    ]),
  });
  const outcome = (facts: LearnedFacts, nowMs: number, answeredMs: number | null = null) => {
    const result = requestOutcome(asked, facts, nowMs, answeredMs);
    return result.ok ? result.value : result.problem.code;
  };

  test('is waited for 1250 ms, then nobody answered', () => {
    expect(outcome(START_FACTS, 1000)).toBe('waiting');
    expect(outcome(START_FACTS, 2250)).toBe('waiting');
    expect(outcome(START_FACTS, 2251)).toBe('bus.request-unanswered');
  });

  test('is an answer when the data came after it was asked, not before', () => {
    expect(outcome(START_FACTS, 5000, 1000)).toBe('answered');
    expect(outcome(START_FACTS, 5000, 999)).toBe('bus.request-unanswered');
    expect(outcome(answeredWith('refused'), 1200, 1150)).toBe('answered');
  });

  test.each([
    ['refused', 'bus.request-refused'],
    ['denied', 'bus.request-denied'],
    ['busy', 'bus.request-busy'],
    ['acknowledged', 'waiting'],
  ] as const)('of a controller that answers %s is %s', (answer, expected) => {
    expect(outcome(answeredWith(answer), 1200)).toBe(expected);
  });

  test('does not take an older refusal, or that of another controller or channel', () => {
    expect(outcome(answeredWith('refused', 999), 1200)).toBe('waiting');
    for (const other of [{ destination: 3 }, { channel: 1 }, { pgn: 65259 }])
      expect(requestOutcome({ ...asked, ...other }, answeredWith('refused'), 1200, null)).toMatchObject({
        ok: true,
      });
  });

  test('names who and what in words', () => {
    const result = requestOutcome(asked, answeredWith('refused'), 1200, null);
    const { message } = describeProblem(result.ok ? expect.fail('refused') : result.problem);
    expect(message).toBe('00 (engine 1) answers that it does not have this: vehicle identification.');
  });

  test('is known from the messages that came: of that group, from that address, on that channel', () => {
    const came = (atMs: number, pgn: number, origin: number) => ({
      atMs: millis(atMs),
      pgn,
      origin,
      destination: 255,
      data: bytes('00'),
      carriage: 'bam' as const,
    });
    const messages = [came(1, 65260, 0), came(2, 65260, 3), came(3, 65260, 256), came(4, 65259, 0)];
    expect(answeredAt(messages, asked)).toBe(1);
    expect(answeredAt(messages, { ...asked, destination: 255 })).toBe(2);
    expect(answeredAt(messages, { ...asked, channel: 1 })).toBe(3);
    expect(answeredAt(messages, { ...asked, pgn: 65242 })).toBeNull();
  });
});

describe('a broken transfer in words', () => {
  const broken = (reason: BrokenReason, more: Partial<BrokenTransfer> = {}): BrokenTransfer => ({
    atMs: millis(0),
    pgn: 65242,
    origin: 256 + 0x0b,
    destination: 255,
    reason,
    packets: 8,
    expected: 16,
    abortReason: null,
    ...more,
  });
  const said = (...args: Parameters<typeof broken>) => {
    const found = brokenProblem(broken(...args));
    return [found.code, describeProblem(found).message];
  };

  test.each([
    ['aborted', 'bus.transfer-aborted', /aborted after 8 of 16 packets: no reason given\.$/],
    [
      'out of sequence',
      'bus.transfer-packet-lost',
      /^Packet 9 of 16 of software identification from 0B \(brakes\)/,
    ],
    ['timed out', 'bus.transfer-timed-out', /stopped sending .* after 8 of 16/],
    ['replaced', 'bus.transfer-replaced', /began something new/],
    ['bad announcement', 'bus.transfer-badly-announced', /size that cannot be true/],
    ['no session', 'bus.transfer-not-announced', /without the announcement/],
  ] as const)('%s is %s', (reason, code, words) => {
    const [found, message] = said(reason);
    expect(found).toBe(code);
    expect(message).toMatch(words);
  });

  test('says which packet is missing, and why it was aborted', () => {
    expect(said('out of sequence', { firstMissing: 3 })[1]).toMatch(/^Packet 3 of 16/);
    expect(said('aborted', { abortReason: 1 })[1]).toMatch(/busy with another transfer/);
  });

  test('of an unknown group is a message, of an unnamed one its number', () => {
    expect(said('no session', { pgn: null })[1]).toMatch(/Packets of a message came/);
    expect(said('timed out', { pgn: 54272 })[1]).toMatch(/PGN 54272/);
  });

  // Reasons: j1939.md, "Abort reasons".
  test.each([
    [1, /busy/],
    [2, /memory|resources/],
    [3, /waited/],
    [4, /sending/],
    [5, /too often/],
    [6, /not expected/],
    [7, /wrong packet number/],
    [8, /twice/],
    [9, /1785/],
    [250, /other/],
    [255, /no reason/],
    [77, /reason 77/],
  ])('abort reason %i is in words', (reason, words) => expect(abortReasonText(reason)).toMatch(words));
});

describe('connection management bytes (j1939.md, table of the transport protocol)', () => {
  test.each([
    ['10 1200 03 FF ECFE00', { kind: 'rts', sizeBytes: 18, packets: 3, pgn: 65260 }],
    ['20 BE00 1C FF CAFE00', { kind: 'bam', sizeBytes: 190, packets: 28, pgn: 65226 }],
    ['20 F906 FF FF CAFE01', { kind: 'bam', sizeBytes: 1785, packets: 255, pgn: 0x1feca }],
    ['11 03 02 FFFF ECFE00', { kind: 'cts', packets: 3, next: 2, pgn: 65260 }],
    ['13 1200 03 FF ECFE00', { kind: 'end', packets: 3, pgn: 65260 }],
    ['FF 03 FFFFFF ECFE00', { kind: 'abort', reason: 3, pgn: 65260 }],
  ])('%s is read', (hex, expected) => expect(readControl(bytes(hex))).toEqual(expected));

  test.each(['', '14 1200 03 FF ECFE00', '11 03 02', 'FF', '13 12 00 03 FF EC FE'])('"%s" is none', (hex) => {
    expect(readControl(bytes(hex))).toBeNull();
  });
});

describe('addresses', () => {
  test('have their usual owners (j1939.md), as words and with their number', () => {
    expect([0, 1, 3, 0x0b, 0x0f, 0x31, 0x55, 0xf9].map(sourceName)).toEqual([
      'engine 1',
      'engine 2',
      'transmission',
      'brakes',
      'engine retarder',
      'cab',
      'particulate filter',
      'off-board tool 1',
    ]);
    expect([addressText(0x31), addressText(0x80), addressText(0x100)]).toEqual([
      '31 (cab)',
      '80',
      '00 (engine 1)',
    ]);
  });
});
