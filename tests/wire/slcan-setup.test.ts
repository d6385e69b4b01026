import { describe, expect, test } from 'vitest';
import { beginSetup, closeCommands, continueSetup, type SlcanSettings } from '../../src/wire/slcan-setup.ts';
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
