import { describe, expect, test } from 'vitest';
import { timeFrame, UNSET_CLOCK, type SlcanClock } from '../../src/wire/slcan-clock.ts';

// Periods (60 000 ms, 3 600 000 000 us), long pauses and stuck stamps: can-text-formats.md, Part 1.
// Limits of lateness, earliness and disbelief are common practice, no source; the cases stand on either side of them.
type Row = readonly [digits: 0 | 4 | 8, stamp: number, arrivalMs: number, atMs: number, broken?: 'break'];

/** Plays frames; gives the times and breaks beside the wanted ones. */
function play(rows: readonly Row[]): { clock: SlcanClock; got: Row[] } {
  const clock = { ...UNSET_CLOCK };
  const got = rows.map(([digits, stamp, arrivalMs]): Row => {
    const atMs = timeFrame(clock, { stamp, digits }, arrivalMs);
    return clock.broken ? [digits, stamp, arrivalMs, atMs, 'break'] : [digits, stamp, arrivalMs, atMs];
  });
  return { clock, got };
}
const expectTimes = (rows: readonly Row[]) => expect(play(rows).got).toEqual(rows);

describe('source time against arrival', () => {
  const CASES: readonly (readonly [string, readonly Row[]])[] = [
    [
      'a single frame is tied to its arrival',
      [
        [4, 31_000, 5_000, 5_000], //
      ],
    ],
    [
      'the stamps say the distance, however arrival is bunched',
      [
        [4, 100, 5_000, 5_000],
        [4, 110, 5_016, 5_010],
        [4, 120, 5_016, 5_020],
        [4, 130, 5_016, 5_030],
      ],
    ],
    [
      'microseconds are read as thousandths',
      [
        [8, 1_000_000, 5_000, 5_000],
        [8, 1_000_500, 5_000, 5_000.5],
        [8, 1_002_000, 5_001, 5_002],
      ],
    ],
    [
      'frames held up for just 25 s keep the times of their stamps',
      [
        [4, 0, 1_000, 1_000],
        [4, 10, 26_010, 1_010],
        [4, 24_000, 26_010, 25_000],
        [4, 25_010, 26_010, 26_010],
      ],
    ],
    [
      'stamps more than 25 s behind, three that agree, are tied anew',
      [
        [4, 0, 1_000, 1_000],
        [4, 10, 26_011, 1_000],
        [4, 20, 26_021, 1_000],
        [4, 30, 26_031, 26_031, 'break'],
        [4, 40, 26_041, 26_041],
      ],
    ],
    [
      'stamps ahead of arrival by just 2 s are believed',
      [
        [4, 0, 1_000, 1_000],
        [4, 2_010, 1_010, 3_010],
        [4, 2_020, 1_020, 3_020],
      ],
    ],
    [
      'stamps ahead of arrival by more than 2 s are not believed at once, and tied anew by the third',
      [
        [4, 0, 1_000, 1_000],
        [4, 2_011, 1_010, 1_000],
        [4, 2_021, 1_020, 1_000],
        [4, 2_031, 1_030, 1_030, 'break'],
        [4, 2_041, 1_040, 1_040],
      ],
    ],
    [
      'two stamps that agree with each other are still not believed',
      [
        [4, 0, 1_000, 1_000],
        [4, 9_000, 1_010, 1_000],
        [4, 9_010, 1_020, 1_000],
        [4, 30, 1_030, 1_030],
      ],
    ],
    [
      'wrong stamps that do not agree with each other are never believed',
      [
        [4, 0, 1_000, 1_000],
        [4, 9_000, 1_010, 1_000],
        [4, 20_000, 1_020, 1_000],
        [4, 31_000, 1_030, 1_000],
        [4, 40, 1_040, 1_040],
      ],
    ],
    [
      'wrong stamps with right ones between them are never believed',
      [
        [4, 0, 1_000, 1_000],
        [4, 9_000, 1_010, 1_000],
        [4, 20, 1_020, 1_020],
        [4, 9_010, 1_030, 1_020],
        [4, 40, 1_040, 1_040],
        [4, 9_020, 1_050, 1_040],
        [4, 60, 1_060, 1_060],
      ],
    ],
    [
      'the clock of a bridge that restarted begins at 0 again: a break, and time goes on from arrival',
      [
        [4, 40_000, 100_000, 100_000],
        [4, 40_010, 100_010, 100_010],
        [4, 0, 103_000, 100_010],
        [4, 10, 103_010, 100_010],
        [4, 20, 103_020, 103_020, 'break'],
        [4, 30, 103_030, 103_030],
      ],
    ],
    [
      'three that agree, near arrival but more than 2 s behind the last believed one, are tied anew',
      [
        [4, 0, 1_000, 1_000],
        [4, 5_000, 6_000, 6_000],
        [4, 7_000, 6_010, 8_000],
        [4, 4_500, 6_500, 8_000],
        [4, 4_510, 6_510, 8_000],
        [4, 4_520, 6_520, 8_000, 'break'],
        [4, 4_530, 6_530, 8_010],
      ],
    ],
    [
      'the same with microseconds',
      [
        [8, 900_000_000, 100_000, 100_000],
        [8, 0, 103_000, 100_000],
        [8, 10_000, 103_010, 100_000],
        [8, 20_000, 103_020, 103_020, 'break'],
      ],
    ],
  ];
  test.each(CASES)('%s', (_what, rows) => expectTimes(rows));
});

