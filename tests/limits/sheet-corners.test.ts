import { describe, expect, it } from 'vitest';
import { boundaryAt, fritschButlandSlopes, type CurvePoint } from '../../src/limits/boundary-curve.ts';
import { sheetWarnings } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { compareSerials } from '../../src/limits/serial-range.ts';
import { describeProblem } from '../../src/problems/problem.ts';

type Json = Record<string, unknown>;

function sheet(change: (sheet: Json, chart: Json, window: Json) => void): unknown {
  const copy = JSON.parse(JSON.stringify(DEMONSTRATION_SHEET)) as Json & { limits: [Json, Json] };
  change(copy, copy.limits[0], copy.limits[1]);
  return copy;
}
const accepted = (json: unknown): boolean => parseLimitSheet(json).ok;
function refusal(json: unknown): string {
  const parsed = parseLimitSheet(json);
  return parsed.ok ? 'accepted' : describeProblem(parsed.problem).message;
}

describe('corners of a boundary curve', () => {
  it('an end before a sharp turn is limited to three times its secant', () => {
    // By hand: steps 10, 10; secants 1 and -9. Three-point slope (3·1 + 9)/2 = 6 is above 3·1, and the secants turn: 3.
    const turning: readonly CurvePoint[] = [
      [100, 100],
      [110, 110],
      [120, 20],
    ];
    expect(fritschButlandSlopes(turning)).toEqual([3, 0, -14]);
    // The far end by hand: (3·(-9) - 1)/2 = -14, below 3·9 in size: left as it is.
  });

  it('an end slope of more than three secants stands where the curve does not turn', () => {
    // By hand: secants 1 and 0.1 over steps 10 and 1: ((2·10 + 1)·1 - 10·0.1)/11 = 20/11.
    const easing: readonly CurvePoint[] = [
      [100, 100],
      [110, 110],
      [111, 110.1],
    ];
    expect(fritschButlandSlopes(easing)[0]).toBeCloseTo(20 / 11, 9);
  });

  it('unequal steps weigh the secants: the nearer point counts more', () => {
    // By hand: steps 10 and 30, secants 3 and 1: weights 2·30 + 10 = 70 and 30 + 2·... = 30 + 20 = 50; 120/(70/3 + 50/1) = 1.6364.
    const uneven: readonly CurvePoint[] = [
      [100, 0],
      [110, 30],
      [140, 60],
    ];
    expect(fritschButlandSlopes(uneven)[1]).toBeCloseTo(120 / (70 / 3 + 50), 9);
  });

  it('a level stretch stays level on both of its sides', () => {
    const level: readonly CurvePoint[] = [
      [100, 50],
      [110, 80],
      [120, 80],
      [130, 95],
    ];
    expect(fritschButlandSlopes(level).slice(1, 3)).toEqual([0, 0]);
    for (const speed of [112, 115, 119])
      expect(boundaryAt(level, 'monotone cubic', speed)?.volumeMl).toBe(80);
  });

  it('a falling corner gives the steeper fall', () => {
    const falling: readonly CurvePoint[] = [
      [100, 200],
      [140, 180],
      [180, 100],
    ];
    expect(boundaryAt(falling, 'straight', 140)?.slopeMlPerRpm).toBe(-2);
    const easing: readonly CurvePoint[] = [
      [100, 200],
      [140, 120],
      [180, 100],
    ];
    expect(boundaryAt(easing, 'straight', 140)?.slopeMlPerRpm).toBe(-2);
  });

  it('Hermite half-way is the mean plus an eighth of the step times the difference of slopes', () => {
    // By hand for secants 1.5, 0.75, 0.75 at steps of 40: slopes 1.875, 1, 0.75, 0.75.
    const bent: readonly CurvePoint[] = [
      [100, 100],
      [140, 160],
      [180, 190],
      [220, 220],
    ];
    expect(fritschButlandSlopes(bent)).toEqual([1.875, 1, 0.75, 0.75]);
    expect(boundaryAt(bent, 'monotone cubic', 120)).toEqual({ volumeMl: 134.375, slopeMlPerRpm: 1.53125 });
    expect(boundaryAt(bent, 'monotone cubic', 160)).toEqual({ volumeMl: 176.25, slopeMlPerRpm: 0.6875 });
    expect(boundaryAt(bent, 'monotone cubic', 130)?.volumeMl).toBeCloseTo(148.515625, 9);
  });
});

