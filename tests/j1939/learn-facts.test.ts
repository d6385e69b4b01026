import { describe, expect, test } from 'vitest';
import { readAcknowledgement } from '../../src/j1939/acknowledgement.ts';
import { industryGroupName, readAddressClaim } from '../../src/j1939/address-claim.ts';
import type { BrokenTransfer, BusMessage } from '../../src/j1939/bus-message.ts';
import { acknowledgementKey, learnFacts, START_FACTS } from '../../src/j1939/learn-facts.ts';
import { millis } from '../../src/quantities/time.ts';
import { bytes, latin1 } from './fixtures/hex.ts';

const heard = (pgn: number, data: Uint8Array, more: Partial<BusMessage> = {}): BusMessage => ({
  atMs: millis(5),
  pgn,
  origin: 0,
  destination: 255,
  data,
  carriage: 'single',
  ...more,
});
const learn = (...messages: BusMessage[]) => learnFacts(START_FACTS, messages, []);
const torn = (atMs: number): BrokenTransfer => ({
  atMs: millis(atMs),
  pgn: 65260,
  origin: 0,
  destination: 255,
  reason: 'timed out',
  packets: 1,
  expected: 3,
  abortReason: null,
});

describe('trouble codes', () => {
  const one = bytes('04FF 9D001205 FFFF');

  test('active and previous ones are kept apart, each by who sent it, with their time', () => {
    const facts = learn(heard(65226, one), heard(65227, one, { origin: 11, atMs: millis(9) }));
    expect(facts.active.get(0)).toMatchObject({ atMs: 5, codes: [{ spn: 157, fmi: 18, occurrences: 5 }] });
    expect(facts.previous.get(11)!.atMs).toBe(9);
    expect([facts.active.size, facts.previous.size]).toEqual([1, 1]);
  });

  test('that are gone are gone: the last report holds', () => {
    const facts = learn(heard(65226, one), heard(65226, bytes('00FF00000000FFFF'), { atMs: millis(1005) }));
    expect(facts.active.get(0)).toMatchObject({ atMs: 1005, codes: [] });
  });

  test('that cannot be read change nothing', () => {
    expect(learn(heard(65226, bytes('04')), heard(65227, bytes('')))).toBe(START_FACTS);
  });
});

describe('identity', () => {
  test('of each controller is its own', () => {
    const facts = learn(
      heard(65260, latin1('VINVINVIN*')),
      heard(65259, latin1('MAKE*MD*SER*U*'), { origin: 11 }),
      heard(65242, latin1('\x01SW*'), { origin: 11 }),
    );
    expect(facts.identifications.get(0)).toEqual({
      vin: 'VINVINVIN',
      component: null,
      software: null,
      ecu: null,
    });
    expect(facts.identifications.get(11)).toMatchObject({
      vin: null,
      component: { make: 'MAKE' },
      software: ['SW'],
    });
  });
});

describe('acknowledgements (PGN 59392)', () => {
  // The real ones of j1939.md: 01FFFFFFF9ECFE00 and 01FFFFFFFF534400.
  test('of the reference are read', () => {
    expect(readAcknowledgement(heard(59392, bytes('01FFFFFFF9ECFE00')))).toEqual({
      atMs: 5,
      origin: 0,
      answer: 'refused',
      pgn: 65260,
      askedBy: 0xf9,
    });
    expect(readAcknowledgement(heard(59392, bytes('01FFFFFFFF534400')))).toMatchObject({
      pgn: 0x4453,
      askedBy: null,
    });
  });

  test.each([
    ['00', 'acknowledged'],
    ['01', 'refused'],
    ['02', 'denied'],
    ['03', 'busy'],
  ])('with control byte %s say %s', (control, answer) => {
    expect(readAcknowledgement(heard(59392, bytes(`${control}FFFFFFF9ECFE00`)))!.answer).toBe(answer);
  });

  test.each(['04FFFFFFF9ECFE00', 'FFFFFFFFF9ECFE00', '01FFFFFFF9ECFE', ''])('%s is none', (hex) => {
    expect(readAcknowledgement(heard(59392, bytes(hex)))).toBeNull();
    expect(learn(heard(59392, bytes(hex)))).toBe(START_FACTS);
  });

  test('of another group are none', () =>
    expect(readAcknowledgement(heard(59904, bytes('01FFFFFFF9ECFE00')))).toBeNull());

  test('are kept by what was asked and who answered; the last holds', () => {
    const facts = learn(
      heard(59392, bytes('03FFFFFFF9ECFE00')),
      heard(59392, bytes('01FFFFFFF9ECFE00'), { atMs: millis(8) }),
      heard(59392, bytes('01FFFFFFF9EBFE00'), { origin: 11 }),
    );
    expect(facts.acknowledgements.size).toBe(2);
    expect(facts.acknowledgements.get(acknowledgementKey(65260, 0))).toMatchObject({
      answer: 'refused',
      atMs: 8,
    });
    expect(facts.acknowledgements.get(acknowledgementKey(65259, 11))).toMatchObject({ answer: 'refused' });
  });
});

