import type { Defect } from '../../simulators/engine/defects.ts';
import { DECISIONS, type Decision } from '../jobs/job-entry.ts';
import type { JobValues } from '../jobs/job-values.ts';
import { causeOf } from '../procedures/library.ts';
import type { Procedure } from '../procedures/procedure.ts';
import type { StationId } from '../procedures/station.ts';
import { DEFECT_FACTS, PLAIN_SEVERITY } from './defect-facts.ts';
import { namedCause } from './named-cause.ts';

/** How what was concluded stands beside what was wrong. `open`: the words cannot be compared by a program. */
export const MATCHES = ['right', 'partly', 'wrong', 'not named', 'open'] as const;
export type Match = (typeof MATCHES)[number];

export interface Compared {
  readonly cause: Match;
  readonly station: Match;
  /** `not named`: nothing was decided. */
  readonly decision: Extract<Match, 'right' | 'wrong' | 'not named'>;
  readonly decided: Decision | null;
  /** The decisions that are right for this engine. */
  readonly rightDecisions: readonly Decision[];
  /** What was written down as the cause; empty where nothing was. */
  readonly words: string;
}

/**
 * The conclusion of a job beside the truth. A cause counts as named in the words of the conclusion, or by work against it that stands. With two defects,
 * one of them named is `partly`. Where nothing was wrong, naming nothing is right. Given up, nothing is named.
 */
export function compareConclusion(
  procedure: Procedure,
  { conclusion, works }: Pick<JobValues, 'conclusion' | 'works'>,
  defects: readonly Defect[],
): Compared {
  const rightDecisions = rightDecisionsFor(defects);
  const words = conclusion?.cause ?? '';
  const common = { rightDecisions, words, decided: conclusion?.decision ?? null };
  if (!conclusion) return { ...common, cause: 'not named', station: 'not named', decision: 'not named' };
  const named = namedCause(procedure, words);
  const worked = works.flatMap(({ cause }) => (cause === null ? [] : [cause]));
  const isUnread = words !== '' && named.causes.length === 0;
  return {
    ...common,
    cause: isUnread && worked.length === 0 ? 'open' : matchCauses(defects, named.causes, worked),
    station: matchStations(procedure, defects, named.stations, { worked, isUnread }),
    decision: rightDecisions.includes(conclusion.decision) ? 'right' : 'wrong',
  };
}

/** Nothing wrong, or only with the measuring: elsewhere. What hardly shows may run on and be watched. */
export function rightDecisionsFor(defects: readonly Defect[]): readonly Decision[] {
  const ofEngine = defects.filter(({ kind }) => !DEFECT_FACTS[kind].ofMeasuring);
  if (defects.length === 0) return ['look elsewhere'];
  if (ofEngine.length === 0) return ['look elsewhere', 'repair now'];
  const isMild = ofEngine.every(({ severity }) => severity < PLAIN_SEVERITY);
  return DECISIONS.filter((each) => each === 'repair now' || (isMild && each === 'run on and watch'));
}

/** Work is an attempt: a wrong one before the right one does not make the words wrong, so it only adds. */
function matchCauses(defects: readonly Defect[], named: readonly string[], worked: readonly string[]): Match {
  const isHit = ({ kind }: Defect) =>
    DEFECT_FACTS[kind].causes.some((id) => named.includes(id) || worked.includes(id));
  const isNamed = (id: string) => defects.some(({ kind }) => DEFECT_FACTS[kind].causes.includes(id));
  return verdictOf({
    hits: defects.filter(isHit).length,
    wanted: defects.length,
    named: named.length > 0 || (defects.length > 0 && worked.length > 0),
    beside: named.some((id) => !isNamed(id)),
  });
}

function matchStations(
  procedure: Procedure,
  defects: readonly Defect[],
  named: readonly StationId[],
  { worked, isUnread }: { readonly worked: readonly string[]; readonly isUnread: boolean },
): Match {
  const own = defects.map((defect) => stationsOf(procedure, defect));
  const at = [...named, ...worked.flatMap((id) => causeOf(procedure, id)?.station ?? [])];
  if (isUnread && at.length === 0) return 'open';
  return verdictOf({
    hits: own.filter((stations) => stations.some((station) => at.includes(station))).length,
    wanted: defects.length,
    named: named.length > 0 || (defects.length > 0 && at.length > 0),
    beside: named.some((station) => !own.some((stations) => stations.includes(station))),
  });
}

/** Where a defect lies on the fuel path, by its causes; the likeliest first. */
export const stationsOf = (procedure: Procedure, { kind }: Defect): readonly StationId[] => [
  ...new Set(DEFECT_FACTS[kind].causes.flatMap((id) => causeOf(procedure, id)?.station ?? [])),
];

interface Tally {
  readonly hits: number;
  readonly wanted: number;
  readonly named: boolean;
  /** Something was named that was not wrong. */
  readonly beside: boolean;
}

function verdictOf({ hits, wanted, named, beside }: Tally): Match {
  if (wanted === 0) return named ? 'wrong' : 'right';
  if (!named) return 'not named';
  if (hits === 0) return 'wrong';
  return hits === wanted && !beside ? 'right' : 'partly';
}
