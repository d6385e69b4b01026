import { describe, expect, test } from 'vitest';
import type { FoundBridge, SearchReport } from '../../src/wire/found-bridge.ts';
import {
  beginSearch,
  stepSearch,
  type SearchSettings,
  type SearchStep,
} from '../../src/wire/search-bridge.ts';
import { ascii } from './decode-all.ts';

// Commands and quirks: can-text-formats.md, Part 1.
const QUICK: SearchSettings = {
  ...{ baudRate: 115_200, patience: 'quick', canWrite: true, transmitted: false, remembered: null },
  wanted: { listenOnly: true },
};
const FRAME = 'T0CF004008F0FF7DBA04FFFFFF\r';

/** Plays one opening: what the device answers to each command, a few ms later; silence elsewhere. */
function play(
  settings: SearchSettings,
  answer: (command: string, nowMs: number) => string | null,
  limitMs = 10_000,
) {
  let nowMs = 0;
  let step: SearchStep = beginSearch(settings, nowMs);
  const sent: { command: string; atMs: number }[] = [];
  const reports: SearchReport[] = [];
  let kept = false;
  const note = () => {
    kept ||= step.kept;
    if (step.report) reports.push(step.report);
    if (step.send !== null) sent.push({ command: step.send, atMs: nowMs });
  };
  note();
  while (step.done === null && nowMs < limitMs) {
    const text = step.send === null ? null : answer(step.send.trim(), nowMs);
    if (text) {
      nowMs += 4;
      step = stepSearch(step.state, { nowMs, bytes: ascii(text) });
    } else {
      nowMs += Math.max(1, step.waitMs);
      step = stepSearch(step.state, { nowMs });
    }
    note();
  }
  return { sent, reports, kept, nowMs, done: step.done, commands: sent.map(({ command }) => command) };
}

/** A classic bridge on a bus of the given code. */
function classic(busCode: string) {
  let code = '';
  return (command: string): string | null => {
    if (command === '') return '\r\r\r';
    if (command === 'V') return 'V1013\r';
    if (command.startsWith('S')) code = command.slice(1);
    if (command === 'L') return code === busCode ? `\r${FRAME}${FRAME}` : '\r';
    if (command === 'F') return 'F80\r';
    return '\r';
  };
}