describe('corners of what a sheet may say', () => {
  it.each<[string, (sheet: Json, chart: Json, window: Json) => void]>([
    ['a window whose ends are one number', (_, __, window) => (window['min'] = window['max'])],
    ['a volume limit of zero', (_, __, window) => (window['min'] = 0)],
    ['a serial range of one number', (whole) => (whole['serialRanges'] = [{ from: 'A7', to: 'a 07' }])],
    ['no serial range at all', (whole) => (whole['serialRanges'] = [])],
    [
      'a pressure limit below zero, as suction is',
      (_, __, window) => Object.assign(window, { quantity: 'pressure', min: -40, max: 0 }),
    ],
    ['ten cranks', (_, chart) => (chart['cranks'] = 10)],
    ['a crank of half a second', (_, chart) => (chart['crankSeconds'] = 0.5)],
    [
      'a speed and a volume of zero',
      (_, chart) => {
        chart['failBelow'] = [
          [0, 0],
          [260, 200],
        ];
      },
    ],
    [
      'failAbove just above passAbove',
      (_, chart) => {
        const points = chart['passAbove'] as [number, number][];
        chart['failAbove'] = points.map(([speed, volume]) => [speed, volume + 1]);
      },
    ],
  ])('%s is accepted', (_, change) => {
    expect(refusal(sheet(change))).toBe('accepted');
  });

  it.each<[string, (sheet: Json, chart: Json, window: Json) => void, string]>([
    [
      'a confirmation by blanks',
      (whole) => Object.assign(whole, { confirmedOn: '2026-01-05', confirmedBy: '  ' }),
      'The sheet says that it was confirmed on 2026-01-05, but not by whom.',
    ],
    [
      'a tolerance of no time',
      (_, chart) => (chart['timeTolerancePercent'] = 0),
      'The limit sheet has a mistake at limits, entry 1 (crank-delivery), timeTolerancePercent: it must be above 0.',
    ],
    [
      'a tolerance below zero',
      (_, __, window) => (window['timeTolerancePercent'] = -5),
      'The limit sheet has a mistake at limits, entry 2 (pump-return), timeTolerancePercent: it must be above 0.',
    ],
    [
      'a repeatability of nothing',
      (_, chart) => (chart['repeatabilityLimit'] = 0),
      'The limit sheet has a mistake at limits, entry 1 (crank-delivery), repeatabilityLimit: it must be above 0.',
    ],
    [
      'a window upside down',
      (_, __, window) => (window['min'] = 526),
      'At entry 2 (pump-return) the lowest allowed value (526) is above the highest (525).',
    ],
    [
      'a long text for a number',
      (_, chart) => (chart['cranks'] = 'x'.repeat(200)),
      `The limit sheet has a mistake at limits, entry 1 (crank-delivery), cranks: a number is expected, but it is the text "${'x'.repeat(40)}".`,
    ],
    [
      'a text for a speed',
      (_, chart) => {
        chart['passAbove'] = [
          ['slow', 113],
          [260, 413],
        ];
      },
      'The limit sheet has a mistake at limits, entry 1 (crank-delivery), passAbove, point 1, speed: a number is expected, but it is the text "slow".',
    ],
    [
      'a speed twice',
      (_, chart) => {
        chart['failBelow'] = [
          [100, 90],
          [180, 210],
          [180, 219],
        ];
      },
      'The speeds of the curve at entry 1 (crank-delivery), failBelow do not rise from point to point (180 rpm is followed by 180 rpm).',
    ],
    [
      'serial numbers reversed in the second range',
      (whole) => {
        whole['serialRanges'] = [
          { from: null, to: 'A9' },
          { from: 'A100', to: 'A20' },
        ];
      },
      'At serialRanges, entry 2 the serial range begins at A100 but ends before it, at A20.',
    ],
  ])('%s is refused in these words', (_, change, words) => {
    expect(refusal(sheet(change))).toBe(words);
  });

  it('a sheet without its format but with limits is a sheet with a mistake, not another kind of file', () => {
    const json = sheet((whole) => delete whole['formatVersion']);
    expect(refusal(json)).toBe('The limit sheet has a mistake at formatVersion: it is missing.');
  });

  it('an order of mistakes is kept: shape before meaning', () => {
    const both = sheet((whole, __, window) => {
      window['min'] = 600;
      whole['title'] = '';
    });
    expect(refusal(both)).toContain('title: it is empty');
  });

  it('holds from the very day that it names', () => {
    const from = { ...DEMONSTRATION_SHEET, validFrom: '2026-03-01' };
    const codes = (onDate: string) => sheetWarnings(from, { onDate }).map(({ code }) => code);
    expect(codes('2026-03-01')).toEqual(['limit.invented']);
    expect(codes('2026-02-28')).toEqual(['limit.invented', 'limit.not-yet-valid']);
  });

  it('accepts itself again', () => {
    expect(accepted(sheet(() => {}))).toBe(true);
  });
});

