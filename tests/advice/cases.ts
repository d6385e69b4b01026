import { chanceFrom, nextChance, uniform } from '../../simulators/chance.ts';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import type { AdviceCase } from './work-job.ts';

/** Below this a driver would hardly notice: most checks pass, as on a sound engine. */
const LEAST_SEVERITY = 0.5;

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