describe('an opening at the right speed', () => {
  test('of a classic bridge: flush, close, version, then bit rates in listen-only until frames come', () => {
    const { commands, done, kept, reports } = play(QUICK, classic('6'));
    expect(commands).toEqual([
      ...['\r\r\r', 'C\r', 'V\r', 'C\r', 'S5\r', 'Z1\r', 'L\r', 'F\r', 'C\r', 'S6\r', 'L\r'],
    ]);
    expect(done).toEqual({
      kind: 'found',
      found: {
        ...{ baudRate: 115_200, protocol: 'slcan', bitRate: 500_000, version: 'V1013' },
        listenOnly: 'confirmed',
      },
    });
    expect(kept).toBe(true);
    expect(reports.map(({ stage, bitRate }) => [stage, bitRate])).toEqual([
      ['bit rate', 250_000],
      ['bit rate', 500_000],
      ['found', 500_000],
    ]);
  });

  test('status flags with bus errors end a bit rate early; clean ones do not', () => {
    const errors = play(QUICK, classic('8'));
    const quiet = play(QUICK, (command) => (command === 'F' ? 'F00\r' : classic('8')(command)), 3000);
    const between = ({ sent }: ReturnType<typeof play>) => {
      const at = (command: string) => sent.find((one) => one.command === command)!.atMs;
      return at('S6\r') - at('S5\r');
    };
    expect(between(errors)).toBeLessThan(200);
    expect(between(quiet)).toBeGreaterThanOrEqual(300);
    expect(between(quiet)).toBeLessThan(450);
  });

  test.each(['sw096000\r', 'sb128000\r', 'e1f\r', 'e2sf\r'])(
    'a line of bus errors, %j, ends a bit rate at once',
    (line) => {
      const bridge = classic('8');
      const { sent } = play(QUICK, (command) => (command === 'L' ? `\r${line}` : bridge(command)), 2000);
      const at = (command: string) => sent.find((one) => one.command === command)!.atMs;
      expect(at('S6\r') - at('L\r')).toBeLessThan(30);
    },
  );

  test('a bit rate that the bridge does not take is passed over; if it takes none, that is told', () => {
    const bridge = classic('6');
    const some = play(QUICK, (command) => (command === 'S5' ? '\x07' : bridge(command)));
    expect(some.done).toMatchObject({ kind: 'found', found: { bitRate: 500_000 } });
    const none = play(QUICK, (command) => (command.startsWith('S') ? '\x07' : bridge(command)));
    expect(none.done).toMatchObject({ kind: 'refused', problem: { code: 'wire.bit-rate-refused' } });
    expect(none.commands).not.toContain('L\r');
  });

  test('a bridge that was left open is closed and let run out before a bit rate is tried', () => {
    const bridge = classic('6');
    const { done, commands } = play(QUICK, (command) => {
      const rest = command === '' || command === 'C' ? FRAME.repeat(3) : '';
      return rest + (bridge(command) ?? '');
    });
    expect(done).toMatchObject({ kind: 'found', found: { bitRate: 500_000 } });
    expect(commands.filter((command) => command === 'O\r')).toEqual([]);
  });

  test('a refusal of L that comes late is a refusal', () => {
    let step = beginSearch(QUICK, 0);
    let nowMs = 0;
    const bridge = classic('8');
    for (let turn = 0; step.send !== 'L\r' && turn < 50; turn++) {
      const text = step.send === null ? null : bridge(step.send.trim());
      nowMs += text ? 4 : step.waitMs;
      step = stepSearch(step.state, text ? { nowMs, bytes: ascii(text) } : { nowMs });
    }
    step = stepSearch(step.state, { nowMs: nowMs + 200 });
    expect(step.done).toBeNull();
    step = stepSearch(step.state, { nowMs: nowMs + 230, bytes: ascii('\x07') });
    expect(step.done).toMatchObject({ kind: 'refused', problem: { code: 'wire.listen-only-refused' } });
  });

  test('a bridge that goes on although it was closed is taken as it is, its bit rate unknown', () => {
    let nowMs = 0;
    let step = beginSearch(QUICK, nowMs);
    for (; step.done === null && nowMs < 3000; nowMs += 10)
      step = stepSearch(step.state, { nowMs, bytes: ascii(FRAME) });
    expect(step.done).toMatchObject({
      kind: 'found',
      found: { protocol: 'slcan', bitRate: null, listenOnly: 'unconfirmed' },
    });
  });

  test('where frames were sent before, no bare CR is sent', () => {
    const { commands } = play({ ...QUICK, transmitted: true }, classic('5'));
    expect(commands[0]).toBe('C\r');
    expect(commands).not.toContain('\r\r\r');
  });
});

describe('an opening at a wrong speed', () => {
  test('is given up within 200 ms when nothing comes', () => {
    const { nowMs, done, kept, commands } = play(QUICK, () => null);
    expect([done, kept]).toEqual([{ kind: 'silence' }, false]);
    expect(nowMs).toBeLessThanOrEqual(200);
    expect(commands).toEqual(['\r\r\r', 'C\r', 'V\r']);
  });

  test('is given up at once when junk comes, or the port tells of wrong stop bits', () => {
    let step = beginSearch(QUICK, 0);
    step = stepSearch(step.state, { nowMs: 2, bytes: Uint8Array.of(0, 128, 255, 254, 6, 24, 224, 152, 3) });
    expect(step.done).toEqual({ kind: 'junk' });
    step = beginSearch(QUICK, 0);
    for (let at = 1; at <= 3; at++) step = stepSearch(step.state, { nowMs: at, disturbed: true });
    expect(step.done).toEqual({ kind: 'junk' });
  });

  test('a few strange bytes are junk at the end of its time', () => {
    const { done } = play(QUICK, (command) => (command === 'V' ? '\x00' : null));
    expect(done).toEqual({ kind: 'junk' });
  });
});

