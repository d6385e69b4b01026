import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BIT_RATES, type FoundBridge } from '../../src/wire/found-bridge.ts';
import { ASK_ANSWER_MS, beginAsk, stepAsk, type AskFrame, type AskStep } from '../../src/wire/slcan-ask.ts';
import type { WireNote } from '../../src/wire/wire-decoder.ts';

// Commands: can-text-formats.md, Part 1. Request PGN 59904, data 3 bytes low byte first: j1939.md.
const ack: WireNote = { kind: 'ack' };
const bel: WireNote = { kind: 'refused' };
const REQUEST: AskFrame = { id: 0x18eafff9, data: [0xeb, 0xfe, 0x00] };
const LISTENING: FoundBridge = {
  ...{ baudRate: 115_200, protocol: 'slcan', bitRate: 250_000, version: 'V1013' },
  listenOnly: 'confirmed',
};
const NORMAL: FoundBridge = { ...LISTENING, listenOnly: 'off' };
const MODES: FoundBridge = { ...LISTENING, version: 'b158aa7 https://example.org/firmware.git' };
const text = (bytes: Uint8Array | null) => (bytes === null ? null : String.fromCharCode(...bytes));

const keyOf = (command: string) => (command.startsWith('T') ? 'T' : command.trim());

/** Plays a request; `answers` by command (the frame's by `T`); nothing there: silence. */
function play(
  found: FoundBridge | null,
  answers: Readonly<Record<string, WireNote>> = {},
  frames: readonly AskFrame[] = [REQUEST],
) {
  const sent: string[] = [];
  const times: number[] = [];
  let nowMs = 0;
  let step: AskStep = beginAsk(found, frames, nowMs);
  for (let turn = 0; turn < 100 && step.done === null; turn++) {
    const command = text(step.send);
    if (command !== null) {
      sent.push(command);
      times.push(nowMs);
    }
    const answer = command === null ? undefined : answers[keyOf(command)];
    if (answer) {
      nowMs += 5;
      step = stepAsk(step.state, { nowMs, notes: [answer] });
      if (step.send !== null || step.done) continue;
    }
    nowMs += step.waitMs;
    step = stepAsk(step.state, { nowMs, notes: [] });
  }
  if (step.send !== null) sent.push(text(step.send)!);
  return { sent, times, done: step.done };
}
const ALL = { C: ack, S5: ack, O: ack, T: ack, L: ack, M0: ack, M1: ack };

describe('a request through a bridge that listens only', () => {
  test('closes, sets the bit rate, opens normally, sends, and goes back to listening', () => {
    const { sent, done } = play(LISTENING, ALL);
    expect(sent).toEqual(['C\r', 'S5\r', 'O\r', 'T18EAFFF93EBFE00\r', 'C\r', 'L\r']);
    expect(done).toEqual({ ok: true, value: { sent: 1 } });
  });

  test('waits 1250 ms for the answers to each frame before the next (T3, J1939-21; j1939.md)', () => {
    const { sent, times } = play(LISTENING, ALL, [REQUEST, REQUEST, REQUEST]);
    const at = sent.flatMap((command, index) => (command.startsWith('T') ? [times[index]!] : []));
    expect(at).toHaveLength(3);
    expect([at[1]! - at[0]!, at[2]! - at[1]!, ASK_ANSWER_MS]).toEqual([1250, 1250, 1250]);
  });

  test('goes on with a bridge that never answers', () => {
    const { sent, done } = play(LISTENING);
    expect(sent).toEqual(['C\r', 'S5\r', 'O\r', 'T18EAFFF93EBFE00\r', 'C\r', 'L\r']);
    expect(done?.ok).toBe(true);
  });

  test.each(BIT_RATES)('opens at the bit rate that was found, %d bit/s', (bitRate) => {
    const code = { 125_000: 'S4', 250_000: 'S5', 500_000: 'S6', 1_000_000: 'S8' }[bitRate];
    expect(play({ ...LISTENING, bitRate }, ALL).sent[1]).toBe(`${code}\r`);
  });

  test.each([
    ['S5', 'wire.bit-rate-refused', ['C\r', 'S5\r', 'C\r', 'L\r']],
    ['O', 'wire.open-refused', ['C\r', 'S5\r', 'O\r', 'C\r', 'L\r']],
    ['T', 'search.ask-refused', ['C\r', 'S5\r', 'O\r', 'T18EAFFF93EBFE00\r', 'C\r', 'L\r']],
    ['L', 'wire.listen-only-refused', ['C\r', 'S5\r', 'O\r', 'T18EAFFF93EBFE00\r', 'C\r', 'L\r']],
  ])('of which %s is refused says so and goes back to listening all the same', (command, code, sent) => {
    const played = play(LISTENING, { ...ALL, [command]: bel });
    expect(played.sent).toEqual(sent);
    expect(played.done).toMatchObject({ ok: false, problem: { code } });
  });

  test('that was closed already (C refused) goes on', () => {
    expect(play(LISTENING, { ...ALL, C: bel }).done?.ok).toBe(true);
  });

  test('of the kind with modes takes silent mode off, and on again before it opens', () => {
    expect(play(MODES, ALL).sent).toEqual([
      ...['C\r', 'S5\r', 'M0\r', 'O\r', 'T18EAFFF93EBFE00\r', 'C\r', 'M1\r', 'O\r'],
    ]);
    const refused = play(MODES, { ...ALL, M1: bel });
    expect(refused.sent.at(-1)).toBe('M1\r');
    expect(refused.done).toMatchObject({ problem: { code: 'wire.listen-only-refused' } });
  });

  test('with nothing to send comes back at once', () => {
    expect(play(LISTENING, ALL, []).done).toEqual({ ok: true, value: { sent: 0 } });
  });
});

