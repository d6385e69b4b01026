import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BIT_RATES } from '../../src/wire/found-bridge.ts';
import { beginSearch, stepSearch, type SearchSettings } from '../../src/wire/search-bridge.ts';
import { ascii } from './decode-all.ts';

const settings: fc.Arbitrary<SearchSettings> = fc.record({
  baudRate: fc.constantFrom(null, 9_600, 115_200),
  patience: fc.constantFrom('known', 'quick', 'patient', 'stay'),
  canWrite: fc.boolean(),
  transmitted: fc.boolean(),
  remembered: fc.constantFrom(null, {
    ...{ baudRate: 9_600, protocol: 'slcan', bitRate: 500_000, version: 'V1013' },
    listenOnly: 'confirmed',
  } as const),
  wanted: fc.record({
    listenOnly: fc.boolean(),
    trySilentMode: fc.boolean(),
    bitRate: fc.constantFrom(null, ...BIT_RATES),
  }),
});
const said = fc.oneof(
  fc
    .constantFrom(
      ...['\r', '\x07', '\r\r\r', 'V1013\r', 'b158aa7 https://example.org/firmware.git\r', 'hello there\r\n'],
      ...[
        'T0CF004008F0FF7DBA04FFFFFF\r',
        'sa000000\r',
        'e1s\r',
        'F80\r',
        'F00\r',
        'z\r',
        'V2.0 open firmware\r',
      ],
      ...['+Board: general\tSlcan: 101\r', '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n'],
    )
    .map(ascii),
  fc.uint8Array({ maxLength: 40 }),
  fc.constant(null),
);
const inputs = fc.array(fc.record({ afterMs: fc.nat(400), bytes: said, disturbed: fc.boolean() }), {
  minLength: 1,
  maxLength: 200,
});

describe('whatever comes, and whenever', () => {
  test('the search never throws, and sends only commands that set a bridge up; never a frame', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, happened) => {
        let nowMs = 0;
        let step = beginSearch(asked, nowMs);
        const sent: string[] = [];
        for (const { afterMs, bytes, disturbed } of happened) {
          if (step.send !== null) sent.push(step.send);
          expect(step.waitMs).toBeGreaterThanOrEqual(0);
          if (step.done) break;
          nowMs += bytes === null ? Math.min(step.waitMs, 5000) : Math.min(afterMs, step.waitMs);
          step = stepSearch(step.state, bytes === null ? { nowMs } : { nowMs, bytes, disturbed });
        }
        for (const command of sent) expect(command).toMatch(/^(\r\r\r|[CVLOF]\r|S[4568]\r|Z1\r|M1\r)$/);
        if (!asked.canWrite) expect(sent).toEqual([]);
        if (asked.transmitted) expect(sent).not.toContain('\r\r\r');
      }),
      { numRuns: 1000 },
    );
  });

  test('O is sent only where the person allowed it, or right after M1 where they ticked that', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, happened) => {
        let nowMs = 0;
        let step = beginSearch(asked, nowMs);
        const sent: string[] = [];
        for (const { afterMs, bytes } of happened) {
          if (step.send !== null) sent.push(step.send);
          if (step.done) break;
          nowMs += bytes === null ? Math.min(step.waitMs, 5000) : Math.min(afterMs, step.waitMs);
          step = stepSearch(step.state, bytes === null ? { nowMs } : { nowMs, bytes });
        }
        sent.forEach((command, at) => {
          if (command === 'M1\r') expect(asked.wanted.trySilentMode).toBe(true);
          if (command !== 'O\r' || !asked.wanted.listenOnly) return;
          expect([asked.wanted.trySilentMode, sent[at - 1]]).toEqual([true, 'M1\r']);
        });
      }),
      { numRuns: 1000 },
    );
  });

  test('silence ends every opening that does not stay within 4 s, and none is waited for without end', () => {
    fc.assert(
      fc.property(settings, (asked) => {
        let nowMs = 0;
        let step = beginSearch(asked, nowMs);
        let turns = 0;
        for (; step.done === null && nowMs < 10_000; turns++) {
          nowMs += Math.max(1, step.waitMs);
          step = stepSearch(step.state, { nowMs });
        }
        expect(turns).toBeLessThan(200);
        if (asked.patience !== 'stay') expect(nowMs).toBeLessThan(asked.baudRate === null ? 5000 : 4000);
      }),
    );
  });
});
