import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vessel } from '../../src/checks/measurement.ts';
import { vesselById, VESSELS } from '../../src/checks/vessels.ts';
import { measureVolume, unfitVessel, type VolumeEntry } from '../../src/checks/volume.ts';
import { describeProblem } from '../../src/problems/problem.ts';

function vessel(id: string): Vessel {
  const found = vesselById(id);
  if (!found) throw new Error(`no vessel ${id}`);
  return found;
}

function measured(entry: VolumeEntry) {
  const result = measureVolume(entry);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

function refused(entry: VolumeEntry) {
  const result = measureVolume(entry);
  if (result.ok) throw new Error('accepted');
  return result.problem;
}

describe('the vessels offered at first', () => {
  // ASTM E1272-02 table 1, class B and least division (check-values.md F); the 1000 mL row is from memory there.
  it.each([
    [100, 1, 1],
    [250, 2, 2],
    [500, 4, 5],
    [1000, 6, 10],
  ])(
    'the %i mL cylinder has class B marks: ±%i mL, a mark each %i mL',
    (capacityMl, halfWidth, graduationMl) => {
      expect(vessel(`cylinder-${capacityMl}`)).toMatchObject({
        capacityMl,
        graduationMl,
        tolerance: { kind: 'mL', halfWidth },
        measures: true,
      });
    },
  );

  it('beakers are there but marked as not for measuring, ±5 % and ±10 % (check-values.md F, from memory)', () => {
    const beakers = VESSELS.filter(({ measures }) => !measures);
    expect(beakers.map(({ tolerance }) => tolerance)).toEqual([
      { kind: 'fraction', halfWidth: 0.05 },
      { kind: 'fraction', halfWidth: 0.1 },
    ]);
    for (const { name } of beakers) expect(name).toContain('not for measuring');
  });

  it('each has its own id and is fit for use', () => {
    expect(new Set(VESSELS.map(({ id }) => id)).size).toBe(VESSELS.length);
    for (const each of VESSELS) expect(unfitVessel(each)).toBeNull();
    expect(vesselById('bucket')).toBeNull();
  });
});

describe('the uncertainty of a volume', () => {
  it('of 500 mL in a class B cylinder is 2.309 and 1.443 in quadrature, 2.723 mL', () => {
    // check-values.md F, last line: ±4 mL and ±2.5 mL, both rectangular.
    const volume = measured({ vessel: vessel('cylinder-500'), readingsMl: [500] });
    expect(volume.parts?.toleranceMl).toBeCloseTo(2.309, 3);
    expect(volume.parts?.readingMl).toBeCloseTo(1.443, 3);
    expect(volume.standardUncertaintyMl).toBeCloseTo(2.723, 3);
  });

  it.each([
    ['beaker-600', 14.43],
    ['beaker-1000', 28.87],
  ])('of 500 mL in %s has %f mL from the marks alone', (id, expected) => {
    // check-values.md F: 5 % and 10 % of 500 mL, rectangular.
    expect(measured({ vessel: vessel(id), readingsMl: [500] }).parts?.toleranceMl).toBeCloseTo(expected, 2);
  });

  it('of several fillings adds the marks straight and the readings in quadrature', () => {
    // By hand: marks 2*1/sqrt3 = 1.1547, readings sqrt2*0.5/sqrt3 = 0.4082, together 1.2247 = sqrt(1.5).
    const volume = measured({ vessel: vessel('cylinder-100'), readingsMl: [96, 84] });
    expect(volume.valueMl).toBe(180);
    expect(volume.standardUncertaintyMl).toBeCloseTo(Math.sqrt(1.5), 12);
    expect(volume.parts?.readingsMl).toEqual([96, 84]);
  });

  it('read off a photograph has its uncertainty in place of half a graduation, and the tolerance stays', () => {
    // By hand: tolerance 4/sqrt3, squared 16/3; photograph 0.5, squared 0.25; together 5.5833, root 2.36291.
    const volume = measured({
      vessel: vessel('cylinder-500'),
      readingsMl: [316.8],
      photoUncertaintyMl: 0.5,
    });
    expect(volume.parts).toMatchObject({ readingMl: 0, photoMl: 0.5, toleranceMl: 4 / Math.sqrt(3) });
    expect(volume.standardUncertaintyMl).toBeCloseTo(2.36291, 5);
    expect(volume.valueMl).toBe(316.8);
  });

  it('of several fillings, one of them photographed, counts half a graduation for the others alone', () => {
    // By hand: tolerance 2*4/sqrt3, squared 64/3; one reading by eye 2.5/sqrt3, squared 6.25/3; photograph squared 1; root of 24.41667 is 4.94132.
    const volume = measured({
      vessel: vessel('cylinder-500'),
      readingsMl: [480, 200],
      photoUncertaintyMl: 1,
    });
    expect(volume.standardUncertaintyMl).toBeCloseTo(4.94132, 5);
  });

  it('without a photograph has no part of one', () => {
    expect(measured({ vessel: vessel('cylinder-500'), readingsMl: [300] }).parts).not.toHaveProperty(
      'photoMl',
    );
  });

  it.each([NaN, Infinity, -0.1])('a photograph that claims %f mL is refused', (photoUncertaintyMl) => {
    const entry = { vessel: vessel('cylinder-500'), readingsMl: [300], photoUncertaintyMl };
    expect(refused(entry).code).toBe('photo.no-uncertainty');
  });

  it('counts what may stay in the line as rectangular and does not shift the value', () => {
    const dry = measured({ vessel: vessel('cylinder-500'), readingsMl: [300] });
    const wet = measured({ vessel: vessel('cylinder-500'), readingsMl: [300], lineResidueMl: 3 });
    expect(wet.valueMl).toBe(300);
    expect(wet.standardUncertaintyMl ** 2 - dry.standardUncertaintyMl ** 2).toBeCloseTo(3, 9);
  });

  it('never falls when a filling is added', () => {
    const readings = fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(
        readings,
        fc.constantFrom(...VESSELS.filter((each) => each.capacityMl >= 500)),
        (read, each) => {
          const few = measured({ vessel: each, readingsMl: read });
          const more = measured({ vessel: each, readingsMl: [...read, 100] });
          expect(more.standardUncertaintyMl).toBeGreaterThan(few.standardUncertaintyMl);
        },
      ),
    );
  });
});

