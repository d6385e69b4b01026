import { expect, test } from 'vitest';
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
