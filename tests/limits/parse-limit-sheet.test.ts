import { describe, expect, it } from 'vitest';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { describeProblem, type Problem } from '../../src/problems/problem.ts';

type Json = Record<string, unknown>;

/** The demonstration sheet as JSON with one change, for one kind of mistake each. */
function sheet(change: (sheet: Json, chart: Json, window: Json) => void = () => {}): unknown {
  const copy = JSON.parse(JSON.stringify(DEMONSTRATION_SHEET)) as Json & { limits: [Json, Json] };
  change(copy, copy.limits[0], copy.limits[1]);
  return copy;
}

function mistake(json: unknown): Problem {
  const parsed = parseLimitSheet(json);
  if (parsed.ok) throw new Error('the sheet was accepted');
  return parsed.problem;
}

const sentence = (json: unknown) => describeProblem(mistake(json)).message;

describe('a good sheet', () => {
  it('is read as it stands', () => {
    expect(parseLimitSheet(sheet())).toEqual({ ok: true, value: DEMONSTRATION_SHEET });
  });

  it('gets the defaults where it leaves something out', () => {
    const parsed = parseLimitSheet(
      sheet((_, chart, window) => {
        for (const key of ['timeTolerancePercent', 'speedAverage', 'join', 'failAbove', 'conditions'])
          delete chart[key];
        delete window['durationSeconds'];
      }),
    );
    expect(parsed.ok && parsed.value.limits).toMatchObject([
      {
        timeTolerancePercent: 5,
        speedAverage: 'time-weighted',
        join: 'straight',
        failAbove: null,
        conditions: [],
      },
      { durationSeconds: null },
    ]);
  });

  it('may let passAbove touch failBelow: then there is no marginal band', () => {
    expect(parseLimitSheet(sheet((_, chart) => (chart['passAbove'] = chart['failBelow']))).ok).toBe(true);
  });

  it('may state a repeatability limit', () => {
    const parsed = parseLimitSheet(sheet((_, chart) => (chart['repeatabilityLimit'] = 12)));
    expect(parsed.ok && parsed.value.limits[0]?.repeatabilityLimit).toBe(12);
  });
});

describe('what is not a sheet at all', () => {
  it.each([
    [null, 'nothing'],
    [undefined, 'nothing'],
    [[1, 2], 'a list'],
    ['text', 'a text'],
    [7, 'a number'],
  ])('%j is named for what it is', (json, kind) => {
    expect(mistake(json).code).toBe('limit.not-a-sheet');
    expect(sentence(json)).toContain(kind);
  });

  it('an object with nothing of a sheet in it is refused as another kind of file', () => {
    expect(mistake({ name: 'pump', speeds: [1, 2] }).code).toBe('limit.not-a-sheet');
  });

  it('a sheet of a later format asks for an update instead of listing mistakes', () => {
    const problem = mistake(sheet((whole) => (whole['formatVersion'] = 3)));
    expect(problem.code).toBe('limit.newer-format');
    expect(describeProblem(problem).remedy).toContain('Update');
  });
});

