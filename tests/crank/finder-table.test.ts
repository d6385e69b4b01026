import { describe, expect, it } from 'vitest';
import { expectCranks, type Found, type Pieces } from './fixtures/expect-cranks.ts';
import { findAll, log } from './fixtures/find-all.ts';

const RATES = [2, 10, 50, 100];

/** Hand-made logs that read the same at every rate. */
const ANY_RATE: readonly (readonly [name: string, pieces: Pieces, found: Found])[] = [
  ['an engine that stands', [[10, 0]], []],
  ['an engine that runs', [[10, 700]], []],
  [
    'one crank',
    [
      [3, 0],
      [10, 180],
      [3, 0],
    ],
    [[3, 13, 'released']],
  ],
  [
    'a crank of one second',
    [
      [3, 0],
      [1.5, 180],
      [3, 0],
    ],
    [[3, 4.5, 'released']],
  ],
  [
    'two cranks',
    [
      [3, 0],
      [15, 180],
      [30, 0],
      [15, 170],
      [3, 0],
    ],
    [
      [3, 18, 'released'],
      [48, 63, 'released'],
    ],
  ],
  [
    'three cranks',
    [
      [3, 0],
      [5, 180],
      [9, 0],
      [5, 170],
      [9, 0],
      [5, 160],
      [3, 0],
    ],
    [
      [3, 8, 'released'],
      [17, 22, 'released'],
      [31, 36, 'released'],
    ],
  ],
  [
    'a start',
    [
      [3, 0],
      [4, 160],
      [3, 700],
    ],
    [[3, 7, 'engine started']],
  ],
  [
    'a start with run-up',
    [
      [3, 0],
      [4, 160],
      [2, 160, 800],
      [5, 800],
    ],
    [[3, 7.75, 'engine started']],
  ],
  [
    'a start, run-down and a crank',
    [
      [3, 0],
      [4, 160],
      [5, 700],
      [2, 700, 0],
      [6, 0],
      [5, 150],
      [3, 0],
    ],
    [
      [3, 7, 'engine started'],
      [20, 25, 'released'],
    ],
  ],
  [
    'a run-down',
    [
      [5, 700],
      [3, 700, 0],
      [5, 0],
    ],
    [],
  ],
  [
    'a slow run-down',
    [
      [5, 700],
      [12, 700, 0],
      [5, 0],
    ],
    [],
  ],
  [
    'a run-down held at 86.5 and 53.5 rpm',
    [
      [5, 700],
      [1, 300],
      [1, 86.5],
      [1, 53.5],
      [5, 0],
    ],
    [],
  ],
  [
    'a running engine caught at cranking speed and released',
    [
      [5, 700],
      [3, 200],
      [5, 700],
    ],
    [],
  ],
  [
    'a battery that dies slowly through 50 and 30',
    [
      [3, 0],
      [10, 200, 0],
      [3, 0],
    ],
    [[3, 11.5, 'released']],
  ],
  [
    'a battery that dies to 40 and holds on',
    [
      [3, 0],
      [5, 180],
      [5, 40],
      [3, 0],
    ],
    [[3, 13, 'released']],
  ],
  [
    'a slow rise through 50',
    [
      [3, 0],
      [10, 0, 200],
      [5, 200],
      [3, 0],
    ],
    [[5.5, 18, 'released']],
  ],
  [
    'turning below 50 all the time',
    [
      [3, 0],
      [10, 45],
      [3, 0],
    ],
    [],
  ],
  [
    'a dip to 35 within a crank',
    [
      [3, 0],
      [5, 180],
      [2, 35],
      [5, 180],
      [3, 0],
    ],
    [[3, 15, 'released']],
  ],
  [
    'a cough that reaches 380',
    [
      [3, 0],
      [5, 180],
      [1, 380],
      [5, 180],
      [3, 0],
    ],
    [[3, 14, 'released']],
  ],
  [
    'a late start of the log',
    [
      [10, 180],
      [3, 0],
    ],
    [[0, 10, 'released']],
  ],
  [
    'a log that ends in a crank',
    [
      [3, 0],
      [10, 180],
    ],
    [[3, 13, 'cut']],
  ],
  ['a log that is a crank from end to end', [[10, 180]], [[0, 10, 'cut']]],
  [
    'readings that end in a crank',
    [
      [3, 0],
      [10, 180],
      [5, NaN],
    ],
    [[3, 13, 'data lost']],
  ],
];

describe.each(RATES)('hand-made logs at %i samples a second', (rate) => {
  const intervalMs = 1000 / rate;

  it.each(ANY_RATE)('%s', (_, pieces, found) => expectCranks(log(pieces, intervalMs), found, intervalMs));

  it('a log that was paused between cranks, with no zero speed in between, is split at the jump', () => {
    const first = log(
      [
        [3, 0],
        [10, 180],
      ],
      intervalMs,
    );
    const second = log(
      [
        [10, 170],
        [3, 0],
      ],
      intervalMs,
    ).map(({ atMs, rpm }) => ({ atMs: atMs + 120_000, rpm }));
    expectCranks(
      [...first, ...second],
      [
        [3, 13, 'data lost'],
        [120, 130, 'released'],
      ],
      intervalMs,
    );
    expect(findAll([...first, ...second]).map(({ cutAtStart }) => cutAtStart)).toEqual([false, true]);
  });

  it('stamps that jitter by a third of the interval', () => {
    const samples = log(
      [
        [3, 0],
        [10, 180],
        [3, 0],
      ],
      intervalMs,
    ).map(({ atMs, rpm }, i) => ({
      atMs: atMs + (((i * 7) % 11) / 33) * intervalMs,
      rpm,
    }));
    expectCranks(samples, [[3, 13, 'released']], 2 * intervalMs);
  });

  it('noise of 8 rpm around a cranking speed of 60', () => {
    const samples = log(
      [
        [3, 0],
        [10, 60],
        [3, 0],
      ],
      intervalMs,
    ).map(({ atMs, rpm }, i) => ({
      atMs,
      rpm: rpm === 0 ? 0 : rpm + (((i * 5) % 9) - 4) * 2,
    }));
    expectCranks(samples, [[3, 13, 'released']], intervalMs);
  });

  it('noise of 8 rpm around the start level itself is one crank, however often it crosses', () => {
    const samples = log(
      [
        [3, 0],
        [2, 180],
        [10, 50],
        [3, 0],
      ],
      intervalMs,
    ).map(({ atMs, rpm }, i) => ({
      atMs,
      rpm: rpm === 50 ? rpm + (((i * 5) % 9) - 4) * 2 : rpm,
    }));
    expectCranks(samples, [[3, 15, 'released']], intervalMs);
  });
});
