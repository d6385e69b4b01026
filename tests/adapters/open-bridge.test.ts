import { describe, expect, test } from 'vitest';
import { createShopBridge, type ShopBridgeKind } from '../../simulators/bridge/shop-bridge.ts';
import { ORIGINAL_TRAITS } from '../../simulators/bridge/slcan-device.ts';
import type { FoundBridge } from '../../src/wire/found-bridge.ts';
import { SERIAL_SPEEDS } from '../../src/wire/search-speeds.ts';
import { firstSpeedMs, onBus, shopRig, USUAL } from './fixtures/shop-rig.ts';

const traits = (changes: Partial<typeof ORIGINAL_TRAITS>): ShopBridgeKind => ({
  ...USUAL,
  traits: { ...ORIGINAL_TRAITS, ...changes },
});
/** Connects, runs to `ms`, lets go. */
function played(kind: ShopBridgeKind, ms: number, means: Parameters<typeof shopRig>[1] = {}) {
  const rig = shopRig(kind, means);
  const subscription = rig.connect();
  rig.runTo(ms);
  subscription.unsubscribe();
  return rig;
}

describe('a search', () => {
  test('tells its stages in order, and passes on the right opening from its open event on', () => {
    const rig = played({ ...USUAL, serialBaud: 500_000 }, 2000);
    expect(rig.stages()).toEqual(['opening', 'serial speed', 'bit rate', 'found']);
    expect(rig.log.opened).toEqual([115_200, 1_000_000, 500_000]);
    expect(rig.events[0]).toMatchObject({ kind: 'open', device: 'bridge' });
    expect(rig.events.filter(({ kind }) => kind === 'open')).toHaveLength(1);
    expect(rig.last()).toMatchObject({
      stage: 'found',
      trials: 3,
      found: {
        ...{ baudRate: 500_000, protocol: 'slcan', bitRate: 250_000, version: 'V1013' },
        listenOnly: 'confirmed',
      },
    });
    const times = rig.events.map(({ atMs }) => atMs);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
  });

  test('sends one command a write, closes the channel at the end and frees the port', () => {
    const rig = played(USUAL, 1000);
    expect(rig.log.sent).toEqual(['\r\r\r', 'C\r', 'V\r', 'C\r', 'S5\r', 'Z1\r', 'L\r', 'C\r']);
    expect([rig.device().channel, rig.log.open]).toEqual(['closed', 0]);
  });

  test('let go in the middle leaves no timer, no port and sends nothing more', () => {
    for (let ms = 1; ms < 700; ms += 37) {
      const rig = shopRig({ ...USUAL, serialBaud: 1_000_000 });
      const subscription = rig.connect();
      rig.runTo(ms);
      subscription.unsubscribe();
      const sent = rig.log.sent.length;
      rig.runTo(20_000);
      expect([rig.log.open, rig.log.sent.length]).toEqual([0, sent]);
      expect(rig.scheduler.actions).toEqual([]);
    }
  });

  test('counts what it dropped with the openings that it gave up', () => {
    const rig = played({ ...USUAL, slcan: false, printing: 'json readings', serialBaud: 57_600 }, 12_000);
    expect(rig.last().found).toMatchObject({ protocol: 'reading-lines', baudRate: 57_600 });
    expect(rig.last().droppedBytes).toBeGreaterThan(0);
    expect(rig.text()).not.toMatch(/[^\x20-\x7e\r\n]/);
  });
});

