import { describe, expect, test } from 'vitest';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { applyDefects, DEFECT_KINDS, type DefectKind } from '../../simulators/engine/defects.ts';
import { emptyVessel, restingEngine, stepEngine } from '../../simulators/engine/engine.ts';
import { between, collectedMl, crankOnce, meanOf, rpmOf, type Instant } from './engine-runs.ts';

const sound = crankOnce(SOUND_ENGINE, 15, 4);
const cranking = between(sound, 2, 15);
const railMPa = ({ engine }: Instant): number => engine.fuel.railPa / 1e6;
const withDefect = (kind: DefectKind, severity: number) => applyDefects(SOUND_ENGINE, [{ kind, severity }]);

describe('a sound engine being cranked', () => {
  test('turns at 100 to 250 rpm (check-values.md E, from memory; a plausibility band)', () => {
    const rpm = cranking.map(({ engine }) => rpmOf(engine));
    expect(Math.min(...rpm)).toBeGreaterThan(100);
    expect(Math.max(...rpm)).toBeLessThan(250);
  });

  test('ripples three times a turn: six cylinders of a four-stroke compress three times (check-values.md E)', () => {
    const rpm = cranking.map(({ engine }) => rpmOf(engine));
    const turns =
      (cranking.at(-1)!.engine.crankshaft.angleRad - cranking[0]!.engine.crankshaft.angleRad) / (2 * Math.PI);
    const peaks = rpm.filter(
      (value, i) => i > 0 && i < rpm.length - 1 && value > rpm[i - 1]! && value >= rpm[i + 1]!,
    );
    expect(peaks.length / turns).toBeCloseTo(3, 1);
    expect(Math.max(...rpm) - Math.min(...rpm)).toBeGreaterThan(10);
  });

  test('pulls a 12 V battery down to 10.5 to 11 V (issue 6, common practice; truck A: 10.70 to 10.75 V)', () => {
    const volts = meanOf(cranking.map(({ engine }) => engine.batteryV));
    expect(volts).toBeGreaterThan(10.5);
    expect(volts).toBeLessThan(11);
  });

  test('holds more than 9.6 V after 15 s, as a good 12 V battery must (US Army TM 10-3930-671-24, check-values.md E)', () => {
    expect(between(sound, 14.9, 15)[0]!.engine.batteryV).toBeGreaterThan(9.6);
  });

  test('recovers its voltage when the starter lets go', () => {
    const before = sound[0]!.engine.parameters.battery.emfV;
    expect(sound.at(-1)!.engine.batteryV).toBeGreaterThan(before - 0.5);
    expect(sound.at(-1)!.engine.starterA).toBe(0);
  });

  test('builds rail pressure within 2 s (issue 6, common practice) but not at once', () => {
    expect(between(sound, 0, 0.3).every((instant) => railMPa(instant) < 25)).toBe(true);
    expect(between(sound, 2, 15).every((instant) => railMPa(instant) > 78)).toBe(true);
  });

  test('stands on the plateau of the test valve: 80 MPa and at most 3 MPa of slope', () => {
    const plateau = cranking.map(railMPa);
    expect(Math.min(...plateau)).toBeGreaterThan(80);
    expect(Math.max(...plateau)).toBeLessThan(83);
  });

  test('lets the pressure down slowly afterwards', () => {
    const after = between(sound, 15.5, 19).map(railMPa);
    expect(after.every((value, i) => i === 0 || value <= after[i - 1]!)).toBe(true);
    expect(after.at(-1)!).toBeGreaterThan(40);
  });

  test('has low supply pressure in the first second, as truck A has (40 kPa a second after the first turn)', () => {
    const early = between(sound, 0.9, 1)[0]!.engine.fuel.supply.galleryPa;
    expect(early).toBeGreaterThan(20_000);
    expect(early).toBeLessThan(150_000);
    expect(cranking.at(-1)!.engine.fuel.supply.galleryPa).toBeGreaterThan(early);
  });

  test('stops within a second of letting go', () => {
    expect(between(sound, 16, 19).every(({ engine }) => rpmOf(engine) === 0)).toBe(true);
  });

  test('drips into the vessel for a while after it has stopped, then no more', () => {
    const [atRelease, later, last] = [15, 17.5, 18.9].map((s) =>
      collectedMl(between(sound, s, s + 0.1)[0]!.engine),
    );
    expect(later! - atRelease!).toBeGreaterThan(2);
    expect(last! - later!).toBeLessThan(0.3);
  });

  test('does nothing with the starter on and the key off', () => {
    const state = stepEngine(restingEngine(SOUND_ENGINE), { keyOn: false, starterOn: true }, 0.01);
    expect(state.crankshaft.speedRadS).toBe(0);
    expect(state.starterA).toBe(0);
  });
});

