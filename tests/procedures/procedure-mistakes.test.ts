import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckSettings } from '../../src/checks/check-settings.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { LOW_RAIL_PRESSURE as whole } from '../../src/procedures/library.ts';
import { procedureMistakes } from '../../src/procedures/procedure-mistakes.ts';
import type { Procedure, ProcedureCheck } from '../../src/procedures/procedure.ts';

const changed = (id: string, change: (check: ProcedureCheck) => Partial<ProcedureCheck>): Procedure => ({
  ...whole,
  checks: whole.checks.map((check) => (check.id === id ? { ...check, ...change(check) } : check)),
});
const codes = (procedure: Procedure) => procedureMistakes(procedure).map(({ code }) => code);

test('a need that leads nowhere is named with its check', () => {
  const [mistake] = procedureMistakes(changed('filters', () => ({ needs: ['no-such'] })));
  expect(mistake).toMatchObject({ code: 'procedure.unknown-check', context: { id: 'no-such' } });
});

test('advice and causes that lead nowhere are named', () => {
  const advice = changed('filters', ({ advice: all }) => ({
    advice: { ...all, pass: { ...all.pass, nextCheck: 'gone', causes: ['nothing'] } },
  }));
  expect(codes(advice)).toEqual(['procedure.unknown-check', 'procedure.unknown-cause']);
  const repeat = {
    ...whole,
    causes: whole.causes.map((cause, place) => (place ? cause : { ...cause, repeat: ['gone'] })),
  };
  expect(codes(repeat)).toEqual(['procedure.unknown-check']);
});

test('an inspection point may name no cause, but none that is not there', () => {
  const point = (cause: string | null) =>
    changed('filters', ({ settings }) =>
      settings.kind === 'inspection'
        ? { settings: { ...settings, points: settings.points.map((each) => ({ ...each, cause })) } }
        : {},
    );
  expect(codes(point(null))).toEqual([]);
  expect(codes(point('gone'))).toEqual(['procedure.unknown-cause']);
});

test('two checks or two causes of one id are told apart by nobody', () => {
  expect(codes({ ...whole, checks: [...whole.checks, whole.checks[0]!] })).toContain('procedure.id-twice');
  expect(codes({ ...whole, causes: [...whole.causes, whole.causes[0]!] })).toEqual(['procedure.id-twice']);
});

test('a check that waits for itself, at once or by way of others, is a circle', () => {
  expect(codes(changed('filters', () => ({ needs: ['filters'] })))).toEqual(['procedure.circle']);
  const circle = changed('fuel-quality', () => ({ needs: ['air-in-fuel'] }));
  expect(codes(circle).filter((code) => code === 'procedure.circle')).toHaveLength(3);
});

test('a check that stands before what it needs is out of order', () => {
  const [first, second, ...rest] = whole.checks;
  const [mistake] = procedureMistakes({ ...whole, checks: [second!, first!, ...rest] });
  expect(mistake).toMatchObject({ code: 'procedure.order', context: { needed: first!.title } });
});

test('a check without a danger is named, though the form would refuse it when read', () => {
  expect(codes(changed('filters', () => ({ cautions: [] })))).toEqual(['procedure.no-cautions']);
});

test('a station that no check speaks for is named as it stands on the screen', () => {
  const silent = {
    ...whole,
    checks: whole.checks.map((check) => ({
      ...check,
      stations: check.stations.filter((station) => station !== 'pressure filter'),
      clears: check.clears.filter((station) => station !== 'pressure filter'),
    })),
  };
  expect(procedureMistakes(silent)).toMatchObject([
    { code: 'procedure.station-unspoken', context: { station: 'Pressure filter' } },
  ]);
});

test('a check cannot clear what it does not speak for', () => {
  const [mistake] = procedureMistakes(changed('suction-restriction', () => ({ clears: ['injectors'] })));
  expect(mistake).toMatchObject({ code: 'procedure.clears-unspoken', context: { station: 'Injectors' } });
});

test('a cause that nothing leads to is named', () => {
  const lonely = { ...whole.causes[0]!, id: 'lonely', text: 'A cause of its own' };
  expect(procedureMistakes({ ...whole, causes: [...whole.causes, lonely] })).toMatchObject([
    { code: 'procedure.cause-unnamed', context: { cause: 'A cause of its own' } },
  ]);
});

