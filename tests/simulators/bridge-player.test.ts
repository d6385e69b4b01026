import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  commanded,
  createPlayer,
  playedMs,
  stepPlayer,
  withoutHost,
  withOverrun,
  type BenchPlayer,
} from '../../simulators/bridge/bench-player.ts';
import { parseScript, type BenchAct } from '../../simulators/bridge/bench-script.ts';
import { candumpLines } from '../../simulators/bridge/candump-lines.ts';
import { benchView } from '../../simulators/bench.ts';
import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import { bytesOf, textOf } from './bench-runs.ts';

const script = (text: string): readonly BenchAct[] => {
  const read = parseScript(text);
  if ('mistake' in read) throw new TypeError(read.mistake);
  return read;
};
const playerOf = (keys: string, more = {}): BenchPlayer =>
  createPlayer({
    scenario: SCENARIO_BY_ID.healthy,
    seed: 1,
    script: script(keys),
    repeats: false,
    busCode: '5',
    ...more,
  });
const opened = (keys: string, more = {}): BenchPlayer => commanded(playerOf(keys, more), 'Z1\rS5\rL\r');

function play(from: BenchPlayer, cuts: readonly number[]): { player: BenchPlayer; text: string } {
  let player = from;
  let text = '';
  for (const ms of cuts) {
    const step = stepPlayer(player, null, ms);
    player = step.player;
    text += step.toHost.map(textOf).join('');
  }
  return { player, text };
}

describe('a bench on which a script is carried out', () => {
  const KEYS = 'on@0 crank@0.4 on@1.2 off@1.3';

  test('gives the same bytes however time is cut, with line noise too', () => {
    const noise = { corruptPerByte: 0.003, dropPerByte: 0.003 };
    for (const scenario of [SCENARIO_BY_ID.healthy, { ...SCENARIO_BY_ID.healthy, noise }]) {
      const whole = play(opened(KEYS, { scenario }), [2000]);
      expect(whole.text.length).toBeGreaterThan(3000);
      fc.assert(
        fc.property(fc.array(fc.double({ min: 0, max: 900, noNaN: true }), { maxLength: 6 }), (cuts) => {
          const sum = cuts.reduce((a, b) => a + b, 0);
          if (sum > 2000) return;
          const parts = play(opened(KEYS, { scenario }), [...cuts, 2000 - sum]);
          expect(parts.text).toBe(whole.text);
        }),
        { numRuns: 10 },
      );
    }
  });

  test('does each act at its instant', () => {
    const at = (ms: number) => benchView(play(playerOf(KEYS), [ms]).player.bench);
    expect(at(100)).toMatchObject({ keyOn: true, starterOn: false });
    expect(at(398)).toMatchObject({ starterOn: false });
    expect(at(402)).toMatchObject({ starterOn: true });
    expect(at(1250)).toMatchObject({ keyOn: true, starterOn: false });
    expect(at(1310)).toMatchObject({ keyOn: false });
  });

  test('takes the pedal, the lines and replaced parts from the script as well', () => {
    const { player } = play(playerOf('load@0 line-pump-return@0 replace-battery@0.1'), [200]);
    expect(benchView(player.bench)).toMatchObject({ pedal: 'load', rig: { intoVessel: 'pump return' } });
    const weak = { scenario: SCENARIO_BY_ID['weak-battery'] };
    const kinds = ({ bench }: BenchPlayer) => bench.defects.map(({ kind }) => kind);
    expect(kinds(play(playerOf('on@0', weak), [100]).player)).toContain('weak battery');
    expect(kinds(play(playerOf('replace-battery@0', weak), [100]).player)).not.toContain('weak battery');
  });

  test('is over after the last act, or begins again 4 s after it', () => {
    const once = play(opened('on@0 off@1'), [12_000]).player;
    expect(benchView(once.bench).keyOn).toBe(false);
    const keyAt = (ms: number) =>
      benchView(play(opened('on@0 off@1', { repeats: true }), [ms]).player.bench).keyOn;
    expect([500, 1500, 5500, 6500, 10_500].map(keyAt)).toEqual([true, false, true, false, true]);
  });

  test('says nothing until it is opened, and answers without time going on', () => {
    expect(play(playerOf('on@0'), [3000]).text).toBe('');
    const step = stepPlayer(playerOf('on@0'), bytesOf('V\rQ\rS5\rL\r'), 0);
    expect(step.toHost.map(textOf).join('')).toBe('V1013\r\x07\r\r');
    expect(playedMs(step.player)).toBe(0);
    expect(play(step.player, [1000]).text).toMatch(/^(T[0-9A-F]{25}\r){100,}$/);
  });

  test('hears the bus only at the bit rate that the bus has', () => {
    const fast = { busCode: '6' };
    expect(play(commanded(playerOf('on@0', fast), 'S5\rL\r'), [500]).text).toBe('');
    expect(play(commanded(playerOf('on@0', fast), 'S6\rL\r'), [500]).text.length).toBeGreaterThan(1000);
  });

  test('keeps nothing of what a host sends to the bus: a talkative one does not make it grow', () => {
    const talk = bytesOf('T18EAFFF93ECFE00\r'.repeat(500));
    const step = stepPlayer(commanded(playerOf('on@0'), 'S5\rO\r'), talk, 10);
    expect(textOf(step.toHost[0]!)).toBe('Z\r'.repeat(500));
    expect(step.player.bench.device.transmitted).toEqual([]);
  });

  test('shuts the channel when the host goes away, and keeps the settings', () => {
    const left = withoutHost(stepPlayer(opened('on@0'), bytesOf('V'), 100).player);
    expect(play(left, [500]).text).toBe('');
    const back = stepPlayer(left, bytesOf('L\r'), 500);
    expect(textOf(back.toHost[0]!)).toBe('\r'); // the half V of before is forgotten, the bit rate is not
    expect(back.toHost.map(textOf).join('')).toMatch(/T[0-9A-F]{29}\r/); // with stamps, as set before
  });

  test('tells by F that frames were lost: bit 0, receive queue full (can-text-formats.md), once', () => {
    const lost = withOverrun(opened('on@0'));
    const first = stepPlayer(lost, bytesOf('F\rF\r'), 0);
    expect(first.toHost.map(textOf).join('')).toBe('F01\rF00\r');
    const both = withOverrun(play(commanded(playerOf('on@0'), 'S6\rL\r'), [100]).player);
    expect(stepPlayer(both, bytesOf('F\r'), 0).toHost.map(textOf).join('')).toBe('F81\r'); // with bit 7, bus error
  });
});

