import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DRIFT_FROM_MS,
  timeStamped,
  timeUnstamped,
  untied,
  UNTIED_CLOCK,
  type AnchoredClock,
} from '../../src/wire/anchored-clock.ts';

const STRICT = { periodMs: Infinity, disorderMs: 0 };
const LOOSE = { periodMs: Infinity, disorderMs: 50 };

/** Times and breaks of (stamp, arrival) pairs; stamp null is a line without. */
function through(
  pairs: readonly (readonly [rawMs: number | null, arrivalMs: number | null])[],
  habit = STRICT,
  clock: AnchoredClock = { ...UNTIED_CLOCK },
) {
  const times: number[] = [];
  const breaks: number[] = [];
  pairs.forEach(([rawMs, arrivalMs], i) => {
    times.push(
      rawMs === null ? timeUnstamped(clock, arrivalMs) : timeStamped(clock, rawMs, arrivalMs, habit),
    );
    if (clock.broken) breaks.push(i);
  });
  return { times, breaks, clock };
}

describe('a source clock tied to arrival', () => {
  test('keeps the intervals of the source, whatever the link adds', () => {
    const { times, breaks } = through([
      [0, 1000],
      [20, 1120],
      [40, 1121],
      [60, 1122],
      [80, 1080],
    ]);
    expect(times).toEqual([1000, 1020, 1040, 1060, 1080]);
    expect(breaks).toEqual([]);
  });

  test.each([
    [
      'falls by anything',
      [
        [100, 0],
        [99.9, 20],
      ],
      STRICT,
      [1],
    ],
    [
      'falls by more than disorder',
      [
        [100, 0],
        [49, 20],
      ],
      LOOSE,
      [1],
    ],
    [
      'falls by disorder',
      [
        [100, 0],
        [51, 20],
      ],
      LOOSE,
      [],
    ],
    [
      'runs ahead of arrival by more than 2 s',
      [
        [0, 0],
        [2021, 20],
      ],
      STRICT,
      [1],
    ],
    [
      'runs ahead of arrival by 2 s',
      [
        [0, 0],
        [2020, 20],
      ],
      STRICT,
      [],
    ],
    [
      'lies behind arrival by more than 25 s',
      [
        [0, 0],
        [20, 25_021],
      ],
      STRICT,
      [1],
    ],
    [
      'lies behind arrival by 25 s',
      [
        [0, 0],
        [20, 25_020],
      ],
      STRICT,
      [],
    ],
    [
      'rests as long as arrival',
      [
        [0, 0],
        [3_600_000, 3_600_000],
      ],
      STRICT,
      [],
    ],
  ] as const)('where a stamp %s', (_what, pairs, habit, expected) => {
    expect(through(pairs, habit).breaks).toEqual(expected);
  });

  test('a stamp in disorder takes the last time and moves nothing', () => {
    expect(
      through(
        [
          [100, 0],
          [70, 1],
          [120, 20],
        ],
        LOOSE,
      ).times,
    ).toEqual([0, 0, 20]);
  });

  test('behind a break counts from the arrival of the stamp that broke', () => {
    const { times, breaks } = through([
      [5000, 0],
      [5020, 20],
      [0, 900],
      [20, 925],
    ]);
    expect(times).toEqual([0, 20, 900, 920]);
    expect(breaks).toEqual([2]);
  });

  test.each([
    ['fast by 0.5 %', 1.005],
    ['slow by 0.5 %', 0.995],
    ['fast by 0.9 %', 1.009],
  ])('that runs %s never breaks in an hour, and stays by arrival', (_what, rate) => {
    const pairs = Array.from({ length: 36_000 }, (_, i) => [i * 100 * rate, i * 100] as const);
    const { times, breaks } = through(pairs);
    expect(breaks).toEqual([]);
    const apart = times.map((atMs, i) => Math.abs(atMs - i * 100));
    expect(Math.max(...apart)).toBeLessThan(DRIFT_FROM_MS + 10);
    const stretched = times.slice(1).map((atMs, i) => Math.abs(atMs - times[i]! - 100 * rate));
    expect(Math.max(...stretched)).toBeLessThanOrEqual(1.01 * rate);
  });

  test('turns of the counter are told by arrival, also several in a long rest', () => {
    const habit = { periodMs: 1000, disorderMs: 0 };
    const { times, breaks } = through(
      [
        [900, 0],
        [100, 200],
        [300, 5400],
        [400, 5500],
      ],
      habit,
    );
    expect(times).toEqual([0, 200, 5400, 5500]);
    expect(breaks).toEqual([]);
  });

  test('a board that starts again in the second half of a turn is no turn', () => {
    const minutes = 60_000;
    const habit = { periodMs: 71.6 * minutes, disorderMs: 0 };
    expect(
      through(
        [
          [60 * minutes, 0],
          [0, 5000],
        ],
        habit,
      ).breaks,
    ).toEqual([1]);
  });

  test('without stamps is arrival; between stamps the time before; long without them arrival, broken', () => {
    expect(
      through([
        [null, 5],
        [null, 9],
      ]),
    ).toMatchObject({ times: [5, 9], breaks: [] });
    const mixed = through([
      [0, 100],
      [null, 150],
      [60, 160],
      [null, 2160],
      [null, 2161],
    ]);
    expect(mixed.times).toEqual([100, 100, 160, 160, 2161]);
    expect(mixed.breaks).toEqual([4]);
    expect(mixed.clock.used).toBe('arrival');
    expect(
      through([
        [null, 5],
        [0, 9],
      ]).breaks,
    ).toEqual([1]);
  });

  test('opened again is tied anew without a break of its own, and its time does not fall', () => {
    const first = through([
      [0, 1000],
      [400, 1000],
    ]);
    expect(first.times).toEqual([1000, 1400]);
    const again = through(
      [
        [3, 1100],
        [4, 1101],
      ],
      STRICT,
      untied(first.clock),
    );
    expect(again.breaks).toEqual([]);
    expect(again.times[0]).toBe(first.times[1]);
  });
});

