import { describe, expect, test } from 'vitest';
import { benchView, createBench, stepBench } from '../../simulators/bench.ts';
import { SCENARIO_BY_ID, SCENARIOS } from '../../simulators/scenarios.ts';
import {
  bytesOf,
  HANDSHAKE_REPLY,
  playBench,
  playScenario,
  readLines,
  speedsOf,
  textOf,
  TWO_CRANKS,
  word,
  type Act,
} from './bench-runs.ts';

const healthy = SCENARIO_BY_ID.healthy;
const run = playScenario('healthy');
const lines = readLines(run.text);
const from = (pgn: number, address = 0) =>
  lines.filter((line) => line.pgn === pgn && line.address === address);
const SHORT: readonly Act[] = [
  { untilMs: 500, keyOn: true, starterOn: false },
  { untilMs: 2500, keyOn: true, starterOn: true },
  { untilMs: 4000, keyOn: true, starterOn: false },
];
const NOISY = { ...healthy, noise: { corruptPerByte: 0.002, dropPerByte: 0.002 } };

describe('what comes out of the bridge', () => {
  test('is the answers to the handshake and whole frame lines with stamps, nothing else', () => {
    expect(run.text.startsWith(HANDSHAKE_REPLY)).toBe(true);
    const rest = run.text.slice(HANDSHAKE_REPLY.length);
    expect(rest.endsWith('\r')).toBe(true);
    expect(readLines(rest)).toHaveLength(rest.split('\r').length - 1);
  });

  test('is nothing before the host opens it, and nothing after it closes it', () => {
    const keyed = { keyOn: true, starterOn: false, fromHost: null };
    const shut = stepBench(createBench(healthy, 1), keyed, 3000);
    expect(shut.toHost).toHaveLength(0);
    const open = stepBench(shut.state, { ...keyed, fromHost: bytesOf('S5\rL\r') }, 1000);
    expect(open.toHost.length).toBeGreaterThan(1000);
    const closed = stepBench(open.state, { ...keyed, fromHost: bytesOf('C\r') }, 1000);
    expect(textOf(closed.toHost)).toBe('\r');
  });

  test('carries no stamp unless asked for', () => {
    const plain = playBench(healthy, SHORT, { handshake: 'S5\rL\r' }).text;
    expect(plain).toMatch(/\rT0CF004008[0-9A-F]{16}\r/);
    expect(readLines(plain)).toHaveLength(0);
  });

  test('stamps count milliseconds modulo 60000 (can-text-formats.md)', () => {
    const acts = [{ untilMs: 130_000, keyOn: true, starterOn: false }];
    const long = readLines(playBench(healthy, acts, { cuts: [500] }).text);
    expect(Math.max(...long.map(({ stampMs }) => stampMs))).toBeLessThanOrEqual(59_999);
    expect(long.at(-1)!.timeMs).toBeGreaterThan(129_900);
    const speeds = speedsOf(long);
    expect(speeds.every(({ timeMs }, i) => i === 0 || timeMs - speeds[i - 1]!.timeMs === 10)).toBe(true);
  });

  test.each([
    [61444, 0x00, 10, 3], // EEC1, every 10 ms as truck A
    [65243, 0x00, 500, 6],
    [64765, 0x00, 100, 6],
    [65263, 0x00, 500, 6],
    [65271, 0x00, 1000, 6],
    [65271, 0x31, 1000, 6], // a second address sends the same group, as in the recordings
    [65262, 0x00, 1000, 6],
    [65226, 0x00, 1000, 6],
    [61441, 0x0b, 100, 6],
  ])(
    'PGN %d of address %d comes every %d ms with priority %d (j1939.md)',
    (pgn, address, everyMs, priority) => {
      const found = from(pgn, address);
      expect(found.length).toBeGreaterThan(40_000 / everyMs);
      expect(found.every((line, i) => i === 0 || line.timeMs - found[i - 1]!.timeMs === everyMs)).toBe(true);
      expect(found.every((line) => line.priority === priority)).toBe(true);
    },
  );

  test('EEC1 comes every 20 ms where the scenario says so (truck B)', () => {
    const speeds = speedsOf(readLines(playBench(SCENARIO_BY_ID.worn, SHORT).text));
    expect(speeds.every(({ timeMs }, i) => i === 0 || timeMs - speeds[i - 1]!.timeMs === 20)).toBe(true);
  });

  test('falls silent some time after the key is off and the engine stands', () => {
    const acts = [...SHORT, { untilMs: 9000, keyOn: false, starterOn: false }];
    expect(readLines(playBench(healthy, acts).text).at(-1)!.timeMs).toBeLessThanOrEqual(6010);
  });

  test('is nothing at all while the key was never on', () => {
    const acts = [{ untilMs: 3000, keyOn: false, starterOn: true }];
    expect(playBench(healthy, acts).text).toBe(HANDSHAKE_REPLY);
  });
});

