import { describe, expect, test } from 'vitest';
import type { CurveDraft, CurveName, CurveRow } from '../../src/ui/curve-edit.ts';
import { drawnCurves, drawnLine, readCurves } from '../../src/ui/curve-reading.ts';
import { tryPoint } from '../../src/ui/curve-zone.ts';
import { DRAFT } from './sheet-samples.ts';

const rows = (...pairs: readonly (readonly [string, string])[]): readonly CurveRow[] =>
  pairs.map(([speed, volume]) => ({ speed, volume }));
const withRows = (curve: CurveName, ...pairs: readonly (readonly [string, string])[]): CurveDraft => ({
  ...DRAFT,
  [curve]: rows(...pairs),
});
const said = (draft: CurveDraft) =>
  readCurves(draft).mistakes.map(({ curve, index, field, words }) => [curve, index, field, words]);

describe('reading the boundaries', () => {
  test('a draft without mistakes is a chart of numbers', () => {
    expect(readCurves(DRAFT)).toEqual({
      mistakes: [],
      chart: {
        failBelow: [[100, 180], [150, 290], [220, 430]], // prettier-ignore
        passAbove: [[100, 235], [150, 350], [220, 505]], // prettier-ignore
        failAbove: null,
        join: 'straight',
      },
    });
  });

  test('a decimal comma is read', () => {
    expect(
      readCurves(withRows('failBelow', ['100,5', '180,25'], ['200', '300'])).chart?.failBelow[0],
    ).toEqual([100.5, 180.25]);
  });

  test.each<[string, CurveDraft, unknown[]]>([
    [
      'no points',
      withRows('failBelow'),
      ['failBelow', -1, null, 'Fail below has no points. A line needs at least two.'],
    ],
    [
      'one point',
      withRows('failAbove', ['100', '700']),
      ['failAbove', -1, null, 'Fail above has one point. A line needs at least two.'],
    ],
    [
      'a missing volume',
      withRows('failBelow', ['100', ''], ['200', '9']),
      ['failBelow', 0, 'volume', 'The volume is missing.'],
    ],
    [
      'no number',
      withRows('failBelow', ['100', '5'], ['2oo', '9']),
      ['failBelow', 1, 'speed', '“2oo” is not a plain number.'],
    ],
    [
      'a negative volume',
      withRows('failBelow', ['100', '-5'], ['200', '9']),
      ['failBelow', 0, 'volume', 'A volume cannot be below zero.'],
    ],
    [
      'a speed twice',
      withRows('failBelow', ['100', '5'], ['100,0', '9']),
      ['failBelow', 1, 'speed', 'The speed 100 rpm is there twice. Give each speed once.'],
    ],
    [
      'speeds that do not rise',
      withRows('failBelow', ['150', '5'], ['100', '9']),
      [
        'failBelow',
        1,
        'speed',
        'Slower than the point before it (150 rpm). The rows are put in order when you leave the table.',
      ],
    ],
    [
      'no common speeds',
      withRows('passAbove', ['300', '900'], ['400', '990']),
      [
        'passAbove',
        -1,
        null,
        'The boundaries share no speeds, so no point could be judged by all of them. Give them over the same speeds.',
      ],
    ],
    [
      // At 150 rpm: 270 against 290 of fail below.
      'curves that cross',
      withRows('passAbove', ['100', '235'], ['150', '270'], ['220', '505']),
      [
        'passAbove',
        1,
        'volume',
        'Pass above lies 20 mL below fail below near 150 rpm. Two points may be exchanged.',
      ],
    ],
    [
      'an upper boundary that touches',
      withRows('failAbove', ['100', '235'], ['220', '700']),
      ['failAbove', 0, 'volume', 'Fail above touches pass above near 100 rpm. Two points may be exchanged.'],
    ],
  ])('%s is said at its row', (_, draft, mistake) => {
    expect(said(draft)).toEqual([mistake]);
    expect(readCurves(draft).chart).toBeNull();
  });

  test('pass above may touch fail below: there is no marginal band there', () => {
    expect(said(withRows('passAbove', ['100', '180'], ['220', '505']))).toEqual([]);
  });

  test('the printed unit stands in the words', () => {
    const draft = withRows('passAbove', ['100', '1'], ['220', '2']);
    expect(readCurves(draft, 'US fl oz').mistakes[0]?.words).toContain('US fl oz below');
  });
});

describe('drawing the joins', () => {
  test('straight joins are the points themselves', () => {
    const { chart } = readCurves(DRAFT);
    expect(chart && drawnCurves(chart).failBelow).toBe(chart?.failBelow);
  });

  test('a smooth join goes through every point and never back', () => {
    const points = [[100, 10], [110, 30], [150, 31], [220, 90]] as const; // prettier-ignore
    const line = drawnLine(points, 'monotone cubic');
    for (const point of points) expect(line).toContainEqual(point);
    expect(
      line.every(
        ([speed, volume], at) => at === 0 || (speed > line[at - 1]![0] && volume >= line[at - 1]![1]),
      ),
    ).toBe(true);
  });

  test('what cannot be joined smoothly is drawn straight', () => {
    expect(drawnLine([[100, 1]], 'monotone cubic')).toEqual([[100, 1]]);
    const falling = [[100, 1], [90, 2]] as const; // prettier-ignore
    expect(drawnLine(falling, 'monotone cubic')).toBe(falling);
  });
});

describe('trying a point', () => {
  const chart = readCurves(withRows('failAbove', ['100', '800'], ['220', '900'])).chart!;

  // By hand at 150 rpm: fail below 290, pass above 350, fail above 800 + 50/120 * 100 = 841.7.
  test.each([
    [150, 266, 'fail low', '24 mL (8.28 %) below the line “fail below” at 290 mL.'],
    [150, 290, 'marginal', 'On the line “fail below” (290 mL).'],
    [150, 349, 'marginal', '1 mL (0.286 %) below the line “pass above” at 350 mL.'],
    [150, 350, 'pass', 'On the line “pass above” (350 mL).'],
    [150, 900, 'fail high', '58.3 mL (6.93 %) above the line “fail above” at 842 mL.'],
    [99, 300, 'no limits here', 'The chart covers 100 to 220 rpm. Nothing is judged outside it.'],
    [221, 300, 'no limits here', 'The chart covers 100 to 220 rpm. Nothing is judged outside it.'],
  ])('%s rpm and %s mL is %s', (speed, volume, zone, words) => {
    expect(tryPoint(chart, speed, volume, 'mL')).toEqual({ zone, words });
  });

  test('without an upper boundary nothing is too much', () => {
    expect(tryPoint(readCurves(DRAFT).chart!, 150, 9999, 'mL').zone).toBe('pass');
  });
});