describe('what the person can do with the vessel', () => {
  test('emptying it moves what was in it out of the account and lets it fill again', () => {
    const full = sound.at(-1)!.engine;
    const empty = emptyVessel(full);
    expect(collectedMl(empty)).toBeCloseTo(0.3, 6); // a film stays at the glass
    expect(empty.fuel.mass.emptied).toBeCloseTo(full.fuel.mass.vessel - empty.fuel.mass.vessel, 12);
  });

  test('a full vessel runs over and stays full', () => {
    const long = crankOnce({ ...SOUND_ENGINE, vesselCapacityM3: 5e-5 }, 8).at(-1)!.engine;
    expect(collectedMl(long)).toBeCloseTo(50, 6);
    expect(long.fuel.mass.spilled).toBeGreaterThan(0.02);
  });
});

describe('what delivery depends on', () => {
  const perTurnMl = (parameters: typeof SOUND_ENGINE): number => {
    const run = between(crankOnce(parameters, 8, 0), 3, 8);
    const turns =
      (run.at(-1)!.engine.crankshaft.angleRad - run[0]!.engine.crankshaft.angleRad) / (2 * Math.PI);
    return (collectedMl(run.at(-1)!.engine) - collectedMl(run[0]!.engine)) / turns;
  };
  const healthy = perTurnMl(SOUND_ENGINE);
  const worn = withDefect('worn pump elements', 0.66);

  test('at one speed: healthy gives more than worn, worn more than leaking', () => {
    expect(healthy).toBeGreaterThan(perTurnMl(worn) + 0.3);
    expect(perTurnMl(worn)).toBeGreaterThan(perTurnMl(withDefect('leaking outlet check valve', 0.6)) + 0.3);
  });

  test('delivery per turn falls with speed, since the leak has more time', () => {
    expect(perTurnMl(withDefect('corroded starter cable', 1))).toBeLessThan(healthy - 0.02);
  });

  test('warm fuel leaks more past worn plungers than cold', () => {
    expect(perTurnMl({ ...worn, fuelTemperatureC: 60 })).toBeLessThan(
      perTurnMl({ ...worn, fuelTemperatureC: 10 }) - 0.2,
    );
  });

  test('a weak supply pump fills the elements badly', () => {
    expect(perTurnMl(withDefect('weak supply pump', 0.8))).toBeLessThan(healthy - 0.3);
  });
});

describe('defects as data', () => {
  test.each(DEFECT_KINDS)('%s of severity 0 changes nothing', (kind) => {
    expect(applyDefects(SOUND_ENGINE, [{ kind, severity: 0 }])).toEqual(SOUND_ENGINE);
  });

  const STARVING: readonly DefectKind[] = [
    'clogged filter',
    'suction restriction',
    'air leak',
    'weak supply pump',
    'sticking metering valve',
    'cracked metering housing',
    'worn pump elements',
    'one element dead',
    'leaking outlet check valve',
    'leaking rail relief valve',
    'weak battery',
    'corroded starter cable',
    'high cranking drag',
  ];

  test.each(STARVING)('%s collects less the worse it is', (kind) => {
    const collected = [0, 0.3, 0.6, 1].map((s) =>
      collectedMl(crankOnce(withDefect(kind, s), 6, 2).at(-1)!.engine),
    );
    expect(collected[1]!).toBeLessThan(collected[0]!);
    expect(collected[2]!).toBeLessThan(collected[1]!);
    expect(collected[3]!).toBeLessThan(collected[2]!);
  });

  test('severity beyond 1 counts as 1 and below 0 as 0', () => {
    expect(withDefect('weak battery', 7)).toEqual(withDefect('weak battery', 1));
    expect(withDefect('weak battery', -7)).toEqual(SOUND_ENGINE);
  });

  test('two defects combine whatever their order', () => {
    const pair = [
      { kind: 'worn pump elements', severity: 0.5 },
      { kind: 'weak battery', severity: 0.5 },
    ] as const;
    expect(applyDefects(SOUND_ENGINE, pair)).toEqual(applyDefects(SOUND_ENGINE, pair.toReversed()));
  });
});

describe('coming to rest', () => {
  // measurement.md 2: a stopping engine falls through 400 to 50 rpm and may bounce
  const stopsAt = (seconds: number) => crankOnce(SOUND_ENGINE, seconds, 2);

  test('the crankshaft is thrown back by a compression it did not get over, in some stops, and then stands', () => {
    const thrown = [3, 3.05, 3.1, 3.15, 3.2, 3.25].map((seconds) => {
      const run = stopsAt(seconds);
      expect(run.at(-1)!.engine.crankshaft.speedRadS).toBe(0);
      return Math.min(...run.map(({ engine }) => rpmOf(engine)));
    });
    expect(Math.min(...thrown)).toBeLessThan(-3);
    expect(Math.min(...thrown)).toBeGreaterThan(-60);
  });

  test('what a speed sensor counts never goes back', () => {
    const travel = stopsAt(3).map(({ engine }) => engine.crankshaft.travelRad);
    expect(travel.every((angle, i) => i === 0 || angle >= travel[i - 1]!)).toBe(true);
  });

  test('no fuel comes out of the pump backwards', () => {
    const mass = stopsAt(3.1).map(({ engine }) => engine.fuel.mass.drawn);
    expect(mass.every((kg, i) => i === 0 || kg >= mass[i - 1]!)).toBe(true);
  });
});
