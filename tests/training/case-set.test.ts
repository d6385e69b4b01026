import { describe, expect, test } from 'vitest';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { readCaseSet, writeCaseSet } from '../../src/training/case-set-exchange.ts';
import { caseSetMistakes, sharePart, tellingWords } from '../../src/training/case-set-mistakes.ts';
import { SHIPPED_CASE_SETS } from '../../src/training/library.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { DEFECT_FACTS, severityWords } from '../../src/training/defect-facts.ts';
import { setOf, SMALL_SET } from './example-sets.ts';

const codes = (change: Parameters<typeof setOf>[0]) => caseSetMistakes(setOf(change)).map(({ code }) => code);
const problemOf = (text: string) => {
  const read = readCaseSet(text);
  return read.ok ? null : read.problem;
};

describe('the sets that are shipped', () => {
  test('go from easy to hard, under names of their own, and say that they are invented', () => {
    expect(SHIPPED_CASE_SETS.map(({ level }) => level)).toEqual(['first steps', 'ordinary work', 'hard']);
    expect(new Set(SHIPPED_CASE_SETS.map(({ id }) => id)).size).toBe(3);
    for (const { source } of SHIPPED_CASE_SETS) expect(source).toMatch(/^Invented/);
  });

  test.each(SHIPPED_CASE_SETS)('$title has no mistake, and survives its own file', (set) => {
    expect(caseSetMistakes(set)).toEqual([]);
    expect(readCaseSet(writeCaseSet(set))).toEqual({ ok: true, value: set });
  });

  test('the first asks for one plain defect, the second may draw any, the third two or none', () => {
    const [first, second, third] = SHIPPED_CASE_SETS as [CaseSetOf, CaseSetOf, CaseSetOf];
    expect(first.howMany).toEqual([{ defects: 1, weight: 1 }]);
    for (const { least } of first.defects) expect(least).toBeGreaterThanOrEqual(0.6);
    expect(second.defects.map(({ kind }) => kind).toSorted()).toEqual([...DEFECT_KINDS].toSorted());
    expect(third.howMany.map(({ defects }) => defects)).toEqual([0, 1, 2]);
  });

  type CaseSetOf = (typeof SHIPPED_CASE_SETS)[number];
});

describe('a set is refused', () => {
  test('when the least is above the most, wherever it is', () => {
    expect(codes({ defects: [{ kind: 'air leak', least: 0.9, most: 0.5 }] })).toEqual([
      'training.range-backwards',
    ]);
    const [digger] = SMALL_SET.vehicles;
    expect(codes({ vehicles: [{ ...digger!, hours: { least: 9, most: 3 } }] })).toEqual([
      'training.range-backwards',
    ]);
    const fuel = { least: 30, most: 10 };
    expect(codes({ temperaturesC: { ...SMALL_SET.temperaturesC, fuel } })).toEqual([
      'training.range-backwards',
    ]);
  });

  test('when a defect stands in it twice', () => {
    const twice = [SMALL_SET.defects[0]!, SMALL_SET.defects[0]!];
    expect(codes({ defects: twice })).toEqual(['training.defect-twice']);
  });

  test('when no complaint fits whatever is drawn', () => {
    expect(codes({ complaints: [{ text: 'Lame.', fits: ['air leak'] }] })).toEqual([
      'training.no-general-complaint',
    ]);
  });

  test('when it asks for two defects and has none at another part', () => {
    const howMany = [{ defects: 2, weight: 1 }];
    const pump = [
      { kind: 'worn pump elements' as const, least: 0.5, most: 0.6 },
      { kind: 'one element dead' as const, least: 0.5, most: 0.6 },
    ];
    expect(codes({ howMany, defects: pump })).toEqual([
      'training.no-second-defect',
      'training.no-second-defect',
    ]);
    expect(codes({ howMany })).toEqual([]);
  });

  test.each(['It must be an air leak.', 'Suspected: worn pumping elements', 'WEAK BATTERY again'])(
    'when its words tell: %s',
    (text) => {
      expect(codes({ complaints: [{ text }] })).toEqual(['training.words-tell']);
      expect(tellingWords(text)).not.toBeNull();
    },
  );

  test.each([
    ['not JSON', '{', 'it is no JSON text'],
    ['another thing', '{"formatVersion":1}', 'id:'],
    ['a newer form', JSON.stringify({ ...SMALL_SET, formatVersion: 2 }), 'formatVersion'],
    [
      'an unknown defect',
      JSON.stringify({ ...SMALL_SET, defects: [{ kind: 'rust', least: 0, most: 1 }] }),
      'defects.0.kind',
    ],
    ['an id with spaces', JSON.stringify({ ...SMALL_SET, id: 'My Set' }), 'small letters'],
    ['a field too many', JSON.stringify({ ...SMALL_SET, extra: 1 }), 'extra'],
    ['no complaint', JSON.stringify({ ...SMALL_SET, complaints: [] }), 'complaints'],
    [
      'three at once',
      JSON.stringify({ ...SMALL_SET, howMany: [{ defects: 3, weight: 1 }] }),
      'howMany.0.defects',
    ],
    ['a list', '[]', 'the whole'],
    ['nothing', '', 'it is no JSON text'],
  ])('when the file holds %s, and the place is named', (_what, text, place) => {
    const problem = problemOf(text);
    expect(problem?.code).toBe('training.not-a-set');
    expect(String(problem?.context['detail'])).toContain(place);
  });

  test('when the file’s form is right and its content is not', () => {
    const text = JSON.stringify({ ...SMALL_SET, complaints: [{ text: 'Lame.', fits: ['air leak'] }] });
    expect(problemOf(text)?.code).toBe('training.no-general-complaint');
  });
});

test('a mark of byte order at the front of the file does not matter', () => {
  expect(readCaseSet(`\uFEFF${writeCaseSet(setOf())}`).ok).toBe(true);
});

test('two defects share a part where one new part takes both away', () => {
  expect(sharePart('worn pump elements', 'leaking outlet check valve')).toBe(true);
  expect(sharePart('weak battery', 'corroded starter cable')).toBe(true);
  expect(sharePart('clogged filter', 'air leak')).toBe(false);
});

describe('what is told of a defect', () => {
  const known = new Set(LOW_RAIL_PRESSURE.causes.map(({ id }) => id));

  test.each(DEFECT_KINDS)('%s is named by causes that the shipped procedure has', (kind) => {
    for (const cause of DEFECT_FACTS[kind].causes) expect(known).toContain(cause);
    expect(DEFECT_FACTS[kind].did).toMatch(/^[A-Z].*\.$/);
  });

  test.each([
    [0.1, 'slight'],
    [0.25, 'mild'],
    [0.4, 'plain'],
    [0.7, 'severe'],
    [1, 'as bad as it gets'],
  ])('severity %f is %s', (severity, words) => {
    expect(severityWords({ kind: 'air leak', severity })).toBe(words);
  });
});
