import { describe, expect, test } from 'vitest';
import {
  bothWays,
  coverageWords,
  curvesInUnit,
  EMPTY_CHART,
  EMPTY_SHEET,
  EMPTY_WINDOW,
  inUnit,
  rangeWords,
  sheetDraftProblems,
  type LimitDraft,
  type SheetDraft,
} from '../../src/ui/sheet-draft.ts';
import { DRAFT, SHEET } from './sheet-samples.ts';

const fields = (draft: SheetDraft) => sheetDraftProblems(draft).map(({ field }) => field);
const withLimit = (limit: LimitDraft): SheetDraft => ({ ...SHEET, limits: [limit] });
const window = { ...EMPTY_WINDOW, check: 'pump-return', min: '4', max: '18' };
const chart = { ...EMPTY_CHART, check: 'crank-delivery', curves: DRAFT };

describe('what is wrong with a typed sheet', () => {
  test('a whole sheet has nothing wrong', () => {
    expect(sheetDraftProblems(SHEET)).toEqual([]);
  });

  test('an empty sheet names each field that is needed', () => {
    expect(fields(EMPTY_SHEET)).toEqual([
      'title',
      'engineFamily',
      'revision',
      'validFrom',
      'readFrom',
      'readBy',
      'limits',
    ]);
  });

  test.each<[string, SheetDraft, readonly string[]]>([
    [
      'a range that ends before it begins',
      { ...SHEET, ranges: [{ prefix: 'P', from: '500', to: '99' }] },
      ['ranges.0.to'],
    ],
    ['a range of one number', { ...SHEET, ranges: [{ prefix: '', from: '7', to: '7' }] }, []],
    ['no check', withLimit({ ...window, check: ' ' }), ['limits.0.check']],
    ['no bound', withLimit({ ...window, min: '', max: ' ' }), ['limits.0.min']],
    ['one bound', withLimit({ ...window, min: '' }), []],
    ['highest below lowest', withLimit({ ...window, min: '19' }), ['limits.0.max']],
    ['a bound below zero', withLimit({ ...window, min: '-1' }), ['limits.0.min']],
    ['suction, a pressure below zero', withLimit({ ...window, unit: 'inHg', min: '-6', max: '0' }), []],
    ['a bound that is no number', withLimit({ ...window, max: '18 oz' }), ['limits.0.max']],
    ['a time of zero', withLimit({ ...window, durationSeconds: '0' }), ['limits.0.durationSeconds']],
    ['no time', withLimit({ ...window, durationSeconds: '' }), []],
    ['a chart', withLimit(chart), []],
    ['a chart without cranks', withLimit({ ...chart, cranks: '' }), ['limits.0.cranks']],
    ['a chart of no seconds', withLimit({ ...chart, crankSeconds: 'x' }), ['limits.0.crankSeconds']],
    ['a chart without points', withLimit({ ...chart, curves: EMPTY_CHART.curves }), ['limits.0.curves']],
    ['two limits for one check', { ...SHEET, limits: [window, window] }, ['limits.1.check']],
  ])('%s', (_, draft, expected) => {
    expect(fields(draft)).toEqual(expected);
  });

  test('the mistakes of a chart are counted', () => {
    const words = (limit: LimitDraft) => sheetDraftProblems(withLimit(limit)).map((each) => each.words);
    expect(words({ ...chart, curves: { ...DRAFT, passAbove: [] } })).toEqual([
      'One mistake in the boundaries.',
    ]);
    expect(words({ ...chart, curves: EMPTY_CHART.curves })).toEqual(['2 mistakes in the boundaries.']);
  });
});

describe('what serial ranges cover, in words', () => {
  test.each([
    ['', '', '', 'every serial number'],
    ['P', '', '', 'every serial number that begins with P'],
    ['P', '100', '500', 'P100 to P500, both included'],
    ['', '100', '', '100 and every later one'],
    ['P', '100', '', 'P100 and every later one that begins with P'],
    ['', '', '500', 'every one up to 500'],
    ['P', '', '500', 'every one up to P500 that begins with P'],
    ['P', '7', '7', 'only P7'],
    [' P ', ' 1 ', ' 2 ', 'P1 to P2, both included'],
  ])('%j %j %j: %s', (prefix, from, to, words) => {
    expect(rangeWords({ prefix, from, to })).toBe(words);
  });

  test('several ranges make one sentence, none says that a person has to choose', () => {
    expect(coverageWords(SHEET.ranges)).toBe(
      'Holds for P100 to P500, both included; and Q2000 and every later one that begins with Q.',
    );
    expect(coverageWords([])).toBe('Holds for no engine. Add a range.');
    expect(coverageWords([...SHEET.ranges, { prefix: '', from: ' ', to: '' }])).toContain(
      'a person has to choose',
    );
    expect(coverageWords([{ prefix: 'P', from: '', to: '' }])).toBe(
      'Holds for every serial number that begins with P.',
    );
  });
});

describe('printed and kept units', () => {
  // 1 US fl oz = 29.5735295625 mL, 1 psi = 6.894757 kPa (NIST SP 811 Appendix B); the others by definition.
  test.each([
    ['12', 'usFlOz', '12 US fl oz = 354.9 mL'],
    ['100', 'psi', '100 psi = 689.5 kPa'],
    ['0,5', 'L', '0.5 L = 500.0 mL'],
    ['6', 'L/h', '6 L/h = 100.0 mL/min'],
    ['2.5', 's', '2.5 s = 2\u202f500.0 ms'],
    ['12', 'mL', ''],
    ['', 'L', ''],
  ] as const)('%j %s is shown both ways', (text, unit, words) => {
    expect(bothWays(text, unit)).toBe(words);
  });

  test('another printed unit keeps the amount; what is no amount, or of another kind, stays as typed', () => {
    expect(inUnit('0,5', 'L', 'mL')).toBe('500');
    expect(inUnit('90', 'mL/min', 'L/h')).toBe('5.4');
    expect(inUnit('half', 'L', 'mL')).toBe('half');
    expect(inUnit('5', 'psi', 'mL')).toBe('5');
    expect(curvesInUnit(DRAFT, 'mL', 'L').failBelow[0]).toEqual({ speed: '100', volume: '0.18' });
  });
});