describe('address claims (PGN 60928)', () => {
  /** NAME bits as in the Linux kernel's can/j1939.h: identity 0-20, maker 21-31, ECU instance 32-34, function instance 35-39, and so on. */
  const name = (parts: readonly [value: number, from: number][]): Uint8Array => {
    const whole = parts.reduce((sum, [value, from]) => sum | (BigInt(value) << BigInt(from)), 0n);
    return Uint8Array.from({ length: 8 }, (_, i) => Number((whole >> BigInt(8 * i)) & 0xffn));
  };

  test('are taken apart field by field', () => {
    const data = name([
      [0x1abcde, 0],
      [0x5a5, 21],
      [5, 32],
      [0x15, 35],
      [0xa7, 40],
      [0x55, 49],
      [9, 56],
      [2, 60],
      [1, 63],
    ]);
    expect(readAddressClaim(heard(60928, data, { origin: 256 + 3 }))).toEqual({
      atMs: 5,
      identityNumber: 0x1abcde,
      manufacturerCode: 0x5a5,
      ecuInstance: 5,
      functionInstance: 0x15,
      function: 0xa7,
      vehicleSystem: 0x55,
      vehicleSystemInstance: 9,
      industryGroup: 2,
      arbitraryAddressCapable: true,
      cannotClaim: false,
    });
  });

  test('have fields that do not touch each other', () => {
    const full = {
      identityNumber: [0, 21],
      manufacturerCode: [21, 11],
      ecuInstance: [32, 3],
      functionInstance: [35, 5],
      function: [40, 8],
      vehicleSystem: [49, 7],
      vehicleSystemInstance: [56, 4],
      industryGroup: [60, 3],
    } as const;
    for (const [field, [from, width]] of Object.entries(full)) {
      const claim = readAddressClaim(heard(60928, name([[2 ** width - 1, from]])))!;
      const others = Object.keys(full).filter((each) => claim[each as keyof typeof full] !== 0);
      expect([others, claim[field as keyof typeof full], claim.arbitraryAddressCapable]).toEqual([
        [field],
        2 ** width - 1,
        false,
      ]);
    }
  });

  test('from address 254 say that none could be claimed', () => {
    expect(readAddressClaim(heard(60928, name([]), { origin: 254 }))!.cannotClaim).toBe(true);
  });

  test('of another length are none', () => {
    expect(readAddressClaim(heard(60928, bytes('00000000000000')))).toBeNull();
    expect(learn(heard(60928, bytes('00')))).toBe(START_FACTS);
    expect(readAddressClaim(heard(60929, name([])))).toBeNull();
  });

  test('are kept by origin', () =>
    expect(learn(heard(60928, name([[1, 60]]), { origin: 3 })).claims.get(3)!.industryGroup).toBe(1));

  test('name six industry groups', () => {
    expect([0, 1, 5, 6, 7].map(industryGroupName)).toEqual(['all', 'on-highway', 'industrial', null, null]);
  });
});

describe('broken transfers', () => {
  test('are counted all and kept to the last twenty, newest last', () => {
    const facts = [10, 15, 3].reduce(
      (known, count, round) =>
        learnFacts(
          known,
          [],
          Array.from({ length: count }, (_, i) => torn(100 * round + i)),
        ),
      START_FACTS,
    );
    expect([facts.brokenCount, facts.broken.length]).toEqual([28, 20]);
    expect(facts.broken.at(-1)!.atMs).toBe(202);
  });
});

describe('the facts', () => {
  test('are the same value where nothing was learned', () => {
    expect(learnFacts(START_FACTS, [], [])).toBe(START_FACTS);
    expect(learn(heard(64965, latin1('')))).not.toBe(START_FACTS); // it speaks, though it says nothing
    expect(learn(heard(54272, latin1('abc*')))).toBe(START_FACTS);
  });

  test('are a value: what was known stays', () => {
    const before = learn(heard(65260, latin1('ONE*')));
    learnFacts(before, [heard(65260, latin1('TWO*')), heard(65226, bytes('04FF9D001205FFFF'))], [torn(1)]);
    expect([before.identifications.get(0)!.vin, before.active.size, before.brokenCount]).toEqual([
      'ONE',
      0,
      0,
    ]);
  });

  test('are bounded: of 1000 senders the last 256 are kept', () => {
    const many = Array.from({ length: 1000 }, (_, origin) =>
      heard(65226, bytes('04FF9D001205FFFF'), { origin }),
    );
    const { active } = learnFacts(START_FACTS, many, []);
    expect([active.size, active.has(743), active.has(744), active.has(999)]).toEqual([
      256,
      false,
      true,
      true,
    ]);
  });
});
