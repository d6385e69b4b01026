import { describe, expect, it } from 'vitest';
import { DEFAULT_CRANK_SETTINGS, type CrankSettings } from '../../src/crank/crank.ts';
import { endStretch, FRESH_MACHINE, stepMachine, type CrankMachine } from '../../src/crank/crank-machine.ts';

/** Levels and spans of measurement.md section 2: start 50, end 30, running 400 rpm; hold 200, running hold 500, rest 500 ms. */
type Row = readonly [atMs: number, rpm: number];

/** A machine after classified samples, from `machine` on. */
function after(
  rows: readonly Row[],
  {
    machine = FRESH_MACHINE,
    settings = DEFAULT_CRANK_SETTINGS,
  }: { machine?: CrankMachine; settings?: CrankSettings } = {},
): CrankMachine {
  const samples = rows.map(([atMs, rpm]) => ({ atMs, rawRpm: rpm, rpm }));
  return samples.reduce(
    (now, sample, place) => stepMachine(now, samples[place - 1] ?? null, sample, settings),
    machine,
  );
}

/** The same speed every 20 ms, both ends included. */
const steady = (fromMs: number, toMs: number, rpm: number): readonly Row[] =>
  Array.from({ length: (toMs - fromMs) / 20 + 1 }, (_, place): Row => [fromMs + 20 * place, rpm]);

const CRANKING = [[0, 0], ...steady(20, 400, 150)] as const;
const RUNNING = steady(0, 40, 700);

describe('the first sample of a stretch', () => {
  it.each([
    [400, 'running', false],
    [399.875, 'rest', true],
    [50, 'rest', true],
    [49.875, 'rest', false],
  ] as const)('of %f rpm: %s, in mid-crank: %s', (rpm, phase, begun) => {
    const machine = after([[0, rpm]]);
    expect(machine.phase).toBe(phase);
    expect(machine.begun?.cutAtStart ?? false).toBe(begun);
  });

  it('in mid-crank is cranking, even where the engine runs from the next one on', () => {
    const { phase, cranks } = after([[0, 150], ...steady(20, 520, 450)]);
    expect(phase).toBe('running');
    expect(cranks.map(({ endedBy, cutAtStart }) => [endedBy, cutAtStart])).toEqual([
      ['engine started', true],
    ]);
  });
});

describe('at rest', () => {
  it('a speed at the start level is beyond it, one below is not', () => {
    expect(
      after([
        [0, 0],
        [20, 49.875],
      ]).begun,
    ).toBeNull();
    expect(
      after([
        [0, 0],
        [20, 60],
        [40, 50],
      ]).begun,
    ).not.toBeNull();
    expect(
      after([
        [0, 0],
        [20, 60],
        [40, 49.875],
      ]).begun,
    ).toBeNull();
  });

  it('a fall below the start level forgets that the speed was high', () => {
    const rows = [
      [0, 0],
      [20, 450],
      [40, 10],
      [500, 450],
      [540, 450],
    ] as const;
    expect(after(rows).phase).toBe('rest');
    expect(after([...rows, [1000, 450]]).phase).toBe('running');
  });

  it('a speed at the running level is not cranking: straight up to it there is no crank', () => {
    const { phase, cranks } = after([[0, 0], ...steady(20, 520, 400)]);
    expect([phase, cranks]).toEqual(['running', []]);
    expect(after([[0, 0], ...steady(20, 300, 400)]).phase).toBe('rest');
  });

  it('one sample of cranking before the running level makes a crank', () => {
    const { phase, cranks } = after([[0, 0], [20, 150], ...steady(40, 540, 450)]);
    expect(phase).toBe('running');
    expect(cranks.map(({ endedBy }) => endedBy)).toEqual(['engine started']);
  });

  it('a crossing holds by two samples, however short the hold is set', () => {
    const settings = { ...DEFAULT_CRANK_SETTINGS, holdMs: 0 };
    expect(
      after(
        [
          [0, 0],
          [20, 150],
        ],
        { settings },
      ).phase,
    ).toBe('rest');
    expect(
      after(
        [
          [0, 0],
          [20, 150],
          [40, 150],
        ],
        { settings },
      ).phase,
    ).toBe('cranking');
  });

  it('a crossing holds after the hold time itself, not only beyond it', () => {
    expect(
      after([
        [0, 0],
        [20, 150],
        [219, 150],
      ]).phase,
    ).toBe('rest');
    expect(
      after([
        [0, 0],
        [20, 150],
        [220, 150],
      ]).phase,
    ).toBe('cranking');
  });
});

