import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { AT_REST, stepCrankshaft } from '../../simulators/engine/crankshaft.ts';
import { SOUND_ENGINE, type EngineParameters } from '../../simulators/engine/engine-parameters.ts';
import { restingFuelPath, stepFuelPath, type FuelPath } from '../../simulators/engine/fuel-path.ts';
import { densityKgM3, stiffnessAt } from '../../simulators/engine/fluid.ts';
import { fuelBalance } from '../../simulators/engine/fuel-masses.ts';
import { railMassKg } from '../../simulators/engine/rail.ts';
import { AS_DRIVEN, DELIVERY_TEST_RIG } from '../../simulators/engine/rig.ts';
import { starterAt, stepPolarisation } from '../../simulators/engine/starter.ts';

/** Solved by SciPy on the same equations, in continuous time: see solve_bench_equations.py, which wrote this table. */
interface Table {
  readonly parameters: Partial<EngineParameters>;
  readonly 'cranked with the test valve': FuelCase;
  readonly 'running at idle': FuelCase;
  readonly standing: FuelCase;
  readonly starter: readonly StarterRow[];
}
interface FuelCase {
  readonly drive: {
    readonly speed: number;
    readonly opening: number;
    readonly burnt: number;
    readonly test_valve: boolean;
    readonly running: boolean;
  };
  readonly railPa: number;
  readonly rows: readonly FuelRow[];
}
interface FuelRow {
  readonly seconds: number;
  readonly galleryPa: number;
  readonly suctionPa: number;
  readonly railPa: number;
  readonly temperatureC: number;
  readonly deliveryKg: number;
  readonly drawnKg: number;
  readonly pumpReturnKg: number;
}
interface StarterRow {
  readonly seconds: number;
  readonly angleRad: number;
  readonly speedRadS: number;
  readonly polarisationV: number;
}

const table = JSON.parse(readFileSync(new URL('scipy-values.json', import.meta.url), 'utf8')) as Table;
const engine: EngineParameters = { ...SOUND_ENGINE, ...table.parameters };
/** The bench's own step. */
const DT = 0.002;

/** The fuel path at rest, but with pressure in the rail. */
function startAt(railPa: number): FuelPath {
  const path = restingFuelPath(engine);
  const rail = {
    volumeM3: engine.rail.volumeM3,
    stiffness: stiffnessAt(engine.rail.stiffness, path.temperatureC),
    densityKgM3: densityKgM3(path.temperatureC),
  };
  const kg = railMassKg(rail, railPa);
  const brought = path.mass.brought + kg - path.mass.rail;
  return { ...path, railPa, mass: { ...path.mass, rail: kg, brought } };
}

/** What the simulator's fixed steps give at the instants of the table. */
function played({ drive, railPa, rows }: FuelCase): FuelRow[] {
  const rig = drive.test_valve ? DELIVERY_TEST_RIG : AS_DRIVEN;
  let path = startAt(railPa);
  let pumpReturnKg = 0;
  let deliveryKg = 0;
  let step = 0;
  return rows.map(({ seconds }) => {
    for (; step < Math.round(seconds / DT); step += 1) {
      const density = densityKgM3(path.temperatureC);
      path = stepFuelPath(
        engine,
        path,
        {
          fromRad: drive.speed * DT * step,
          toRad: drive.speed * DT * (step + 1),
          speedRadS: drive.speed,
          burntKgS: drive.burnt,
          running: drive.running,
          opening: drive.opening,
          rig,
        },
        DT,
      );
      pumpReturnKg += path.lines.pumpM3S * density * DT;
      deliveryKg += path.lines.deliveryM3S * density * DT;
      expect(Math.abs(fuelBalance(path.mass))).toBeLessThan(1e-9);
    }
    const galleryPa = path.supply.galleryPa;
    const { suctionPa } = path.supply;
    const { temperatureC, mass } = path;
    return {
      seconds,
      galleryPa,
      suctionPa,
      railPa: path.railPa,
      temperatureC,
      deliveryKg,
      drawnKg: mass.drawn,
      pumpReturnKg,
    };
  });
}

/** Off by at most so much of the value, or of the given floor. */
function expectNear(found: number, wanted: number, share: number, floor: number): void {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(share * Math.max(Math.abs(wanted), floor));
}

describe.each(['cranked with the test valve', 'running at idle', 'standing'] as const)(
  'the fuel path %s, against solve_ivp',
  (name) => {
    const found = played(table[name]);
    test.each(table[name].rows.map((row, place) => [row.seconds, row, found[place]!] as const))(
      'after %d s',
      (_seconds, wanted, is) => {
        expectNear(is.railPa, wanted.railPa, 0.006, 5e6);
        expectNear(is.galleryPa, wanted.galleryPa, 0.003, 5e4);
        expectNear(is.suctionPa, wanted.suctionPa, 0.003, 500);
        expectNear(is.temperatureC, wanted.temperatureC, 1e-5, 1);
        expectNear(is.drawnKg, wanted.drawnKg, 0.003, 0.001);
        expectNear(is.pumpReturnKg, wanted.pumpReturnKg, 0.005, 0.001);
        expectNear(is.deliveryKg, wanted.deliveryKg, 0.005, 0.005);
      },
    );
  },
);

describe('battery, starter and crankshaft, against solve_ivp', () => {
  let crank = AT_REST;
  let polarisationV = 0;
  let step = 0;
  const found = table.starter.map(({ seconds }) => {
    for (; step < Math.round(seconds / DT); step += 1) {
      const { torqueNm, currentA } = starterAt(engine, true, crank.speedRadS, polarisationV);
      crank = stepCrankshaft(engine.crankshaft, crank, torqueNm, DT);
      polarisationV = stepPolarisation(engine, polarisationV, currentA, DT);
    }
    return { seconds, ...crank, polarisationV };
  });

  test.each(table.starter.map((row, place) => [row.seconds, row, found[place]!] as const))(
    'after %d s of cranking',
    (_seconds, wanted, is) => {
      expect(Math.abs(is.angleRad - wanted.angleRad)).toBeLessThan(0.052); // 3 degrees
      expectNear(is.speedRadS, wanted.speedRadS, 0.01, 10);
      expectNear(is.polarisationV, wanted.polarisationV, 0.002, 0.01);
    },
  );
});