describe('a request through a bridge that is open normally', () => {
  test('just sends', () => {
    const { sent, done } = play(NORMAL, ALL, [REQUEST, REQUEST]);
    expect(sent).toEqual(['T18EAFFF93EBFE00\r', 'T18EAFFF93EBFE00\r']);
    expect(done).toEqual({ ok: true, value: { sent: 2 } });
  });

  test('that refuses the frame says so, and is left open', () => {
    const { sent, done } = play(NORMAL, { T: bel }, [REQUEST, REQUEST]);
    expect(sent).toEqual(['T18EAFFF93EBFE00\r']);
    expect(done).toMatchObject({ problem: { code: 'search.ask-refused' } });
  });
});

describe('a request that cannot be', () => {
  test.each<[string, FoundBridge | null, AskFrame]>([
    ['without a bridge', null, REQUEST],
    ['of a device that prints', { ...LISTENING, protocol: 'candump' }, REQUEST],
    ['of a device not understood', { ...LISTENING, protocol: null }, REQUEST],
    ['at a bit rate that is not known', { ...LISTENING, bitRate: null }, REQUEST],
    ['of more than 8 bytes', LISTENING, { id: 1, data: Array<number>(9).fill(0) }],
    ['of an identifier of 30 bits', LISTENING, { id: 0x20000000, data: [] }],
    ['of a byte that is none', LISTENING, { id: 1, data: [256] }],
    ['of half an identifier', LISTENING, { id: 1.5, data: [] }],
  ])('%s sends nothing', (_what, found, frame) => {
    const { sent, done } = play(found, ALL, [frame]);
    expect(sent).toEqual([]);
    expect(done).toMatchObject({ ok: false, problem: { code: 'search.ask-not-possible' } });
  });
});

const note = fc.constantFrom<WireNote | null>(
  ack,
  bel,
  null,
  { kind: 'reply', text: 'sa000000' },
  {
    ...{ kind: 'lost' },
    frames: null,
  },
);

test('whatever the bridge says, the request ends, sends each frame at most once, never a bare CR, and listens at the end', () => {
  const frames = Array.from({ length: 4 }, (_, at): AskFrame => ({ id: at + 1, data: [at] }));
  fc.assert(
    fc.property(
      fc.array(note, { minLength: 1, maxLength: 40 }),
      fc.constantFrom(LISTENING, NORMAL, MODES),
      (notes, found) => {
        const sent: string[] = [];
        let nowMs = 0;
        let step = beginAsk(found, frames, nowMs);
        let turns = 0;
        for (; step.done === null && turns < 200; turns++) {
          if (step.send !== null) sent.push(text(step.send)!);
          const heard = notes[turns % notes.length]!;
          if (heard !== null) {
            step = stepAsk(step.state, { nowMs: (nowMs += 3), notes: [heard] });
            if (step.send !== null || step.done) continue;
          }
          nowMs += step.waitMs;
          step = stepAsk(step.state, { nowMs, notes: [] });
        }
        if (step.send !== null) sent.push(text(step.send)!);
        expect(turns).toBeLessThan(200);
        const data = sent.filter((line) => line.startsWith('T'));
        expect(new Set(data).size).toBe(data.length);
        expect(sent).not.toContain('\r');
        expectPutBack(found, sent);
      },
    ),
    { numRuns: 500 },
  );
});

function expectPutBack(found: FoundBridge, sent: readonly string[]): void {
  if (found === LISTENING) expect(sent.at(-1)).toBe('L\r');
  if (found === NORMAL) expect(sent.every((line) => line.startsWith('T'))).toBe(true);
  if (found === MODES && sent.at(-1) === 'O\r') expect(sent.at(-2)).toBe('M1\r');
}