describe('listen-only', () => {
  test('that is refused ends with the problem, and O is never sent', () => {
    const rig = played(traits({ listenCommand: 'refused' }), 6000);
    expect(rig.last()).toMatchObject({ stage: 'refused', problem: { code: 'wire.listen-only-refused' } });
    expect(rig.gaps()).toEqual(['wire.listen-only-refused']);
    expect(rig.log.sent).not.toContain('O\r');
    expect(rig.device().channel).toBe('closed');
  });

  const SILENT_KIND = traits({
    version: 'b158aa7 https://example.org/bridge/firmware.git',
    ...{ acknowledges: false, listenCommand: 'refused', modes: true },
  });

  test('is M1 and O for the kind that has them, where the person ticked it; the bus is only listened to', () => {
    const rig = played(onBus(SILENT_KIND, 500_000), 4000, {
      wanted: { listenOnly: true, trySilentMode: true },
    });
    expect(rig.last().found).toMatchObject({ bitRate: 500_000, listenOnly: 'unconfirmed' });
    const opening = rig.log.sent.indexOf('O\r');
    expect(rig.log.sent[opening - 1]).toBe('M1\r');
    expect(rig.log.sent).not.toContain('L\r');
    expect(firstSpeedMs(rig)).toBeLessThan(5000);
  });

  test('of that kind without the tick is refused: neither L nor M1 nor O is sent', () => {
    const rig = played(SILENT_KIND, 4000);
    expect(rig.last().problem?.code).toBe('wire.listen-only-refused');
    expect(rig.log.sent.filter((line) => /^[LMO]/.test(line))).toEqual([]);
  });

  test('of a kind whose L means something else is refused, and no letter of unknown meaning is sent', () => {
    const version = '+Board: general\tFirmware: 0x251118\tSlcan: 101';
    const rig = played(traits({ version, listenCommand: 'other meaning' }), 4000, {
      wanted: { listenOnly: true, trySilentMode: true },
    });
    expect(rig.last().problem?.code).toBe('wire.listen-only-refused');
    expect(rig.log.sent.filter((line) => /^[LFMAOZ]/.test(line))).toEqual([]);
  });

  test('of an unknown kind is told to be uncertain, once', () => {
    const rig = played(traits({ version: 'Version 3, free text' }), 4000);
    expect(rig.last().found?.listenOnly).toBe('unconfirmed');
    expect(rig.gaps()).toEqual(['wire.listen-only-unconfirmed']);
  });

  test('switched off opens normally, but only once the bit rate is certain', () => {
    const rig = played(onBus(USUAL, 125_000), 4000, { wanted: { listenOnly: false } });
    expect(rig.last().found).toMatchObject({ bitRate: 125_000, listenOnly: 'off' });
    const { sent } = rig.log;
    expect(sent.filter((line) => line === 'O\r')).toHaveLength(1);
    expect(sent[sent.indexOf('O\r') - 1]).toBe('S4\r');
    expect(sent.indexOf('O\r')).toBeGreaterThan(sent.lastIndexOf('L\r'));
  });

  test('switched off on a bridge without it asks for the bit rate, and takes a given one', () => {
    const kind = traits({ listenCommand: 'refused' });
    const asked = played(kind, 4000, { wanted: { listenOnly: false } });
    expect(asked.last().problem?.code).toBe('search.bit-rate-needed');
    expect(asked.log.sent).not.toContain('O\r');
    const given = played(kind, 4000, { wanted: { listenOnly: false, bitRate: 250_000 } });
    expect(given.last().found).toMatchObject({ bitRate: 250_000, listenOnly: 'off' });
  });
});

describe('a bus that is asleep', () => {
  test('is told, cycled over quietly, and found by itself when it wakes after 8 s', () => {
    const rig = played(onBus({ ...USUAL, busWakesMs: 8000 }, 500_000), 12_000);
    expect(rig.stages()).toEqual(['opening', 'bit rate', 'silent', 'found']);
    const silent = rig.reports.find(({ stage }) => stage === 'silent');
    expect(silent).toMatchObject({ problem: { code: 'search.bus-silent' }, found: { protocol: 'slcan' } });
    expect(firstSpeedMs(rig)).toBeGreaterThanOrEqual(8000);
    expect(firstSpeedMs(rig)).toBeLessThan(10_000);
    expect(rig.log.opened).toEqual([115_200]);
    expect(rig.log.sent).not.toContain('O\r');
  });

  test('at a given bit rate is waited for without opening again and again', () => {
    const rig = played({ ...USUAL, busWakesMs: 8000 }, 12_000, {
      wanted: { listenOnly: true, baudRate: 115_200, bitRate: 250_000 },
    });
    expect(rig.stages()).toEqual(['opening', 'bit rate', 'silent', 'found']);
    expect(rig.log.sent.filter((line) => line === 'L\r')).toHaveLength(1);
    expect(firstSpeedMs(rig)).toBeLessThan(8100);
  });

  test('at a bit rate that is not tried is told as errors', () => {
    const rig = played(traits({ busCode: null }), 4000);
    expect(rig.last()).toMatchObject({ stage: 'silent', problem: { code: 'search.bus-errors' } });
  });
});

