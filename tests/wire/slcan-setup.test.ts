import { describe, expect, test } from 'vitest';
import {
  beginSetup,
  closeCommands,
  continueSetup,
  isClassicVersion,
  openedProblem,
  WAITED_NOTES,
  type SetupStep,
  type SlcanSettings,
} from '../../src/wire/slcan-setup.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { decodeText } from './decode-all.ts';
import type { WireNote } from '../../src/wire/wire-decoder.ts';

// Commands and quirks: can-text-formats.md, Part 1.
const ack: WireNote = { kind: 'ack' };
const bel: WireNote = { kind: 'refused' };
const reply = (text: string): WireNote => ({ kind: 'reply', text });
const SETTINGS: SlcanSettings = { bitRate: 250_000, listenOnly: true, stamps: true };

/** Plays the handshake: what the bridge answers to each command (nothing: it is silent). */
function play(settings: SlcanSettings, answers: Readonly<Record<string, readonly WireNote[]>>) {
  const sent: string[] = [];
  let step = beginSetup(settings);
  for (let turn = 0; turn < 50 && step.done === null; turn++) {
    const command = step.send;
    if (command !== null) sent.push(command);
    const heard = command === null ? [] : (answers[command.trim()] ?? []);
    for (const note of heard) if (step.done === null) step = continueSetup(step.state, note);
    const waiting = step.send === null || step.send === command;
    if (step.done === null && (heard.length === 0 || waiting)) step = continueSetup(step.state, 'timeout');
  }
  return { sent, done: step.done };
}
const CLASSIC = {
  '': [ack, ack, ack],
  C: [bel],
  V: [reply('V1013')],
  S5: [ack],
  S6: [ack],
  Z1: [ack],
  L: [ack],
  O: [ack],
};

describe('opening a bridge', () => {
  test('a classic one: flush, close, version, 250 kbit/s, stamps, listen only; one command a write', () => {
    const { sent, done } = play(SETTINGS, CLASSIC);
    expect(sent).toEqual(['\r\r\r', 'C\r', 'V\r', 'S5\r', 'Z1\r', 'L\r']);
    expect(done).toEqual({
      ok: true,
      value: { listenOnly: true, stamps: true, version: 'V1013', confirmed: true },
    });
  });

  test('stamps are not asked of a bridge whose version is free text, nor where they are not wanted', () => {
    const free = play(SETTINGS, { ...CLASSIC, V: [reply('V2.0 open firmware')] });
    expect(free.sent).not.toContain('Z1\r');
    expect(free.done).toMatchObject({ ok: true, value: { stamps: false, confirmed: false } });
    expect(play({ ...SETTINGS, stamps: false }, CLASSIC).sent).not.toContain('Z1\r');
  });

  test('a bridge that never answers is carried on with after each wait of 100 to 300 ms', () => {
    const { sent, done } = play(SETTINGS, {});
    expect(sent).toEqual(['\r\r\r', 'C\r', 'V\r', 'S5\r', 'L\r']);
    expect(done).toEqual({
      ok: true,
      value: { listenOnly: true, stamps: false, version: null, confirmed: false },
    });
    let step = beginSetup(SETTINGS);
    while (step.done === null) {
      expect(step.waitMs).toBeGreaterThanOrEqual(100);
      expect(step.waitMs).toBeLessThanOrEqual(300);
      step = continueSetup(step.state, 'timeout');
    }
  });

  test('a refused L is a problem, and O is never sent in its place', () => {
    const { sent, done } = play(SETTINGS, { ...CLASSIC, L: [bel] });
    expect(sent).not.toContain('O\r');
    expect(done).toMatchObject({
      ok: false,
      problem: { code: 'wire.listen-only-refused', context: { version: 'V1013' } },
    });
  });

  test('O is sent where the person chose it, and its refusal is a problem', () => {
    const chosen = { ...SETTINGS, listenOnly: false };
    expect(play(chosen, CLASSIC).sent.at(-1)).toBe('O\r');
    expect(play(chosen, CLASSIC).done).toMatchObject({ ok: true, value: { listenOnly: false } });
    expect(play(chosen, { ...CLASSIC, O: [bel] }).done).toMatchObject({
      problem: { code: 'wire.open-refused' },
    });
  });

  test('500 kbit/s is S6; a refused bit rate and refused stamps are told', () => {
    expect(play({ ...SETTINGS, bitRate: 500_000 }, CLASSIC).sent).toContain('S6\r');
    expect(play(SETTINGS, { ...CLASSIC, S5: [bel] }).done).toMatchObject({
      problem: { code: 'wire.bit-rate-refused' },
    });
    expect(play(SETTINGS, { ...CLASSIC, Z1: [bel] }).done).toMatchObject({
      ok: true,
      value: { stamps: false },
    });
  });

  // Sn: can-text-formats.md, Part 1, "Commands".
  test.each([
    [125_000, 'S4'],
    [250_000, 'S5'],
    [500_000, 'S6'],
    [1_000_000, 'S8'],
  ] as const)('%d bit/s is %s', (bitRate, command) => {
    expect(play({ ...SETTINGS, bitRate }, { ...CLASSIC, [command]: [ack] }).sent[3]).toBe(`${command}\r`);
  });

  test('status lines and late acknowledgements before the version are waited over', () => {
    const { done } = play(SETTINGS, { ...CLASSIC, V: [ack, reply('sa000000'), reply('V1013')] });
    expect(done).toMatchObject({ ok: true, value: { version: 'V1013' } });
  });

  test('a bridge is closed by C, and nothing is sent after the handshake', () => {
    expect(closeCommands()).toEqual(['C\r']);
    let step = beginSetup(SETTINGS);
    while (step.done === null) step = continueSetup(step.state, 'timeout');
    expect(continueSetup(step.state, ack)).toMatchObject({ send: null, done: null });
  });
});

