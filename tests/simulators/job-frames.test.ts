import { describe, expect, test } from 'vitest';
import type { BenchCommand } from '../../simulators/bench-command.ts';
import { benchView, createBench, stepBench } from '../../simulators/bench.ts';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { restingEngine } from '../../simulators/engine/engine.ts';
import { restingSensing, stepSensing } from '../../simulators/engine/sensors.ts';
import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import { bytesOf, HANDSHAKE, readLines, textOf, word } from './bench-runs.ts';
import { key } from './defect-runs.ts';

/** When, and what is done then. */
const JOB: readonly (readonly [atMs: number, commands: readonly BenchCommand[]])[] = [
  [0, [key('on')]],
  [1000, [key('crank')]],
  [4000, [key('on')]],
  [
    11_000,
    [
      { kind: 'line', into: 'pump return' },
      { kind: 'raise rail', on: true },
    ],
  ],
  [
    16_000,
    [
      { kind: 'raise rail', on: false },
      { kind: 'pedal', at: 'load' },
    ],
  ],
  [24_000, [key('off'), { kind: 'pedal', at: 'idle' }]],
  [27_000, [{ kind: 'replace', part: 'high-pressure pump' }, { kind: 'prime' }]],
];

/** The job above with its time cut into pieces of these lengths, taken in turn. */
function play(cuts: readonly number[], seed = 1, id: 'leaking-pump' | 'sound-engine' = 'leaking-pump') {
  let state = createBench(SCENARIO_BY_ID[id], seed);
  let text = textOf(stepBench(state, { fromHost: bytesOf(HANDSHAKE) }, 0).toHost);
  state = stepBench(state, { fromHost: bytesOf(HANDSHAKE) }, 0).state;
  let turn = 0;
  for (const [place, [, commands]] of JOB.entries()) {
    const untilMs = JOB[place + 1]?.[0] ?? 28_000;
    let first = true;
    while (state.timeMs + state.pendingMs < untilMs - 1e-9) {
      const left = untilMs - state.timeMs - state.pendingMs;
      const step = stepBench(
        state,
        { fromHost: null, commands: first ? commands : [] },
        Math.min(left, cuts[turn++ % cuts.length]!),
      );
      ({ state } = step);
      text += textOf(step.toHost);
      first = false;
    }
  }
  return { state, text };
}

const run = play([20]);
const lines = readLines(run.text);
const at = (pgn: number, fromMs: number, toMs: number) =>
  lines.filter(
    (line) => line.pgn === pgn && line.address < 0x40 && line.timeMs > fromMs && line.timeMs < toMs,
  );

describe('what the frames of a running engine say (places and scales: j1939.md)', () => {
  test('rail pressure follows what is commanded: 42, 110 and 150 MPa', () => {
    for (const [fromMs, toMs, mPa] of [
      [8000, 11_000, 42],
      [13_500, 16_000, 110],
      [20_000, 24_000, 150],
    ] as const) {
      const rail = at(65243, fromMs, toMs).map(({ data }) => word(data, 2) / 256);
      expect(rail.length).toBeGreaterThan(3);
      for (const value of rail) expect(Math.abs(value - mPa)).toBeLessThan(0.06 * mPa);
      expect(at(64765, fromMs, toMs).every(({ data }) => word(data, 4) / 256 === mPa)).toBe(true);
    }
  });

  test('SPN 94 ends at 1000 kPa although the gauge shows more', () => {
    expect(at(65263, 8000, 11_000).every(({ data }) => data[0] === 250)).toBe(true);
  });

  test('torque (SPN 513, offset -125) is small at idle and large in a pull', () => {
    const torque = (fromMs: number, toMs: number) =>
      at(61444, fromMs, toMs).map(({ data }) => data[2]! - 125);
    expect(Math.max(...torque(8000, 11_000))).toBeLessThan(25);
    expect(Math.min(...torque(21_000, 24_000))).toBeGreaterThan(60);
  });

  test('filter drop (SPN 95), suction restriction (SPN 1382), hours (SPN 247) and fuel level (SPN 96) are there', () => {
    expect(at(65276, 20_000, 24_000).every(({ data }) => data[2]! * 2 > 5 && data[2]! * 2 < 40)).toBe(true);
    expect(at(65130, 20_000, 24_000).every(({ data }) => data[2]! * 2 > 5 && data[2]! * 2 < 20)).toBe(true);
    expect(at(65276, 0, 2000).every(({ data }) => data[1] === Math.round(62 / 0.4))).toBe(true);
    const hours = at(65253, 0, 30_000).map(({ data }) => (word(data, 0) + 65_536 * word(data, 2)) * 0.05);
    expect(hours.length).toBeGreaterThanOrEqual(2);
    for (const value of hours) expect(Math.abs(value - 9417)).toBeLessThan(0.1);
  });
});

describe('the same job again', () => {
  test.each([[[7, 1, 33.3, 0.4, 250, 2.1]], [[160]], [[500]]])(
    'time cut into %j gives the same bytes',
    (cuts) => {
      const cut = play(cuts);
      expect(cut.text).toBe(run.text);
      expect(benchView(cut.state)).toEqual(benchView(run.state));
    },
  );

  test('another seed gives other bytes', () => expect(play([500], 2).text).not.toBe(run.text));

  test('the new pump is in, primed, and its engine has no defect left', () => {
    expect(run.state.defects).toEqual([]);
    expect(benchView(run.state)).toMatchObject({ needsPriming: false, keyOn: false });
  });
});

describe('sensors', () => {
  test('the rail sensor has come 63 % of the way after 20 ms, the supply sensor after 100 ms (first order)', () => {
    const engine = restingEngine(SOUND_ENGINE);
    const pressed = {
      ...engine,
      fuel: { ...engine.fuel, railPa: 1e8, supply: { ...engine.fuel.supply, galleryPa: 1e6 } },
    };
    let sensing = restingSensing(SOUND_ENGINE);
    for (let step = 0; step < 20; step += 1) sensing = stepSensing(sensing, pressed, 0.001);
    expect(sensing.railPa / 1e8).toBeCloseTo(1 - Math.exp(-1), 1);
    for (let step = 0; step < 80; step += 1) sensing = stepSensing(sensing, pressed, 0.001);
    expect(sensing.supplyPa / 1e6).toBeCloseTo(1 - Math.exp(-1), 1);
  });
});
