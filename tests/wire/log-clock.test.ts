import { describe, expect, test } from 'vitest';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { millis } from '../../src/quantities/time.ts';
import { copyLogClock, newLogClock, SET_BACK_MS, timeLine, type LogClock } from '../../src/wire/log-clock.ts';
import { ascii, decodeText } from './decode-all.ts';

// Order and time: can-text-formats.md, Part 2. The step of 50 ms is common practice, no source.
type Line = readonly [
  kind: 'absolute' | 'small' | null,
  ms: number,
  channel: number,
  atMs: number,
  broken?: 'break',
];

function play(lines: readonly Line[], stamps: LogClock['stamps']) {
  const clock = { ...newLogClock(), stamps };
  const got = lines.map(([kind, ms, channel]): Line => {
    const atMs = timeLine(clock, kind && { kind, ms, end: 0 }, channel);
    return clock.broken ? [kind, ms, channel, atMs, 'break'] : [kind, ms, channel, atMs];
  });
  return { clock, got };
}

const CASES: readonly (readonly [string, LogClock['stamps'], readonly Line[]])[] = [
  [
    'absolute stamps stand as they are',
    'zero',
    [
      ['absolute', 1_589_326_646_631.333, 0, 1_589_326_646_631.333],
      ['absolute', 1_589_326_646_632, 0, 1_589_326_646_632],
    ],
  ],
  [
    'zero-based stamps stand as they are',
    'zero',
    [
      ['small', 0, 0, 0],
      ['small', 5, 0, 5],
      ['small', 64_758.912, 0, 64_758.912],
    ],
  ],
  [
    'delta stamps are added up over all interfaces',
    'delta',
    [
      ['small', 0, 0, 0],
      ['small', 10, 1, 10],
      ['small', 5, 0, 15],
      ['small', 0, 2, 15],
      ['small', 7, 1, 22],
    ],
  ],
  [
    'a long delta is a pause, not a break',
    'delta',
    [
      ['small', 0, 0, 0],
      ['small', 600_000, 0, 600_000],
      ['small', 1, 0, 600_001],
    ],
  ],
  [
    'absolute stamps in a file of deltas are not added up',
    'delta',
    [
      ['absolute', 1_589_326_646_000, 0, 1_589_326_646_000],
      ['absolute', 1_589_326_646_010, 0, 1_589_326_646_010],
    ],
  ],
  [
    'a fall of 50 ms is disorder: time stands, no break',
    'zero',
    [
      ['small', 1_000, 0, 1_000],
      ['small', 950, 0, 1_000],
      ['small', 1_010, 0, 1_010],
    ],
  ],
  [
    'a fall of more than 50 ms is a clock set back: time goes on',
    'zero',
    [
      ['small', 1_000, 0, 1_000],
      ['small', 949, 0, 1_000, 'break'],
      ['small', 959, 0, 1_010],
      ['small', 969, 0, 1_020],
    ],
  ],
  [
    '145 ms, as one recording of ours loses',
    'zero',
    [
      ['absolute', 1_589_326_646_500, 0, 1_589_326_646_500],
      ['absolute', 1_589_326_646_355, 0, 1_589_326_646_500, 'break'],
      ['absolute', 1_589_326_646_360, 0, 1_589_326_646_505],
    ],
  ],
  [
    'a clock set back by an hour, twice',
    'zero',
    [
      ['small', 7_200_000, 0, 7_200_000],
      ['small', 3_600_000, 0, 7_200_000, 'break'],
      ['small', 3_600_010, 0, 7_200_010],
      ['small', 10, 0, 7_200_010, 'break'],
      ['small', 30, 0, 7_200_030],
    ],
  ],
  [
    'the step back is seen by one interface, and the others go on with it',
    'zero',
    [
      ['small', 1_000, 0, 1_000],
      ['small', 1_001, 1, 1_001],
      ['small', 800, 0, 1_000, 'break'],
      ['small', 801, 1, 1_001],
      ['small', 811, 1, 1_011],
    ],
  ],
  [
    'an interface behind another is no step back',
    'zero',
    [
      ['small', 5_000, 0, 5_000],
      ['small', 1_000, 1, 1_000],
      ['small', 5_001, 0, 5_001],
      ['small', 1_100, 1, 1_100],
    ],
  ],
  [
    'the highest interface keeps its own time',
    'zero',
    [
      ['small', 5_000, 254, 5_000],
      ['small', 10, 0, 10],
      ['small', 4_000, 254, 5_000, 'break'],
    ],
  ],
  [
    'lines without stamps have no time',
    'zero',
    [
      [null, 0, 0, NaN],
      [null, 0, 1, NaN],
    ],
  ],
  [
    'lines without stamps between others change nothing',
    'delta',
    [
      ['small', 10, 0, 10],
      [null, 0, 0, NaN],
      ['small', 10, 0, 20],
    ],
  ],
];

test.each(CASES)('%s', (_what, stamps, lines) => {
  expect(play(lines, stamps).got).toEqual(lines);
});

test.each([
  ['nothing yet', [], 'unknown'],
  ['no stamps', [[null, 0, 0, NaN]], 'none'],
  ['stamps', [['small', 1, 0, 1]], 'source'],
  [
    'stamps after lines without',
    [
      [null, 0, 0, NaN],
      ['small', 1, 0, 1],
    ],
    'source',
  ],
  [
    'stamps before lines without',
    [
      ['small', 1, 0, 1],
      [null, 0, 0, NaN],
    ],
    'source',
  ],
] as const)('the clock in use: %s', (_what, lines, used) => {
  expect(play(lines, 'zero').clock.used).toBe(used);
});

test('a copy goes its own way', () => {
  const { clock } = play([['small', 1_000, 0, 1_000]], 'zero');
  const copy = copyLogClock(clock);
  timeLine(copy, { kind: 'small', ms: 5_000, end: 0 }, 0);
  expect([clock.lastMs[0], copy.lastMs[0]]).toEqual([1_000, 5_000]);
  expect(SET_BACK_MS).toBe(50);
});

describe('holding back until the stamps are understood', () => {
  const line = (s: string) => ` (${s})  can0  123   [0]\n`;
  const framesAfter = (text: string) => {
    const step = canLogDecoder.step(canLogDecoder.initial(), ascii(text), millis(0));
    return step.batches.reduce((sum, batch) => sum + batch.count, 0);
  };
  test('63 small stamps are held back, the 64th frees them all', () => {
    expect(framesAfter(line('000.001000').repeat(63))).toBe(0);
    expect(framesAfter(line('000.001000').repeat(64))).toBe(64);
  });

  test('the end of the file frees what is held back', () => {
    expect(decodeText(canLogDecoder, line('000.001000').repeat(63)).frames).toHaveLength(63);
  });

  test('absolute stamps are not held back', () => {
    expect(framesAfter('(1589326646.631333) can1 123#\n')).toBe(1);
  });

  test('the frames of a held-back file of deltas are all timed by addition', () => {
    const text = line('000.000000') + (line('000.020000') + line('000.010000')).repeat(40);
    const { frames, breaks } = decodeText(canLogDecoder, text);
    expect([frames[1]?.atMs, frames[2]?.atMs, frames.at(-1)?.atMs]).toEqual([20, 30, 1_200]);
    expect(breaks).toEqual([]);
  });
});
