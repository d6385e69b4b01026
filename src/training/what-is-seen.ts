import { lookAround } from '../../simulators/looks.ts';
import type { BenchScenario } from '../../simulators/scenarios.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

/** What somebody who looks at one point of an inspection finds on the simulated engine. Whether that is in order is for the trainee to say. */
export interface Sight {
  readonly point: string;
  readonly words: string;
  /** For the reckoning at the end only. */
  readonly inOrder: boolean;
}

/** What is found at each point of an inspection on this engine, the same each time; empty for other kinds of check. */
export function sightsOf(
  { id, settings }: Pick<ProcedureCheck, 'id' | 'settings'>,
  scenario: BenchScenario,
): readonly Sight[] {
  if (settings.kind !== 'inspection') return [];
  const look = lookAround(scenario, scenario.seed, id);
  return settings.points.map((point) => ({ point: point.id, ...look(point.id) }));
}