describe('a source clock in a file', () => {
  test('stands as it is, and knows no arrival', () => {
    const { times, breaks } = through([
      [50, null],
      [90_000, null],
      [90_001, null],
    ]);
    expect(times).toEqual([50, 90_000, 90_001]);
    expect(breaks).toEqual([]);
  });

  test('that falls goes on from the last time, broken', () => {
    expect(
      through([
        [500, null],
        [20, null],
        [40, null],
      ]),
    ).toMatchObject({ times: [500, 500, 520], breaks: [1] });
  });

  test('falls by more than half a turn where its counter starts again', () => {
    const habit = { periodMs: 1000, disorderMs: 0 };
    expect(
      through(
        [
          [990, null],
          [10, null],
        ],
        habit,
      ),
    ).toMatchObject({ times: [990, 1010], breaks: [] });
    expect(
      through(
        [
          [600, null],
          [200, null],
        ],
        habit,
      ).breaks,
    ).toEqual([1]);
  });

  test('without stamps is none', () => {
    const { times, clock } = through([
      [null, null],
      [7, null],
      [null, null],
    ]);
    expect(times).toEqual([NaN, 7, 7]);
    expect(clock.used).toBe('source');
  });
});

test('time never falls, and every break is where something was said not to be continuous', () => {
  const pair = fc.tuple(fc.option(fc.integer({ min: -1000, max: 100_000 })), fc.nat(30_000));
  fc.assert(
    fc.property(fc.array(pair), (pairs) => {
      let arrivalMs = 0;
      const { times } = through(pairs.map(([rawMs, later]) => [rawMs, (arrivalMs += later)] as const));
      times.slice(1).forEach((atMs, i) => expect(atMs).toBeGreaterThanOrEqual(times[i]!));
    }),
  );
});