describe('what the frames say in a healthy run', () => {
  const cranking = (line: { timeMs: number }) => line.timeMs > 5000 && line.timeMs < 18_000;

  test('speed is 0 at first and again after each crank, and 160 to 200 rpm in between', () => {
    const speeds = speedsOf(lines);
    expect(speeds.filter(({ timeMs }) => timeMs < 3300).every(({ rpm }) => rpm === 0)).toBe(true);
    expect(speeds.filter(cranking).every(({ rpm }) => rpm > 160 && rpm < 200)).toBe(true);
    expect(
      speeds.filter(({ timeMs }) => timeMs > 20_000 && timeMs < 23_000).every(({ rpm }) => rpm === 0),
    ).toBe(true);
  });

  test('starter mode (bits 1 to 4 of byte 7) stays 0 although the starter turns (truck A)', () => {
    expect(from(61444).every(({ data }) => (data[6]! & 15) === 0)).toBe(true);
  });

  test('rail pressure (SPN 157, 1/256 MPa) stands at 80 to 83 MPa and commanded pressure (SPN 5313) at 42 (truck A: up to 41.957)', () => {
    const rail = from(65243).filter(cranking);
    expect(rail.length).toBeGreaterThan(20);
    for (const { data } of rail) {
      expect(word(data, 2) / 256).toBeGreaterThan(80);
      expect(word(data, 2) / 256).toBeLessThan(83);
      expect(word(data, 0)).toBe(0xffff); // SPN 164 is not available, as in the recordings
    }
    expect(
      from(64765)
        .filter(cranking)
        .every(({ data }) => word(data, 4) === 42 * 256),
    ).toBe(true);
    expect(from(64765)[0]!.data[5]).toBe(0);
  });

  test('battery voltage (SPN 168, 0.05 V) dips to 10.5 to 11 V and differs between the two addresses', () => {
    const engine = from(65271)
      .filter(cranking)
      .map(({ data }) => word(data, 4) * 0.05);
    const cab = from(65271, 0x31)
      .filter(cranking)
      .map(({ data }) => word(data, 4) * 0.05);
    const mean = engine.reduce((sum, volts) => sum + volts, 0) / engine.length;
    expect(mean).toBeGreaterThan(10.5);
    expect(mean).toBeLessThan(11);
    expect(Math.max(...engine) - Math.min(...engine)).toBeLessThan(0.6); // it ripples with the compressions
    expect(cab.some((volts, i) => Math.abs(volts - engine[i]!) >= 0.05)).toBe(true);
    expect(word(from(65271)[0]!.data, 4) * 0.05).toBeGreaterThan(12);
  });

  test('supply pressure (SPN 94, 4 kPa) rises while cranking', () => {
    const supply = from(65263).map(({ timeMs, data }) => ({ timeMs, kPa: data[0]! * 4 }));
    expect(supply.filter(({ timeMs }) => timeMs < 3000).every(({ kPa }) => kPa < 20)).toBe(true);
    expect(
      supply.filter(({ timeMs }) => timeMs > 7000 && timeMs < 18_000).every(({ kPa }) => kPa > 120),
    ).toBe(true);
  });

  test('temperatures (offset -40) are those of the scenario, and there is no trouble code', () => {
    expect(from(65262)[0]!.data.slice(0, 2)).toEqual([60, 60]);
    expect(word(from(65262)[0]!.data, 2)).toBe((20 + 273) / 0.03125);
    expect(from(65226).every(({ data }) => data.join() === '0,255,0,0,0,0,255,255')).toBe(true);
  });
});

