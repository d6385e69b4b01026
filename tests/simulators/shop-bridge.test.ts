import { describe, expect, test } from 'vitest';
import {
  createShopBridge,
  hearShopHost,
  openShopBridge,
  stepShopBridge,
  type ShopBridge,
  type ShopBridgeKind,
} from '../../simulators/bridge/shop-bridge.ts';
import { ORIGINAL_TRAITS } from '../../simulators/bridge/slcan-device.ts';
import { USUAL } from '../adapters/fixtures/shop-rig.ts';

const bytesOf = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const traits = (changes: Partial<typeof ORIGINAL_TRAITS>): ShopBridgeKind => ({
  ...USUAL,
  traits: { ...ORIGINAL_TRAITS, ...changes },
});

/** Sends commands 10 ms apart at a speed and gives all that comes back, up to `untilMs`. */
function talk(kind: ShopBridgeKind, commands: readonly string[], untilMs = 200, baud: number | null = null) {
  let bridge: ShopBridge = openShopBridge(createShopBridge(kind), 0);
  let heard = '';
  const step = (timeMs: number) => {
    const stepped = stepShopBridge(bridge, timeMs, baud);
    bridge = stepped.bridge;
    heard += String.fromCharCode(...stepped.toHost);
  };
  commands.forEach((command, at) => {
    step(10 * at);
    bridge = hearShopHost(bridge, bytesOf(command), baud);
  });
  step(untilMs);
  return { heard, bridge };
}

// Quirks: can-text-formats.md, Part 1.
describe('a bridge of the shop', () => {
  test('of the usual kind answers, and gives engine speed at the bit rate of its bus only', () => {
    const { heard } = talk(USUAL, ['C\r', 'V\r', 'S5\r', 'L\r']);
    expect(heard).toMatch(/^\x07V1013\r\r\r(T0CF004008F0FF7DBA04FFFFFF\r)+$/);
    expect(talk(USUAL, ['S6\r', 'L\r']).heard).toBe('\r\r');
  });

  test('without acknowledgements says its version and frames alone', () => {
    const { heard } = talk(traits({ acknowledges: false }), ['C\r', 'V\r', 'S5\r', 'L\r']);
    expect(heard).toMatch(/^V1013\r(T0CF004008F0FF7DBA04FFFFFF\r)+$/);
  });

  test('without L refuses it; where L means something else it is taken and opens nothing', () => {
    expect(talk(traits({ listenCommand: 'refused' }), ['S5\r', 'L\r']).heard).toBe('\r\x07');
    const other = talk(traits({ listenCommand: 'other meaning' }), ['S5\r', 'L\r']);
    expect([other.heard, other.bridge.device.channel]).toEqual(['\r\r', 'closed']);
  });

  test('with modes listens only after M1 and O, and opens normally after M0 and O', () => {
    const kind = traits({ modes: true });
    expect(talk(kind, ['S5\r', 'M1\r', 'O\r']).bridge.device.channel).toBe('listen only');
    expect(talk(kind, ['S5\r', 'M0\r', 'O\r']).bridge.device.channel).toBe('normal');
    expect(talk(USUAL, ['S5\r', 'M1\r']).heard).toBe('\r\x07');
  });

  test('that repeats its last command sends a frame again on an empty line', () => {
    const frame = 'T18EAFFF93EBFE00\r';
    const { bridge } = talk(traits({ repeats: true }), ['S5\r', 'O\r', frame, '\r']);
    expect(bridge.device.transmitted).toHaveLength(2);
    expect(talk(USUAL, ['S5\r', 'O\r', frame, '\r']).bridge.device.transmitted).toHaveLength(1);
  });

  test('at another serial speed is sent junk and gives none of its words', () => {
    const kind = { ...USUAL, serialBaud: 57_600, printing: 'plain text' as const };
    const { heard, bridge } = talk(kind, ['C\r', 'S5\r', 'L\r'], 400, 115_200);
    expect(heard.length).toBeGreaterThan(0);
    expect(heard).not.toContain('hello');
    expect(bridge.device.channel).toBe('closed');
  });

  test('takes its time: 9600 baud is 960 bytes a second, and lines that do not fit are lost whole', () => {
    const { heard } = talk({ ...USUAL, serialBaud: 9_600 }, ['S5\r', 'L\r'], 2000, 9_600);
    expect(heard.length).toBeGreaterThan(1800);
    expect(heard.length).toBeLessThanOrEqual(1920);
    for (const line of heard.slice(2).split('\r').slice(0, -1))
      expect(line).toBe('T0CF004008F0FF7DBA04FFFFFF');
  });

  test('that starts afresh is silent, then says its boot text; the bus and its power have their time', () => {
    const board = {
      ...USUAL,
      slcan: false,
      resetMs: 100,
      bootText: 'boot\r\n',
      printing: 'csv readings' as const,
    };
    expect(talk(board, [], 99).heard).toBe('');
    expect(talk(board, [], 160).heard).toBe('boot\r\n151.25,150\r\n');
    expect(talk({ ...USUAL, busWakesMs: 150 }, ['S5\r', 'L\r'], 149).heard).toBe('\r\r');
    expect(talk({ ...USUAL, powerMs: 150 }, ['V\r'], 149).heard).toBe('');
  });

  test('tells its state by itself', () =>
    expect(talk({ ...USUAL, statusEveryMs: 40 }, [], 85).heard).toBe('sa000000\rsa000000\r'));
});