describe('devices that print', () => {
  test.each([
    ['candump', 'candump'],
    ['json readings', 'reading-lines'],
  ] as const)('%s at any serial speed is taken as it is, and no channel is closed', (printing, protocol) => {
    for (const serialBaud of SERIAL_SPEEDS) {
      const rig = played({ ...USUAL, slcan: false, printing, serialBaud }, 8000);
      expect(rig.last().found).toEqual({
        ...{ baudRate: serialBaud, protocol, bitRate: null, version: null },
        listenOnly: 'notApplicable',
      });
      expect(rig.log.sent.filter((line) => /^[SLOMZ]/.test(line))).toEqual([]);
    }
  });

  test.each([1000, 1800, 2500])(
    'a board that starts afresh at each opening, silent for %d ms, is found',
    (resetMs) => {
      for (const serialBaud of [115_200, 9_600, 57_600, 250_000]) {
        const kind = { ...USUAL, slcan: false, serialBaud, resetMs, printing: 'json readings' as const };
        const rig = played({ ...kind, bootText: 'starting\r\n' }, 20_000);
        expect(rig.last().found).toMatchObject({ baudRate: serialBaud, protocol: 'reading-lines' });
      }
    },
  );

  test('a bridge that starts afresh and is silent until asked is found', () => {
    const rig = played({ ...USUAL, serialBaud: 115_200, resetMs: 2000 }, 20_000);
    expect(rig.last().found).toMatchObject({ protocol: 'slcan', bitRate: 250_000 });
  });

  test('plain text stays open for the raw monitor, with advice', () => {
    const rig = played({ ...USUAL, slcan: false, printing: 'plain text', serialBaud: 38_400 }, 20_000);
    expect(rig.last()).toMatchObject({
      stage: 'unintelligible',
      baudRate: 38_400,
      problem: { code: 'search.unintelligible' },
    });
    expect(rig.text()).toContain('hello from the bench');
    expect(rig.log.opened.at(-1)).toBe(38_400);
  });

  test('junk at every speed stays open at the last speed with bytes', () => {
    const rig = played({ ...USUAL, slcan: false, printing: 'junk' }, 60_000);
    expect(rig.last().stage).toBe('unintelligible');
    expect(rig.events.filter(({ kind }) => kind === 'bytes').length).toBeGreaterThan(100);
  });
});

describe('a device that says nothing', () => {
  test('stays open at 115,200 baud with advice, and is gone on with when its power comes', () => {
    const rig = played({ ...USUAL, powerMs: 60_000 }, 70_000);
    const nothing = rig.reports.find(({ stage }) => stage === 'nothing');
    expect(nothing).toMatchObject({ baudRate: 115_200, problem: { code: 'search.nothing' } });
    expect(rig.last().found).toMatchObject({ bitRate: 250_000 });
    expect(firstSpeedMs(rig)).toBeLessThan(64_000);
  });

  test('and then prints at another speed is searched for again', () => {
    const kind = { ...USUAL, slcan: false, serialBaud: 9_600, printing: 'json readings' as const };
    const rig = played({ ...kind, powerMs: 60_000 }, 80_000);
    expect(rig.last().found).toMatchObject({ baudRate: 9_600, protocol: 'reading-lines' });
  });

  test('behind a radio link is opened once and probed now and then', () => {
    const rig = played({ ...USUAL, powerMs: 20_000 }, 30_000, { speeds: null });
    expect(rig.stages().slice(0, 2)).toEqual(['opening', 'bit rate']);
    expect(rig.stages()).toContain('nothing');
    expect(rig.last().found).toMatchObject({ baudRate: null, bitRate: 250_000 });
    expect(rig.log.opened).toEqual([null]);
  });
});

describe('what was remembered', () => {
  const remembered: FoundBridge = {
    ...{ baudRate: 9_600, protocol: 'slcan', bitRate: 1_000_000, version: 'V1013' },
    listenOnly: 'confirmed',
  };

  test('and fails is followed by the whole search', () => {
    const rig = played({ ...USUAL, serialBaud: 921_600 }, 5000, { remembered });
    expect(rig.log.opened.slice(0, 2)).toEqual([9_600, 115_200]);
    expect(rig.last().found).toMatchObject({ baudRate: 921_600, bitRate: 250_000 });
    expect(firstSpeedMs(rig)).toBeLessThan(5000);
  });

  test('is what was found, when the same source is opened again', () => {
    const rig = shopRig({ ...USUAL, serialBaud: 9_600 });
    const first = rig.connect();
    rig.runTo(4000);
    first.unsubscribe();
    const opened = rig.log.opened.length;
    const second = rig.connect();
    rig.runTo(6000);
    second.unsubscribe();
    expect(rig.log.opened.slice(opened)).toEqual([9_600]);
  });
});

test('the simulated bridge is at rest when made', () =>
  expect(createShopBridge(USUAL)).toMatchObject({ timeMs: 0, queue: [], device: { channel: 'closed' } }));
