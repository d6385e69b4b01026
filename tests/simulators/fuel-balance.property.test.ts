import fc from 'fast-check';
import { describe, test } from 'vitest';
import { applyDefects, DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { emptyVessel, restingEngine, stepEngine } from '../../simulators/engine/engine.ts';
import { engineOf, SCENARIOS } from '../../simulators/scenarios.ts';

const act = fc.record({
  keyOn: fc.boolean(),
  starterOn: fc.boolean(),
  emptyVessel: fc.boolean(),
  steps: fc.integer({ min: 1, max: 800 }),
});
const defects = fc.array(
  fc.record({ kind: fc.constantFrom(...DEFECT_KINDS), severity: fc.double({ min: 0, max: 1, noNaN: true }) }),
  {
    maxLength: 3,
  },
);

describe('fuel', () => {
  test.each(SCENARIOS.map((scenario) => [scenario.id, scenario] as const))(
    'in %s what goes in is what goes out and what is stored, to 1e-9, in every step',
    (_id, scenario) => {
      fc.assert(
        fc.property(fc.array(act, { minLength: 1, maxLength: 8 }), defects, (acts, more) => {
          const parameters = applyDefects(engineOf(scenario), more);
          let engine = restingEngine(parameters, scenario.rig);
          for (const { steps, emptyVessel: pour, ...inputs } of acts) {
            if (pour) engine = emptyVessel(engine);
            for (let step = 0; step < steps; step += 1) {
              const before = engine.fuel.mass;
              engine = stepEngine(engine, inputs, 0.002);
              const now = engine.fuel.mass;
              const stored = now.gallery + now.rail + now.line + now.vessel;
              const out = now.returned + now.burnt + now.spilled + now.emptied;
              const missing = now.brought + now.drawn - out - stored;
              if (!(Math.abs(missing) <= 1e-9 * (now.brought + now.drawn))) return false;
              const flows = ['drawn', 'returned', 'burnt', 'spilled', 'emptied'] as const;
              if (!flows.every((flow) => now[flow] >= before[flow])) return false;
              if (now.vessel < 0 || now.line < 0 || now.rail <= 0) return false;
            }
          }
          return Number.isFinite(engine.fuel.railPa) && Number.isFinite(engine.crankshaft.speedRadS);
        }),
        { numRuns: 12, seed: 20260101 },
      );
    },
  );
});
