import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PARTS_OF } from '../../simulators/engine/parts.ts';
import { caseScenarioId, fingerprintOf, isTraining, readCaseId } from '../../src/training/case-id.ts';
import { tellingWords } from '../../src/training/case-set-mistakes.ts';
import { CaseSet } from '../../src/training/case-set.ts';
import { drawCase } from '../../src/training/draw-case.ts';
import { findCase } from '../../src/training/find-case.ts';
import { SHIPPED_CASE_SETS } from '../../src/training/library.ts';
import { setOf } from './example-sets.ts';

const anySeed = fc.integer({ min: 0, max: 0xffff_ffff });
const anySet = fc.constantFrom(...SHIPPED_CASE_SETS, setOf());

test('the same set and seed give the same engine, also after a way through a file', () => {
  fc.assert(
    fc.property(anySet, anySeed, (set, seed) => {
      const again = CaseSet.parse(JSON.parse(JSON.stringify(set)));
      expect(drawCase(again, seed)).toEqual(drawCase(set, seed));
      expect(findCase(caseScenarioId(set, seed), [again])).toEqual({ ok: true, value: drawCase(set, seed) });
    }),
    { numRuns: 60 },
  );
});

test('everything that is drawn lies within the set', () => {
  fc.assert(
    fc.property(anySet, anySeed, (set, seed) => {
      const { scenario } = drawCase(set, seed);
      const { defects, identity, complaint } = scenario;
      expect(set.howMany.map((each) => each.defects)).toContain(defects.length);
      for (const { kind, severity } of defects) {
        const range = set.defects.find((each) => each.kind === kind)!;
        expect(severity).toBeGreaterThanOrEqual(range.least);
        expect(severity).toBeLessThanOrEqual(range.most);
      }
      const said = set.complaints.find(({ text }) => text === complaint)!;
      if (said.fits.length > 0) expect(said.fits).toContain(defects[0]?.kind);
      const vehicle = set.vehicles.find(({ unit }) => unit === identity.unit)!;
      const serial = Number(identity.serialNumber.slice(1));
      expect(serial).toBeGreaterThanOrEqual(vehicle.serialNumbers.least);
      expect(serial).toBeLessThanOrEqual(vehicle.serialNumbers.most);
      expect(identity.hours).toBeGreaterThanOrEqual(vehicle.hours.least);
      expect(identity.hours).toBeLessThanOrEqual(vehicle.hours.most);
      expect(scenario.fuelTemperatureC).toBeGreaterThanOrEqual(set.temperaturesC.fuel.least);
      expect(scenario.fuelTemperatureC).toBeLessThanOrEqual(set.temperaturesC.fuel.most);
    }),
    { numRuns: 300 },
  );
});

test('two defects never hang on one part, and the worse stands first', () => {
  const hard = SHIPPED_CASE_SETS[2]!;
  for (let seed = 0; seed < 300; seed += 1) {
    const [a, b] = drawCase(hard, seed).scenario.defects;
    if (!a || !b) continue;
    expect(PARTS_OF[a.kind].some((part) => PARTS_OF[b.kind].includes(part))).toBe(false);
    expect(a.severity).toBeGreaterThanOrEqual(b.severity);
  }
});

/** Counts outside four standard deviations of a binomial come by chance once in 16,000 (normal approximation, from memory). */
function expectShare(count: number, of: number, share: number) {
  expect(Math.abs(count - of * share)).toBeLessThan(4 * Math.sqrt(of * share * (1 - share)));
}

describe('over many seeds in a row', () => {
  const N = 3000;
  const drawn = (set: CaseSet) => Array.from({ length: N }, (_, seed) => drawCase(set, seed).scenario);

  test('each defect of a set with equal weights comes equally often', () => {
    const set = SHIPPED_CASE_SETS[1]!;
    const cases = drawn(set);
    for (const { kind } of set.defects)
      expectShare(cases.filter(({ defects }) => defects[0]!.kind === kind).length, N, 1 / set.defects.length);
  });

  test('weights count: three times the weight comes three times as often', () => {
    const cases = drawn(
      setOf({
        defects: [
          { kind: 'air leak', least: 0.5, most: 0.9, weight: 3 },
          { kind: 'clogged filter', least: 0.5, most: 0.9 },
        ],
      }),
    );
    expectShare(cases.filter(({ defects }) => defects[0]!.kind === 'air leak').length, N, 0.75);
  });

  test('nothing, one and two come as often as the set says', () => {
    const set = SHIPPED_CASE_SETS[2]!;
    const cases = drawn(set);
    for (const { defects, weight } of set.howMany)
      expectShare(cases.filter((each) => each.defects.length === defects).length, N, weight / 10);
  });

  test('severity is even over its range: a quarter in each quarter', () => {
    const cases = drawn(setOf({ defects: [{ kind: 'air leak', least: 0.5, most: 0.9 }] }));
    for (const quarter of [0, 1, 2, 3]) {
      const [from, to] = [0.5 + 0.1 * quarter, 0.6 + 0.1 * quarter];
      expectShare(
        cases.filter(({ defects: [one] }) => one!.severity >= from && one!.severity < to).length,
        N,
        0.25,
      );
    }
  });

  test('vehicles and complaints are mixed: none of them tells the defect', () => {
    const cases = drawn(setOf());
    expectShare(cases.filter(({ identity }) => identity.unit === 'Roller').length, N, 0.5);
    const general = cases.filter(({ complaint }) => complaint === 'A code came up.');
    expectShare(general.length, N, 0.5);
    expectShare(general.filter(({ defects }) => defects[0]!.kind === 'air leak').length, general.length, 0.5);
  });
});

test('what the driver says and what stands on the vehicle never names the defect', () => {
  for (const set of SHIPPED_CASE_SETS)
    for (let seed = 0; seed < 100; seed += 1) {
      const { complaint, identity } = drawCase(set, seed).scenario;
      expect(tellingWords([complaint, identity.unit, identity.engineFamily].join(' '))).toBeNull();
    }
});

describe('the scenario id', () => {
  test('names set, wording and seed, and no defect', () => {
    const set = setOf();
    const id = caseScenarioId(set, 4711);
    expect(id).toBe(`training:small-set~${fingerprintOf(set)}:4711`);
    expect(readCaseId(id)).toEqual({ setId: 'small-set', fingerprint: fingerprintOf(set), seed: 4711 });
    expect(isTraining(id)).toBe(true);
    expect(isTraining('leaking-pump')).toBe(false);
    expect(isTraining(null)).toBe(false);
  });

  test.each([
    null,
    '',
    'healthy',
    'training:',
    'training:a:1',
    'training:a~00000000:',
    'training:a~00000000:4294967296',
    'training:A~00000000:1',
  ])('%s is that of no case', (id) => {
    expect(readCaseId(id)).toBeNull();
    expect(findCase(id, SHIPPED_CASE_SETS)).toMatchObject({
      ok: false,
      problem: { code: 'training.not-a-case' },
    });
  });

  test('asks for the very same set: a missing and a changed one are told apart', () => {
    const id = caseScenarioId(setOf(), 1);
    expect(findCase(id, SHIPPED_CASE_SETS)).toMatchObject({ problem: { code: 'training.set-missing' } });
    const changed = setOf({ about: 'Reworded.' });
    expect(findCase(id, [changed])).toMatchObject({ problem: { code: 'training.set-changed' } });
  });

  test('does not change with the order of keys in a file', () => {
    const set = setOf();
    const turned = CaseSet.parse(Object.fromEntries(Object.entries(set).toReversed()));
    expect(fingerprintOf(turned)).toBe(fingerprintOf(set));
  });
});