describe('a reading that cannot be is refused with what to do', () => {
  const cylinder = vessel('cylinder-500');
  it.each<[string, readonly number[], string, RegExp]>([
    ['none', [], 'check.no-volume', /type what it shows/],
    ['no number', [NaN], 'check.volume-not-a-number', /digits/],
    ['endless', [Infinity], 'check.volume-not-a-number', /digits/],
    ['below zero', [-1], 'check.volume-negative', /again/],
    ['beyond the vessel', [501], 'check.volume-beyond-vessel', /each filling/],
    ['one bad filling among good ones', [400, 900], 'check.volume-beyond-vessel', /each filling/],
  ])('%s', (_, readingsMl, code, remedy) => {
    const problem = refused({ vessel: cylinder, readingsMl });
    expect(problem.code).toBe(code);
    const text = describeProblem(problem);
    expect(text.remedy).toMatch(remedy);
    expect(text.message).not.toMatch(/\{/);
  });

  it('an empty and a brimful vessel are readings like any other', () => {
    expect(measured({ vessel: cylinder, readingsMl: [0] }).valueMl).toBe(0);
    expect(measured({ vessel: cylinder, readingsMl: [500] }).valueMl).toBe(500);
  });

  it('a vessel that cannot be right is refused', () => {
    const bad: readonly Partial<Vessel>[] = [
      { capacityMl: 0 },
      { capacityMl: NaN },
      { graduationMl: 0 },
      { graduationMl: 600 },
      { tolerance: { kind: 'mL', halfWidth: -1 } },
      { tolerance: { kind: 'fraction', halfWidth: NaN } },
    ];
    for (const change of bad) {
      expect(refused({ vessel: { ...cylinder, ...change }, readingsMl: [0] }).code).toBe(
        'check.vessel-unfit',
      );
    }
  });

  it('a line that holds less than nothing is refused', () => {
    expect(refused({ vessel: cylinder, readingsMl: [1], lineResidueMl: -1 }).code).toBe('check.line-residue');
  });
});