describe('a mistake of shape is named with its place in plain words', () => {
  it.each<[string, (sheet: Json, chart: Json, window: Json) => void, string[]]>([
    ['a missing title', (whole) => delete whole['title'], ['title', 'missing']],
    ['an empty title', (whole) => (whole['title'] = ''), ['title', 'empty']],
    [
      'a number as text',
      (_, chart) => (chart['cranks'] = '2'),
      ['entry 1 (crank-delivery), cranks', 'a number', '"2"'],
    ],
    ['half a crank', (_, chart) => (chart['cranks'] = 1.5), ['cranks', 'whole number', '1.5']],
    ['no cranks', (_, chart) => (chart['cranks'] = 0), ['cranks', 'at least 1']],
    ['too many cranks', (_, chart) => (chart['cranks'] = 11), ['cranks', 'at most 10']],
    ['a crank of no time', (_, chart) => (chart['crankSeconds'] = 0), ['crankSeconds', 'above 0']],
    [
      'an unknown entry',
      (_, chart) => (chart['failbelow'] = []),
      ['crank-delivery', 'no such entry', 'failbelow'],
    ],
    [
      'an unknown kind',
      (_, __, window) => (window['kind'] = 'circle'),
      ['pump-return', 'speed chart, window'],
    ],
    [
      'an unknown way to join',
      (_, chart) => (chart['join'] = 'spline'),
      ['join', 'straight, monotone cubic', 'spline'],
    ],
    ['a curve of one point', (_, chart) => (chart['failBelow'] = [[100, 90]]), ['failBelow', 'at least 2']],
    [
      'a text for a volume',
      (_, chart) =>
        (chart['failBelow'] = [
          [100, 90],
          [140, 'x'],
        ]),
      ['failBelow, point 2, volume', 'a number', '"x"'],
    ],
    ['half a point', (_, chart) => (chart['passAbove'] = [[100], [140, 156]]), ['passAbove, point 1']],
    [
      'a day that does not exist',
      (whole) => (whole['validFrom'] = '2026-02-30'),
      ['validFrom', 'calendar', '2026-02-30'],
    ],
    ['a day in another order', (whole) => (whole['validFrom'] = '25.11.2026'), ['validFrom', 'calendar']],
    ['no limits', (whole) => (whole['limits'] = []), ['limits', 'at least 1']],
    ['a number that is not one', (_, __, window) => (window['min'] = NaN), ['min', 'a number']],
    ['an endless number', (_, __, window) => (window['max'] = Infinity), ['max', 'a number']],
    [
      'an unknown condition',
      (_, __, window) => (window['conditions'] = [{ signal: 'noise' }]),
      ['conditions', 'signal'],
    ],
  ])('%s', (_, change, words) => {
    const text = sentence(sheet(change));
    for (const word of words) expect(text).toContain(word);
    expect(text).not.toMatch(/undefined|\[object|\{|Invalid/);
  });
});

describe('a sheet that contradicts itself is refused', () => {
  const curve = (...points: [number, number][]) => points;
  it.each<[string, string, (sheet: Json, chart: Json, window: Json) => void]>([
    [
      'speeds that fall',
      'limit.speeds-not-ascending',
      (_, chart) => (chart['failBelow'] = curve([140, 90], [100, 95])),
    ],
    [
      'a speed twice',
      'limit.speeds-not-ascending',
      (_, chart) => (chart['passAbove'] = curve([100, 90], [100, 95])),
    ],
    [
      'a speed below zero',
      'limit.negative-number',
      (_, chart) => (chart['failBelow'] = curve([-5, 90], [100, 95])),
    ],
    [
      'a volume below zero',
      'limit.negative-number',
      (_, chart) => (chart['failBelow'] = curve([100, -1], [260, 95])),
    ],
    [
      'curves apart',
      'limit.no-common-speeds',
      (_, chart) => (chart['failBelow'] = curve([300, 90], [400, 95])),
    ],
    [
      'failBelow above passAbove between their points',
      'limit.curves-cross',
      (_, chart) => {
        chart['failBelow'] = curve([100, 90], [180, 300], [260, 330]);
        chart['passAbove'] = curve([100, 113], [260, 413]);
      },
    ],
    ['failAbove on passAbove', 'limit.curves-cross', (_, chart) => (chart['failAbove'] = chart['passAbove'])],
    ['a window upside down', 'limit.min-above-max', (_, __, window) => (window['min'] = 600)],
    [
      'a window with no bound',
      'limit.no-bound',
      (_, __, window) => {
        window['min'] = null;
        window['max'] = null;
      },
    ],
    ['a volume limit below zero', 'limit.negative-number', (_, __, window) => (window['min'] = -10)],
    [
      'a condition upside down',
      'limit.min-above-max',
      (_, chart) => (chart['conditions'] = [{ signal: 'fuelTemperature', min: 60, max: 5, outside: 'warn' }]),
    ],
    ['a check twice', 'limit.check-twice', (_, __, window) => (window['check'] = 'crank-delivery')],
    [
      'serial numbers reversed',
      'limit.serials-reversed',
      (whole) => (whole['serialRanges'] = [{ from: 'A1000', to: 'A999' }]),
    ],
    [
      'a confirmation by nobody',
      'limit.confirmed-by-nobody',
      (whole) => (whole['confirmedOn'] = '2026-01-05'),
    ],
  ])('%s', (_, code, change) => {
    const found = mistake(sheet(change));
    expect(found.code).toBe(code);
    const { message, remedy } = describeProblem(found);
    expect(message + remedy).not.toMatch(/\{\w+\}/);
  });

  it('where curves cross, the message says which, where and by how much', () => {
    const text = sentence(
      sheet((_, chart) => {
        chart['failBelow'] = curve([100, 90], [180, 300], [260, 330]);
        chart['passAbove'] = curve([100, 113], [260, 413]);
      }),
    );
    // passAbove at 180 rpm is (113 + 413) / 2 = 263, so failBelow lies 37 above it there.
    expect(text).toContain('failBelow lies 37 mL above passAbove near 180 rpm');
  });

  it('curves may cross where only one of them is known', () => {
    const outside = sheet((_, chart) => {
      chart['failBelow'] = curve([100, 90], [150, 100], [260, 900]);
      chart['passAbove'] = curve([100, 113], [150, 120]);
    });
    expect(parseLimitSheet(outside).ok).toBe(true);
  });
});