describe('while cranking', () => {
  it('a speed at the end level is not below it', () => {
    const machine = after([...CRANKING, ...steady(420, 900, 30)]);
    expect([machine.phase, machine.fall]).toEqual(['cranking', null]);
    expect(after([...CRANKING, ...steady(420, 900, 29.875)]).phase).toBe('rest');
  });

  it('a fall forgets that the speed was high, and a rise that it had fallen', () => {
    const fell = after([...CRANKING, [420, 450], [440, 10], ...steady(460, 920, 450)]);
    expect([fell.phase, fell.cranks.length]).toEqual(['cranking', 0]);
    const rose = after([...CRANKING, [420, 10], [440, 150], [600, 10], [640, 10]]);
    expect(rose.phase).toBe('cranking');
    const released = after([...CRANKING, [420, 10], [440, 150], [600, 10], [640, 10], [800, 10]]);
    // From 150 rpm at 440 to 10 rpm at 600 ms the line passes 30 rpm at 440 + 160 * 120/140 = 577.142857 ms.
    expect(released.cranks.map(({ end }) => end.atMs)).toEqual([expect.closeTo(577.142857, 6)]);
  });

  it('a speed at the running level runs, once it has held for the running hold', () => {
    const short = after([...CRANKING, ...steady(420, 900, 400)]);
    expect(short.phase).toBe('cranking');
    const long = after([...CRANKING, ...steady(420, 920, 400)]);
    expect([long.phase, long.cranks.map(({ endedBy }) => endedBy)]).toEqual(['running', ['engine started']]);
  });

  it('an edge has the uncertainty of its interval over the root of twelve (GUM 4.3.7)', () => {
    const { begun } = after([
      [0, 0],
      [40, 150],
    ]);
    expect(begun!.crossing.edge.standardUncertaintyMs).toBeCloseTo(40 / Math.sqrt(12), 12);
  });
});

describe('the end of a stretch', () => {
  it('after two samples below the end level is a release, at the edge', () => {
    const { cranks } = endStretch(after([...CRANKING, [420, 10], [440, 10]]), 440, 'data lost');
    // From 150 rpm at 400 to 10 rpm at 420 ms the line passes 30 rpm at 400 + 20 * 120/140 = 417.142857 ms.
    expect(cranks.map(({ endedBy, end }) => [endedBy, end.atMs])).toEqual([
      ['released', expect.closeTo(417.142857, 6)],
    ]);
  });

  it('after one such sample is none: what was known to be cranking ended a sample before', () => {
    const { cranks } = endStretch(after([...CRANKING, [420, 10]]), 420, 'data lost');
    expect(cranks.map(({ endedBy, end }) => [endedBy, end.atMs])).toEqual([['data lost', 400]]);
  });

  it('in full crank is at the last sample', () => {
    const { cranks, phase } = endStretch(after(CRANKING), 400, 'cut');
    expect(cranks.map(({ endedBy, end }) => [endedBy, end.atMs])).toEqual([['cut', 400]]);
    expect(phase).toBe('noData');
  });
});

describe('while the engine runs', () => {
  it('a speed at the running level runs, below it runs down', () => {
    expect(after([...RUNNING, [60, 400]]).phase).toBe('running');
    expect(after([...RUNNING, [60, 399.875]]).phase).toBe('runningDown');
  });

  it('a speed at the end level is no standstill, one below it is, after the rest time itself', () => {
    expect(after([...RUNNING, [60, 30], [560, 30], [1060, 30]]).phase).toBe('runningDown');
    expect(after([...RUNNING, [60, 29], [559, 29]]).phase).toBe('runningDown');
    expect(after([...RUNNING, [60, 29], [560, 29]]).phase).toBe('rest');
  });

  it('a turn in between begins the standstill anew', () => {
    expect(after([...RUNNING, [60, 0], [300, 100], [320, 0], [600, 0]]).phase).toBe('runningDown');
    expect(after([...RUNNING, [60, 0], [300, 100], [320, 0], [820, 0]]).phase).toBe('rest');
  });
});
