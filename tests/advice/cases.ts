import { chanceFrom, nextChance, uniform } from '../../simulators/chance.ts';
import { DEFECT_KINDS, type DefectKind } from '../../simulators/engine/defects.ts';
import type { AdviceCase } from './work-job.ts';

/** Below this a driver would hardly notice: most checks pass, as on a sound engine. */
const LEAST_SEVERITY = 0.5;

/** What the procedure calls each defect. A set of filters that is clogged on both sides is named by either. */
export const CAUSES_OF: Readonly<Record<DefectKind, readonly string[]>> = {
  'clogged filter': ['clogged-filter', 'clogged-pressure-filter'],
  'suction restriction': ['suction-restriction'],
  'air leak': ['air-leak'],
  'weak supply pump': ['weak-supply-pump'],
  'sticking metering valve': ['sticking-metering-valve'],
  'cracked metering housing': ['cracked-metering-housing'],
  'worn pump elements': ['worn-elements'],
  'one element dead': ['dead-element'],
  'leaking outlet check valve': ['leaking-outlet-valve'],
  'leaking rail relief valve': ['leaking-relief-valve'],
  'high injector return': ['high-injector-return'],
  'weak battery': ['weak-battery'],
  'corroded starter cable': ['weak-battery'],
  'high cranking drag': ['cranking-drag'],
  'noisy rail sensor': ['rail-sensor'],
  'stuck rail sensor': ['rail-sensor'],
  'dropped frames': ['bridge-cable'],
  'loose bridge cable': ['bridge-cable'],
};

/** So many engines, each with one defect of random kind and severity (0.5 to 1, even). The same number gives the same engines. */
export function adviceCases(count: number, seed: number): readonly AdviceCase[] {
  let chance = chanceFrom(seed);
  const drawn = (): number => {
    chance = nextChance(chance);
    return uniform(chance);
  };
  return Array.from({ length: count }, (_, place) => ({
    seed: place,
    defect: {
      kind: DEFECT_KINDS[Math.floor(drawn() * DEFECT_KINDS.length)]!,
      severity: LEAST_SEVERITY + (1 - LEAST_SEVERITY) * drawn(),
    },
  }));
}