describe('the numbers of the demonstration sheet', () => {
  const [chart, window] = DEMONSTRATION_SHEET.limits;

  it('are the ones that users, simulators and manuals were given: a change moves every verdict on it', () => {
    // The curves were designed as round figures and are written down here once more, apart from the source.
    expect(chart).toMatchObject({
      failBelow: [100, 140, 180, 220, 260].map((speed, index) => [speed, [90, 156, 219, 277, 330][index]]),
      passAbove: [100, 140, 180, 220, 260].map((speed, index) => [speed, [113, 195, 274, 346, 413][index]]),
      failAbove: null,
      timeTolerancePercent: 5,
      conditions: [{ signal: 'fuelTemperature', min: 5, max: 60, outside: 'warn' }],
    });
  });

  it('hold the window of the trade: 125 to 525 mL in 30 s (common practice, no source)', () => {
    expect(window).toMatchObject({ quantity: 'volume', min: 125, max: 525, durationSeconds: 30 });
  });

  it('deliver more the faster the engine turns, with less gain at high speed, as a leaking pump does', () => {
    if (chart?.kind !== 'speed chart') throw new Error('the chart comes first');
    for (const curve of [chart.failBelow, chart.passAbove]) {
      const slopes = curve.slice(1).map(([, volume], index) => volume - (curve[index]?.[1] ?? NaN));
      expect(slopes).toEqual([...slopes].sort((a, b) => b - a));
      expect(Math.min(...slopes)).toBeGreaterThan(0);
    }
  });
});

describe('serial numbers in order', () => {
  const ORDERED = ['9', '10', '0100', 'A', 'A1', 'A2', 'A10', 'A10B', 'A10C2', 'A10C10', 'B1', 'AA1'];
  const SORTED = ['9', '10', '0100', 'A', 'A1', 'A2', 'A10', 'A10B', 'A10C2', 'A10C10', 'AA1', 'B1'];

  it('sort by runs of digits and letters', () => {
    expect([...ORDERED].sort(compareSerials)).toEqual(SORTED);
    expect([...ORDERED].reverse().sort(compareSerials)).toEqual(SORTED);
  });

  it.each([
    ['a-10', 'A10'],
    ['A 1 0', 'A10'],
    ['A0010', 'a10'],
    ['000', '0'],
  ])('%s is the same as %s', (one, other) => {
    expect(compareSerials(one, other)).toBe(0);
    expect(compareSerials(other, one)).toBe(0);
  });
});