describe('the same again', () => {
  test.each(SCENARIOS)('$id: the same seed gives the same bytes', (scenario) => {
    expect(playBench(scenario, SHORT, { seed: 9 }).text).toBe(playBench(scenario, SHORT, { seed: 9 }).text);
  });

  test('another seed gives other noise and another first speed, but the same engine', () => {
    const [one, two] = [1, 2].map((seed) => playBench(healthy, SHORT, { seed }));
    expect(one!.text).not.toBe(two!.text);
    expect(benchView(one!.state)).toEqual(benchView(two!.state));
  });

  test.each([
    ['odd pieces', [7, 1, 33.3, 0.4, 250, 2.1]],
    ['crumbs', [0.3]],
    ['one tick', [2]],
    ['at 8 times the speed', [160]],
    ['half seconds', [500]],
  ])('time cut into %s gives the same bytes, with noise too', (_name, cuts) => {
    for (const scenario of [healthy, NOISY]) {
      const cut = playBench(scenario, SHORT, { cuts });
      expect(cut.text).toBe(playBench(scenario, SHORT).text);
      expect(benchView(cut.state)).toEqual(benchView(playBench(scenario, SHORT).state));
    }
  });

  test('an old state can be stepped again: nothing in it was changed', () => {
    const before = playBench(healthy, SHORT).state;
    const inputs = { keyOn: true, starterOn: true, fromHost: null };
    const first = stepBench(before, inputs, 1000);
    expect(textOf(stepBench(before, inputs, 1000).toHost)).toBe(textOf(first.toHost));
    expect(before.timeMs).toBe(4000);
  });
});

describe('line noise', () => {
  const noisy = playBench(NOISY, TWO_CRANKS);

  test('spoils some lines and leaves most', () => {
    const whole = readLines(noisy.text).length;
    expect(whole).toBeLessThan(lines.length);
    expect(whole).toBeGreaterThan(lines.length * 0.7);
  });

  test('drops about as many bytes as asked for, and turns one bit in others', () => {
    const lost = 1 - noisy.text.length / run.text.length;
    expect(lost).toBeGreaterThan(0.0015);
    expect(lost).toBeLessThan(0.0025);
    const dropless = { ...healthy, noise: { corruptPerByte: 0.01, dropPerByte: 0 } };
    const turned = playBench(dropless, SHORT).text;
    const clean = playBench(healthy, SHORT).text;
    expect(turned).toHaveLength(clean.length);
    const changed = [...clean].flatMap((letter, i) => {
      const bits = letter.charCodeAt(0) ^ turned.charCodeAt(i);
      return bits === 0 ? [] : [bits];
    });
    expect(changed.length / clean.length).toBeGreaterThan(0.007);
    expect(changed.length / clean.length).toBeLessThan(0.013);
    expect(changed.every((bits) => (bits & (bits - 1)) === 0)).toBe(true);
  });
});

describe('what there is to see', () => {
  test('the vessel fills while cranking and can be emptied', () => {
    const filled = benchView(run.state).vessel.levelMl;
    expect(filled).toBeGreaterThan(200);
    const inputs = { keyOn: true, starterOn: false, fromHost: null, emptyVessel: true };
    expect(benchView(stepBench(run.state, inputs, 0).state).vessel).toMatchObject({ readingMl: 0 });
  });

  test('emptying the vessel does not stop a running engine', () => {
    const running = playBench(SCENARIO_BY_ID['engine-fires'], TWO_CRANKS).state;
    expect(benchView(running).engineRunning).toBe(true);
    const inputs = { keyOn: true, starterOn: false, fromHost: null, emptyVessel: true };
    const { state } = stepBench(running, inputs, 100);
    expect(benchView(state)).toMatchObject({ engineRunning: true });
    expect(benchView(state).speedRpm).toBeGreaterThan(600);
  });

  test('the starter is shown on only with the key on', () => {
    const on = stepBench(run.state, { keyOn: true, starterOn: true, fromHost: null }, 20).state;
    const off = stepBench(run.state, { keyOn: false, starterOn: true, fromHost: null }, 20).state;
    expect(benchView(on).starterOn).toBe(true);
    expect(benchView(off).starterOn).toBe(false);
  });
});
