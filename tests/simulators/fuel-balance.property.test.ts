import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { obeyCommand, type BenchCommand } from '../../simulators/bench-command.ts';
import { createBench } from '../../simulators/bench.ts';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { stepEngine } from '../../simulators/engine/engine.ts';
import { fuelBalance, type FuelMasses } from '../../simulators/engine/fuel-masses.ts';
import { PARTS } from '../../simulators/engine/parts.ts';
import { VESSEL_LINES } from '../../simulators/engine/rig.ts';
import { JOB_SCENARIOS, SCENARIOS } from '../../simulators/scenarios.ts';

const command: fc.Arbitrary<BenchCommand> = fc.oneof(
  fc.record({
    kind: fc.constant('key' as const),
    at: fc.constantFrom('off' as const, 'on' as const, 'crank' as const),
  }),
  fc.constant({ kind: 'key' as const, at: 'crank' as const }),
  fc.record({
    kind: fc.constant('pedal' as const),
    at: fc.constantFrom('idle' as const, 'high idle' as const, 'load' as const),
  }),
  fc.record({ kind: fc.constant('raise rail' as const), on: fc.boolean() }),
  fc.record({ kind: fc.constantFrom('rail ports' as const, 'injection' as const), blocked: fc.boolean() }),
  fc.record({ kind: fc.constant('test valve' as const), fitted: fc.boolean() }),
  fc.record({ kind: fc.constant('line' as const), into: fc.constantFrom(null, ...VESSEL_LINES) }),
  fc.record({ kind: fc.constant('replace' as const), part: fc.constantFrom(...PARTS) }),
  fc.constantFrom({ kind: 'empty vessel' as const }, { kind: 'prime' as const }),
);
const act = fc.record({
  commands: fc.array(command, { maxLength: 4 }),
  steps: fc.integer({ min: 1, max: 900 }),
});
const defects = fc.array(
  fc.record({ kind: fc.constantFrom(...DEFECT_KINDS), severity: fc.double({ min: 0, max: 1, noNaN: true }) }),
  { maxLength: 3 },
);
/** What has flowed out never comes back. */
const FLOWS = ['drawn', 'returned', 'burnt', 'spilled', 'emptied'] as const;

/** Whether no mass was made or lost, and all masses are possible ones, after a step. */
function holds(now: FuelMasses, before: FuelMasses): boolean {
  const stored = now.gallery + now.rail + now.line + now.vessel;
  const out = now.returned + now.burnt + now.spilled + now.emptied;
  const missing = now.brought + now.drawn - out - stored;
  if (!(Math.abs(missing) <= 1e-9 * (now.brought + now.drawn))) return false;
  if (!FLOWS.every((flow) => now[flow] >= before[flow])) return false;
  return now.brought === before.brought && now.vessel >= 0 && now.line >= 0 && now.rail > 0;
}

describe('fuel', () => {
  test.each([...SCENARIOS, ...JOB_SCENARIOS].map((scenario) => [scenario.id, scenario] as const))(
    'in %s what goes in is what goes out and what is stored, to 1e-9, in every step, whatever is done',
    (_id, scenario) => {
      fc.assert(
        fc.property(fc.array(act, { minLength: 1, maxLength: 8 }), defects, (acts, more) => {
          let bench = createBench({ ...scenario, defects: [...scenario.defects, ...more] }, 1);
          for (const { commands, steps } of acts) {
            for (const each of commands) {
              const before = bench.engine.fuel.mass;
              bench = obeyCommand(bench, each);
              if (!holds(bench.engine.fuel.mass, before)) return false;
            }
            const { key, pedal, raiseRail } = bench;
            const inputs = { keyOn: key !== 'off', starterOn: key === 'crank', pedal, raiseRail };
            let { engine } = bench;
            for (let step = 0; step < steps; step += 1) {
              const before = engine.fuel.mass;
              engine = stepEngine(engine, inputs, 0.002);
              if (!holds(engine.fuel.mass, before)) return false;
            }
            bench = { ...bench, engine };
          }
          const { fuel, crankshaft } = bench.engine;
          return Number.isFinite(fuel.railPa) && fuel.railPa < 220e6 && Number.isFinite(crankshaft.speedRadS);
        }),
        { numRuns: 12, seed: 20260101 },
      );
    },
  );

  test('a gram that is lost is noticed', () => {
    const { mass } = createBench(SCENARIOS[0]!, 1).engine.fuel;
    expect(Math.abs(fuelBalance(mass))).toBeLessThan(1e-12);
    expect(fuelBalance({ ...mass, rail: mass.rail - 1e-3 }) * mass.brought).toBeCloseTo(1e-3, 9);
    expect(holds({ ...mass, rail: mass.rail - 1e-9 }, mass)).toBe(false);
  });
});