describe('stamps that start again', () => {
  test.each([
    ['milliseconds, at 60 000', 4, 60_000, 1],
    ['microseconds, at 3 600 000 000', 8, 3_600_000_000, 1000],
  ] as const)('%s: 500 turns in steps of a seventh of a period', (_what, digits, period, unitsPerMs) => {
    const clock = { ...UNSET_CLOCK };
    const stepUnits = Math.floor(period / 7);
    for (let i = 0; i < 3500; i++) {
      const spanMs = (i * stepUnits) / unitsPerMs;
      const atMs = timeFrame(clock, { digits, stamp: (1234 + i * stepUnits) % period }, 7_000 + spanMs + 3);
      expect(atMs).toBeCloseTo(7_003 + spanMs, 3);
      expect(clock.broken).toBe(false);
    }
    expect(clock.used).toBe('source');
  });

  const PAUSES: readonly (readonly [string, readonly Row[]])[] = [
    [
      'the last and the first stamp are 1 ms apart',
      [
        [4, 59_999, 1_000, 1_000],
        [4, 0, 1_001, 1_001],
      ],
    ],
    [
      'a pause of just under half a period',
      [
        [4, 0, 1_000, 1_000],
        [4, 29_999, 30_999, 30_999],
      ],
    ],
    [
      'a pause of more than half a period, which the stamps alone would take for a fall',
      [
        [4, 0, 1_000, 1_000],
        [4, 40_000, 41_000, 41_000],
      ],
    ],
    [
      'a pause of one period',
      [
        [4, 100, 1_000, 1_000],
        [4, 100, 61_000, 61_000],
      ],
    ],
    [
      'a pause of five periods and 1 s, arrival 900 ms late',
      [
        [4, 100, 1_000, 1_000],
        [4, 1_100, 302_900, 302_000],
      ],
    ],
    [
      'a night: 720 periods',
      [
        [4, 100, 1_000, 1_000],
        [4, 150, 43_201_050, 43_201_050],
      ],
    ],
    [
      'two turns of the microsecond stamp',
      [
        [8, 500_000, 1_000, 1_000],
        [8, 750_000, 7_201_250, 7_201_250],
      ],
    ],
  ];
  test.each(PAUSES)('the host clock chooses the turns: %s', (_what, rows) => expectTimes(rows));
});

describe('drift', () => {
  // 100 ppm over an hour is 360 ms: arithmetic.
  test.each([
    ['fast', 1.0001],
    ['slow', 0.9999],
  ])('a bridge whose clock is 100 ppm %s has no break within an hour', (_what, rate) => {
    const clock = { ...UNSET_CLOCK };
    for (let ms = 0; ms <= 3_600_000; ms += 500) {
      const stamp = Math.round(ms * rate) % 60_000;
      const atMs = timeFrame(clock, { digits: 4, stamp }, 1_000 + ms);
      expect(atMs).toBe(1_000 + Math.round(ms * rate));
      expect(clock.broken).toBe(false);
    }
  });

  test('a clock that is 1 % fast is tied anew each time it is 2 s ahead, and time never falls', () => {
    const clock = { ...UNSET_CLOCK };
    let breaks = 0;
    let lastMs = 0;
    for (let ms = 0; ms <= 1_000_000; ms += 100) {
      const atMs = timeFrame(clock, { digits: 4, stamp: Math.round(ms * 1.01) % 60_000 }, ms);
      expect(atMs).toBeGreaterThanOrEqual(lastMs);
      expect(atMs - ms).toBeLessThanOrEqual(0.01 * ms + 1); // no more than it is fast: arithmetic
      if (clock.broken) breaks++;
      lastMs = atMs;
    }
    expect(breaks).toBe(4); // 10 s of drift over the run, in pieces of a little more than 2 s: arithmetic
  });
});

describe('widths of stamps', () => {
  const CASES: readonly (readonly [string, readonly Row[]])[] = [
    [
      'no stamps at all: arrival',
      [
        [0, 0, 10, 10],
        [0, 0, 20, 20],
        [0, 0, 20, 20],
      ],
    ],
    [
      'stamps that begin after frames without: a break, time from arrival',
      [
        [0, 0, 10, 10],
        [4, 5_000, 20, 20, 'break'],
        [4, 5_010, 35, 30],
      ],
    ],
    [
      'from milliseconds to microseconds and back: a break each time',
      [
        [4, 5_000, 1_000, 1_000],
        [4, 5_010, 1_010, 1_010],
        [8, 77_000_000, 1_020, 1_020, 'break'],
        [8, 77_010_000, 1_040, 1_030],
        [4, 5_050, 1_050, 1_050, 'break'],
        [4, 5_060, 1_060, 1_060],
      ],
    ],
    [
      'a frame without a stamp among others has the time of the one before',
      [
        [4, 0, 1_000, 1_000],
        [0, 0, 1_100, 1_000],
        [4, 200, 1_200, 1_200],
        [0, 0, 3_200, 1_200],
      ],
    ],
    [
      'more than 2 s after the last stamp arrival is used: a break once',
      [
        [4, 0, 1_000, 1_000],
        [0, 0, 3_001, 3_001, 'break'],
        [0, 0, 3_010, 3_010],
        [4, 2_020, 3_020, 3_020, 'break'],
      ],
    ],
    [
      'arrival that is behind what was given holds time where it is',
      [
        [4, 0, 1_000, 1_000],
        [4, 1_900, 1_010, 2_900],
        [8, 5_000_000, 1_020, 2_900, 'break'],
        [8, 5_010_000, 1_030, 2_910],
      ],
    ],
  ];
  test.each(CASES)('%s', (_what, rows) => expectTimes(rows));
});
