import { Subject } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { ShopBridgeKind } from '../../simulators/bridge/shop-bridge.ts';
import { ORIGINAL_TRAITS } from '../../simulators/bridge/slcan-device.ts';
import type { Result } from '../../src/problems/result.ts';
import type { AskOutcome, BridgeAsk } from '../../src/wire/slcan-ask.ts';
import { shopRig, USUAL } from './fixtures/shop-rig.ts';

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
const frames = (sent: readonly string[]) => sent.filter((line) => /^[tTrR]/.test(line));

describe('a request through the bridge', () => {
  const FRAME = { id: 0x18eafff9, data: [0xec, 0xfe, 0x00] }; // PGN 59904 for 65260; j1939.md
  function asking(kind: ShopBridgeKind, means: Parameters<typeof shopRig>[1] = {}) {
    const ask$ = new Subject<BridgeAsk>();
    const rig = shopRig(kind, { ask$, ...means });
    const subscription = rig.connect();
    const results: Result<AskOutcome>[] = [];
    const ask = () => ask$.next({ frames: [FRAME, FRAME], done: (result) => results.push(result) });
    return { rig, subscription, results, ask };
  }

  test('closes, opens normally, sends spaced frames and goes back to listening', () => {
    const { rig, results, ask, subscription } = asking(USUAL);
    rig.runTo(1000);
    const before = rig.log.sent.length;
    ask();
    rig.runTo(6000);
    expect(rig.log.sent.slice(before)).toEqual([
      ...['C\r', 'S5\r', 'O\r', 'T18EAFFF93ECFE00\r', 'T18EAFFF93ECFE00\r', 'C\r', 'L\r'],
    ]);
    expect(results).toEqual([{ ok: true, value: { sent: 2 } }]);
    expect(rig.device()).toMatchObject({ channel: 'listen only', transmitted: { length: 2 } });
    subscription.unsubscribe();
  });

  test('while the search goes on is refused, and nothing is sent', () => {
    const { rig, results, ask, subscription } = asking({ ...USUAL, busWakesMs: 90_000 });
    rig.runTo(10);
    ask();
    rig.runTo(3000);
    ask();
    expect(results.map((result) => !result.ok && result.problem.code)).toEqual([
      'search.ask-not-possible',
      'search.ask-not-possible',
    ]);
    expect([frames(rig.log.sent), rig.log.sent.includes('O\r')]).toEqual([[], false]);
    subscription.unsubscribe();
  });

  test('that is cut off is told, and the channel is closed', () => {
    const { rig, results, ask, subscription } = asking(USUAL);
    rig.runTo(1000);
    ask();
    rig.runTo(1200);
    subscription.unsubscribe();
    expect(results).toMatchObject([{ ok: false, problem: { code: 'link.closed' } }]);
    expect(rig.device().channel).toBe('closed');
  });

  test('makes the next opening of the device send no bare CR: it might send the frame again', () => {
    const { rig, ask, subscription } = asking(traits({ repeats: true }));
    rig.runTo(1000);
    ask();
    rig.runTo(1300);
    subscription.unsubscribe();
    const { transmitted } = rig.device();
    const before = rig.log.sent.length;
    const again = rig.connect();
    rig.runTo(3000);
    again.unsubscribe();
    expect(rig.log.sent.slice(before)).not.toContain('\r\r\r');
    expect(rig.device().transmitted).toEqual(transmitted);
    expect(rig.last().stage).toBe('found');
  });

  test('nothing but a request ever sends a frame, whatever the bridge is like', () => {
    const kinds: readonly ShopBridgeKind[] = [
      USUAL,
      traits({ acknowledges: false, version: null }),
      traits({ listenCommand: 'refused' }),
      traits({ repeats: true, modes: true }),
      { ...USUAL, busWakesMs: 5000 },
      { ...USUAL, slcan: false, printing: 'junk' },
      { ...USUAL, resetMs: 1500, bootText: 'boot\r\n', serialBaud: 9_600 },
    ];
    for (const kind of kinds)
      for (const wanted of [
        { listenOnly: true },
        { listenOnly: false },
        { listenOnly: true, trySilentMode: true },
      ]) {
        const rig = played(kind, 9000, { wanted });
        expect(frames(rig.log.sent)).toEqual([]);
        expect(rig.device().transmitted).toEqual([]);
      }
  });
});