test('a check of the low side behind one of the high side is out of place', () => {
  const low = whole.checks.find(({ id }) => id === 'supply-load')!;
  const rest = whole.checks.filter(({ id }) => id !== 'supply-load');
  const moved = { ...whole, checks: [...rest.slice(0, -1), low, rest.at(-1)!] };
  expect(procedureMistakes(moved)).toMatchObject([
    {
      code: 'procedure.low-behind-high',
      context: { check: low.title, high: 'Rail pressure sensor at rest' },
    },
  ]);
});

describe('settings that cannot be', () => {
  const settingsOf = (id: string): CheckSettings => whole.checks.find((check) => check.id === id)!.settings;
  const why = (id: string, change: object): readonly unknown[] =>
    procedureMistakes(
      changed(id, () => ({ settings: { ...settingsOf(id), ...change } as CheckSettings })),
    ).map(({ code, context }) => (code === 'procedure.settings-impossible' ? context['why'] : code));

  test.each([
    ['supply-idle', { speed: { minRpm: 1000, maxRpm: 500 } }, /lowest speed lies above/],
    ['pump-return', { speed: { minRpm: 1000, maxRpm: 500 } }, /lowest speed lies above/],
    ['pump-return', { startedBy: 'signal', trigger: null }, /none is named/],
    ['pump-return', { holds: { signal: 'railPressure', min: 2, max: 1 } }, /lowest value above/],
    ['rail-build', { fromKPa: 20_000, toKPa: 20_000 }, /is to rise/],
    ['rail-decay', { fromKPa: 10_000, toKPa: 10_000 }, /is to fall/],
    ['final-drive', { speedBandsRpm: [1200, 900] }, /bands of speed/],
    ['final-drive', { loadBandsPercent: [25, 25] }, /bands of load/],
    ['final-drive', { stretchSeconds: 300 }, /shorter than one stretch/],
  ] as const)('%s with %o', (id, change, words) => {
    const reasons = why(id, change);
    expect(reasons).toHaveLength(1);
    expect(reasons[0]).toMatch(words);
  });

  test('two points of one id', () => {
    const settings = settingsOf('filters');
    const points = settings.kind === 'inspection' ? settings.points : [];
    expect(why('filters', { points: [...points, points[0]] })[0]).toMatch(/same id/);
  });

  test('open and equal ends are well', () => {
    expect(why('supply-idle', { speed: { minRpm: null, maxRpm: 500 } })).toEqual([]);
    expect(why('supply-idle', { speed: { minRpm: 600, maxRpm: 600 } })).toEqual([]);
    expect(why('supply-idle', { speed: null })).toEqual([]);
    expect(why('pump-return', { holds: null })).toEqual([]);
    expect(why('final-drive', { speedBandsRpm: [], loadBandsPercent: [50] })).toEqual([]);
  });
});

test('every mistake can be read: its facts fill its text', () => {
  const broken: Procedure = {
    ...whole,
    checks: [
      ...whole.checks
        .slice(1)
        .map((check) => ({ ...check, cautions: [], stations: check.stations.slice(0, 1) })),
      whole.checks[0]!,
      whole.checks[0]!,
    ],
    causes: whole.causes.slice(2),
  };
  const mistakes = procedureMistakes(broken);
  expect(new Set(mistakes.map(({ code }) => code)).size).toBeGreaterThanOrEqual(6);
  for (const each of mistakes) {
    const { message, remedy } = describeProblem(each);
    expect(message + remedy).not.toMatch(/[{}]/);
  }
});

test('never throws, and finds nothing twice, however checks and causes are dropped and shuffled', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...whole.checks], { minLength: 1 }),
      fc.subarray([...whole.causes]),
      (checks, causes) => {
        const mistakes = procedureMistakes({ ...whole, checks, causes });
        const printed = mistakes.map((each) => JSON.stringify(each));
        expect(new Set(printed).size).toBe(printed.length);
      },
    ),
    { numRuns: 100 },
  );
});