describe('candump text of what the bridge sent', () => {
  test('has a zero-based time with six decimals, the interface and the frame (can-text-formats.md, Part 2)', () => {
    const sent = bytesOf('\r\x07T0CF004008FFFF7D0000FFF0FF000A\rF00\rT18FEF7008FFFFFFFFF200FFFF0014\r');
    expect(candumpLines(sent, 22)).toBe(
      '(0000000000.010000) can0 0CF00400#FFFF7D0000FFF0FF\n(0000000000.020000) can0 18FEF700#FFFFFFFFF200FFFF\n',
    );
  });

  test('takes the minute from the end of the stretch, also across a turn of the stamp', () => {
    const sent = bytesOf('T0CF00400101EA5A\rT0CF00400101000A\r'); // 59,994 and 10 ms
    expect(candumpLines(sent, 120_050)).toBe(
      '(0000000119.994000) can0 0CF00400#01\n(0000000120.010000) can0 0CF00400#01\n',
    );
  });

  test('of a run of more than a minute never steps back, and loses no frame', () => {
    let player = opened('on@0');
    let [text, frames] = ['', 0];
    for (let turn = 0; turn < 70; turn++) {
      const step = stepPlayer(player, null, 1000);
      player = step.player;
      for (const bytes of step.toHost) {
        text += candumpLines(bytes, playedMs(player));
        frames += textOf(bytes).split('\r').length - 1;
      }
    }
    const times = text
      .trimEnd()
      .split('\n')
      .map((line) => parseFloat(line.slice(1)));
    expect(times).toHaveLength(frames);
    expect(times.every((time, row) => row === 0 || time >= times[row - 1]!)).toBe(true);
    expect(times.at(-1)).toBe(70);
  });
});