describe('a patient opening', () => {
  const patient = { ...QUICK, patience: 'patient' as const };

  test('tries the bit rates without an answer once, listens out its time, probes again, and is silent', () => {
    const { commands, nowMs, done, kept } = play(patient, () => null);
    expect(commands.filter((command) => command === 'L\r')).toHaveLength(4);
    expect(commands.slice(-3)).toEqual(['\r\r\r', 'C\r', 'V\r']);
    expect(nowMs).toBeGreaterThanOrEqual(2700);
    expect(nowMs).toBeLessThan(3200);
    expect([done, kept]).toEqual([{ kind: 'silence' }, false]);
  });

  test('forgets the junk of a boot program when text comes after a pause', () => {
    const line = '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n';
    let step = beginSearch(patient, 0);
    step = stepSearch(step.state, { nowMs: 5, bytes: new Uint8Array(300).fill(0x80) });
    expect(step.done).toBeNull();
    step = stepSearch(step.state, { nowMs: 400, bytes: ascii(line + line) });
    expect(step.done).toMatchObject({ kind: 'found', found: { protocol: 'candump' } });
  });
});

describe('an opening of a device that is remembered', () => {
  const remembered: FoundBridge = {
    ...{ baudRate: 115_200, protocol: 'slcan', bitRate: 1_000_000, version: 'V1013' },
    listenOnly: 'confirmed',
  };
  const known: SearchSettings = { ...QUICK, patience: 'known', remembered };

  test('begins with the bit rate that worked, then tries the others', () => {
    expect(play(known, classic('8')).commands.filter((it) => /^S/.test(it))).toEqual(['S8\r']);
    expect(play(known, classic('6')).commands.filter((it) => /^S/.test(it))).toEqual([
      'S8\r',
      'S5\r',
      'S6\r',
    ]);
  });

  test('that answers nothing tries that bit rate alone, and is given up soon', () => {
    const { commands, nowMs, done } = play(known, () => null);
    expect(commands.filter((it) => /^S/.test(it))).toEqual(['S8\r']);
    expect([done, nowMs < 900]).toEqual([{ kind: 'silence' }, true]);
  });

  test('and prints lines is waited for until a board has started', () => {
    const prints = { ...known, remembered: { ...remembered, protocol: 'reading-lines' as const } };
    const { commands, nowMs } = play(prints, () => null);
    expect(nowMs).toBeGreaterThanOrEqual(2700);
    expect(commands.filter((it) => /^[SL]/.test(it))).toEqual([]);
  });
});

describe('a source that cannot be written to', () => {
  test('is listened to, and sent nothing', () => {
    let step = beginSearch({ ...QUICK, canWrite: false }, 0);
    expect(step.send).toBeNull();
    step = stepSearch(step.state, { nowMs: 10, bytes: ascii(FRAME + FRAME) });
    step = stepSearch(step.state, { nowMs: 3100 });
    expect(step).toMatchObject({
      send: null,
      done: { kind: 'found', found: { protocol: 'slcan', bitRate: null, listenOnly: 'notApplicable' } },
    });
  });
});

describe('an opening that stays', () => {
  const stay: SearchSettings = { ...QUICK, patience: 'stay' };

  test('is kept from the beginning, tells once that nothing comes, and probes again and again', () => {
    const { kept, reports, commands, done } = play(stay, () => null, 20_000);
    expect([kept, done]).toEqual([true, null]);
    expect(reports.filter(({ stage }) => stage === 'nothing')).toHaveLength(1);
    expect(reports.find(({ stage }) => stage === 'nothing')?.problem?.code).toBe('search.nothing');
    expect(commands.filter((it) => it === 'V\r').length).toBeGreaterThan(4);
    expect(commands).not.toContain('O\r');
  });

  test('goes on at once when something comes', () => {
    const bridge = classic('5');
    const { done, nowMs } = play(stay, (command, at) => (at < 9000 ? null : bridge(command)), 20_000);
    expect(done).toMatchObject({ kind: 'found' });
    expect(nowMs).toBeLessThan(14_500);
  });

  test('says nothing more once it is over', () => {
    const { done } = play(stay, classic('5'));
    expect(done?.kind).toBe('found');
    let step = beginSearch(QUICK, 0);
    for (let at = 1; at < 9 && !step.done; at++) step = stepSearch(step.state, { nowMs: 1000 * at });
    expect(stepSearch(step.state, { nowMs: 9999, bytes: ascii('\r') })).toMatchObject({
      ...{ send: null, report: null, done: null },
    });
  });
});