/** Steps through inputs from the beginning. */
const after = (settings: SlcanSettings, ...inputs: readonly (WireNote | 'timeout')[]): SetupStep =>
  inputs.reduce((step, input) => continueSetup(step.state, input), beginSetup(settings));
const TO_CLOSE = ['timeout'] as const;
const TO_VERSION = [...TO_CLOSE, ack] as const;
const TO_BIT_RATE = [...TO_VERSION, reply('V1013')] as const;
const TO_STAMPS = [...TO_BIT_RATE, ack] as const;
const TO_OPEN = [...TO_STAMPS, ack] as const;

describe('each stage and each answer', () => {
  test.each<
    readonly [
      stage: string,
      before: readonly (WireNote | 'timeout')[],
      input: WireNote | 'timeout',
      sent: string | null,
    ]
  >([
    ['flush: an old acknowledgement', [], ack, null],
    ['flush: an old refusal', [], bel, null],
    ['flush: an old reply', [], reply('V1013'), null],
    ['flush: silence', [], 'timeout', 'C\r'],
    ['close: acknowledged', TO_CLOSE, ack, 'V\r'],
    ['close: refused, it was not open', TO_CLOSE, bel, 'V\r'],
    ['close: never answered', TO_CLOSE, 'timeout', 'V\r'],
    ['close: a status line', TO_CLOSE, reply('sa000000'), null],
    ['close: a loss', TO_CLOSE, { kind: 'lost', frames: null }, null],
    ['version: the classic kind', TO_VERSION, reply('V1013'), 'S5\r'],
    ['version: free text', TO_VERSION, reply('V2.0 open firmware'), 'S5\r'],
    ['version: in small letters', TO_VERSION, reply('vSTM32'), 'S5\r'],
    ['version: refused', TO_VERSION, bel, 'S5\r'],
    ['version: never answered', TO_VERSION, 'timeout', 'S5\r'],
    ['version: a late acknowledgement', TO_VERSION, ack, null],
    ['version: a serial number is no version', TO_VERSION, reply('N1234'), null],
    ['version: a loss', TO_VERSION, { kind: 'lost', frames: null }, null],
    ['bit rate: acknowledged', TO_BIT_RATE, ack, 'Z1\r'],
    ['bit rate: never answered', TO_BIT_RATE, 'timeout', 'Z1\r'],
    ['bit rate: refused', TO_BIT_RATE, bel, null],
    ['bit rate: a reply', TO_BIT_RATE, reply('N1234'), null],
    ['stamps: acknowledged', TO_STAMPS, ack, 'L\r'],
    ['stamps: refused', TO_STAMPS, bel, 'L\r'],
    ['stamps: never answered', TO_STAMPS, 'timeout', 'L\r'],
    ['stamps: a reply', TO_STAMPS, reply('F00'), null],
    ['open: acknowledged', TO_OPEN, ack, null],
    ['open: refused', TO_OPEN, bel, null],
    ['open: never answered', TO_OPEN, 'timeout', null],
    ['open: a reply', TO_OPEN, reply('F00'), null],
  ])('%s', (stage, before, input, sent) => {
    const step = after(SETTINGS, ...before, input);
    expect(step.send).toBe(sent);
    const ends = stage.startsWith('open: ')
      ? input === 'timeout' || input.kind !== 'reply'
      : stage === 'bit rate: refused';
    expect(step.done !== null).toBe(ends);
  });

  test.each([
    ['classic and acknowledged', 'V1013', ack, true],
    ['classic with letters and acknowledged', 'Va0F9', ack, true],
    ['classic and silent', 'V1013', 'timeout', false],
    ['free text and acknowledged', 'V2.0 open firmware', ack, false],
    ['free text and silent', 'V2.0 open firmware', 'timeout', false],
    ['small v and acknowledged', 'v1013', ack, false],
  ] as const)('%s: confirmed, or told with the version text', (_what, version, answer, confirmed) => {
    const { done } = after({ ...SETTINGS, stamps: false }, ...TO_VERSION, reply(version), ack, answer);
    expect(done).toEqual({ ok: true, value: { listenOnly: true, stamps: false, version, confirmed } });
    const told = done?.ok ? openedProblem(done.value) : null;
    expect(told && [told.code, told.context]).toEqual(
      confirmed ? null : ['wire.listen-only-unconfirmed', { version }],
    );
  });

  test('a bridge opened normally, as was asked, is nothing to tell of', () => {
    const opened = { listenOnly: false, stamps: false, version: null, confirmed: false };
    expect(openedProblem(opened)).toBeNull();
    expect(openedProblem({ ...opened, listenOnly: true })).toMatchObject({ context: { version: 'none' } });
  });

  test.each([
    ['V1013', true],
    ['Vabcd', true],
    ['v1013', false],
    ['V101', false],
    ['V10133', false],
    ['V1.01', false],
    ['V101G', false],
    ['', false],
    [null, false],
  ])('version text %j is of the classic kind: %s', (version, classic) => {
    expect(isClassicVersion(version)).toBe(classic);
  });

  test.each([
    ['S5', 'wire.bit-rate-refused', 250_000],
    ['S6', 'wire.bit-rate-refused', 500_000],
    ['L', 'wire.listen-only-refused', 250_000],
  ] as const)(
    'a refused %s ends with %s, which names the version and the bit rate',
    (command, code, bitRate) => {
      const { done, sent } = play({ ...SETTINGS, bitRate }, { ...CLASSIC, [command]: [bel] });
      expect(done).toMatchObject({ ok: false, problem: { code, context: { version: 'V1013', bitRate } } });
      expect(sent.at(-1)).toBe(`${command}\r`);
    },
  );

  test('a refusal by a bridge without a version says so', () => {
    expect(play(SETTINGS, { L: [bel] }).done).toMatchObject({ problem: { context: { version: 'none' } } });
  });

  test.each([
    ['flush', [], 'C\r'],
    ['close', TO_CLOSE, 'V\r'],
    ['version', TO_VERSION, 'S5\r'],
    ['bit rate', TO_BIT_RATE, 'Z1\r'],
    ['stamps', TO_STAMPS, 'L\r'],
  ] as const)(
    'a bridge that talks without end holds the stage %s up for 16 notes at most',
    (_stage, before, next) => {
      const chatter = Array.from({ length: WAITED_NOTES - 1 }, () => reply('sa000000'));
      expect(after(SETTINGS, ...before, ...chatter).send).toBeNull();
      expect(after(SETTINGS, ...before, ...chatter, reply('sa000000')).send).toBe(next);
    },
  );

  test('an answer after many status lines is still an answer', () => {
    const chatter = Array.from({ length: WAITED_NOTES - 1 }, () => reply('sa000000'));
    expect(after(SETTINGS, ...TO_OPEN, ...chatter, ack).done).toMatchObject({ value: { confirmed: true } });
  });

  test('answers glued to frames are found by the decoder, and set the bridge up', () => {
    const frame = 'T18FEF7008FFFFFFFFF200FFFF\r';
    const { notes, frames } = decodeText(slcanDecoder, `${frame}\r${frame}V1013\r${frame}\r\r${frame}\r`);
    expect(frames).toHaveLength(4);
    expect(after(SETTINGS, 'timeout', ...notes).done).toEqual({
      ok: true,
      value: { listenOnly: true, stamps: true, version: 'V1013', confirmed: true },
    });
  });

  test('each stage waits over its own notes', () => {
    const chatter = Array.from({ length: WAITED_NOTES - 1 }, () => reply('sa000000'));
    expect(after(SETTINGS, ...TO_CLOSE, ...chatter, ack, reply('sa000000')).send).toBeNull();
  });

  test('stamps that were asked for and never answered are not taken for granted', () => {
    expect(after(SETTINGS, ...TO_STAMPS, 'timeout', ack).done).toMatchObject({ value: { stamps: false } });
  });
});
