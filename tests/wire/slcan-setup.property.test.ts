import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  beginSetup,
  continueSetup,
  openedProblem,
  WAITED_NOTES,
  type SlcanSettings,
} from '../../src/wire/slcan-setup.ts';
import { BIT_RATES } from '../../src/wire/found-bridge.ts';
import type { WireNote } from '../../src/wire/wire-decoder.ts';

// The rules: can-text-formats.md, Part 1, "Safe start" and Quirks (no ACK at all; `L` may mean something else).
/** `Sn`: 4 = 125k, 5 = 250k, 6 = 500k, 8 = 1M. can-text-formats.md, Part 1, "Commands". */
const CODES = { 125_000: 4, 250_000: 5, 500_000: 6, 1_000_000: 8 } as const;
const STAGES = 6; // flush, close, version, bit rate, stamps, open
const settings: fc.Arbitrary<SlcanSettings> = fc.record({
  bitRate: fc.constantFrom(...BIT_RATES),
  listenOnly: fc.boolean(),
  stamps: fc.boolean(),
});
const note: fc.Arbitrary<WireNote> = fc.oneof(
  fc.constantFrom<WireNote>(
    { kind: 'ack' },
    { kind: 'refused' },
    { kind: 'reply', text: 'V1013' },
    { kind: 'reply', text: 'V2.0 open firmware' },
    { kind: 'reply', text: 'vSTM32' },
    { kind: 'reply', text: 'N1234' },
    { kind: 'reply', text: 'sa000000' },
    { kind: 'lost', frames: null },
  ),
  fc.string().map((text): WireNote => ({ kind: 'reply', text })),
);
const input = fc.oneof(
  { weight: 3, arbitrary: note },
  { weight: 1, arbitrary: fc.constant('timeout' as const) },
);

/** Plays inputs over and over until the handshake is done. */
function play(asked: SlcanSettings, inputs: readonly (WireNote | 'timeout')[]) {
  const sent: string[] = [];
  let step = beginSetup(asked);
  let steps = 0;
  for (; step.done === null && steps < 1000; steps++) {
    if (step.send !== null) sent.push(step.send);
    expect(step.waitMs).toBeGreaterThanOrEqual(100);
    expect(step.waitMs).toBeLessThanOrEqual(300);
    step = continueSetup(step.state, inputs[steps % inputs.length]!);
  }
  return { sent, steps, done: step.done };
}
const inputs = fc.array(input, { minLength: 1, maxLength: 60 });

describe('whatever a bridge says or does not say', () => {
  test('the handshake ends within a bounded number of steps', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, said) => {
        const { steps, done } = play(asked, said);
        expect(done).not.toBeNull();
        expect(steps).toBeLessThanOrEqual(STAGES * WAITED_NOTES);
      }),
      { numRuns: 500 },
    );
  });

  test('O is never sent where listen-only was asked for, nor L where it was not', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, said) => {
        const { sent } = play(asked, said);
        expect(sent).not.toContain(asked.listenOnly ? 'O\r' : 'L\r');
      }),
      { numRuns: 500 },
    );
  });

  test('only what the safe start names is sent, each command once, in its order, and no frame', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, said) => {
        const { sent } = play(asked, said);
        const order = ['\r\r\r', 'C\r', 'V\r', `S${CODES[asked.bitRate]}\r`, 'Z1\r', 'L\r', 'O\r'];
        const places = sent.map((command) => order.indexOf(command));
        expect(places).not.toContain(-1);
        expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
      }),
    );
  });

  test('listen-only is confirmed only by V and four digits and an acknowledged L; all else is told', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, said) => {
        const { done } = play(asked, said);
        if (done === null || !done.ok) return;
        const { confirmed, version, stamps } = done.value;
        if (confirmed || stamps) expect(version).toMatch(/^V[0-9A-Fa-f]{4}$/);
        if (stamps) expect(asked.stamps).toBe(true);
        const code = openedProblem(done.value)?.code ?? null;
        expect(code).toBe(asked.listenOnly && !confirmed ? 'wire.listen-only-unconfirmed' : null);
      }),
      { numRuns: 500 },
    );
  });

  test('nothing changes the state it was given', () => {
    fc.assert(
      fc.property(settings, inputs, (asked, said) => {
        let step = beginSetup(asked);
        for (const one of said) {
          const before = structuredClone(step.state);
          const next = continueSetup(step.state, one);
          expect(step.state).toEqual(before);
          step = next;
        }
      }),
    );
  });
});
