import { PARTS_OF, type Part } from '../../simulators/engine/parts.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import type { BenchScenario } from '../../simulators/scenarios.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import { causeOf, checkOf } from '../procedures/library.ts';
import type { Cause, Procedure, ProcedureCheck } from '../procedures/procedure.ts';
import { STATION_IDS } from '../procedures/station.ts';
import { rankCauses } from '../procedures/suspicion.ts';
import { whatNext } from '../procedures/what-next.ts';
import { cheapestClosed, closureOf } from './cheapest-closed.ts';
import { minutesOf, PART_COSTS } from './costs.ts';
import { DEFECT_FACTS } from './defect-facts.ts';
import { expectedFinding } from './expected-finding.ts';
import { partAgainst } from './part-of-work.ts';

/** One step of the shortest way. `again` marks a check that is repeated, or done first, because of the repair before it. */
export type ShortStep =
  | {
      readonly kind: 'check';
      readonly checkId: string;
      readonly runs: number;
      readonly again: boolean;
      readonly minutes: number;
    }
  | {
      readonly kind: 'work';
      readonly part: Part;
      readonly causeId: string;
      readonly minutes: number;
      readonly points: number;
    };

export interface ShortestPath {
  readonly steps: readonly ShortStep[];
  readonly minutes: number;
  readonly points: number;
}

/**
 * The cheapest way through the procedure, by the book. For each defect, from the tank on: of the checks that speak for it, and those that must come
 * before them, the cheapest choice after which the procedure itself says to repair (or has nothing failing left to say) and ranks a cause first whose part
 * carries the defect (second, where no choice brings it to the first place); then that part; then the checks that the repair asks for. What was done for the first defect is not done again for the
 * second. Without a defect: the last check of the procedure, which verifies, and what comes before it. Results are those of `expectedFinding`, not of
 * the bench: a mild defect may show less, and then the book's way is too short.
 */
export function shortestPath(procedure: Procedure, scenario: BenchScenario): ShortestPath {
  const { defects } = scenario;
  const ordered = defects.toSorted((a, b) => placeOf(procedure, a) - placeOf(procedure, b));
  const steps = ordered.reduce<readonly ShortStep[]>(
    (before, defect) => [...before, ...wayTo(book(procedure, defect, scenario), before)],
    defects.length === 0 ? verifying(procedure) : [],
  );
  return {
    steps,
    minutes: steps.reduce((sum, { minutes }) => sum + minutes, 0),
    points: steps.reduce((sum, step) => sum + (step.kind === 'work' ? step.points : 0), 0),
  };
}

const causesOf = (procedure: Procedure, { kind }: Defect): readonly Cause[] =>
  DEFECT_FACTS[kind].causes.flatMap((id) => causeOf(procedure, id) ?? []);

const placeOf = (procedure: Procedure, defect: Defect): number =>
  Math.min(
    ...causesOf(procedure, defect).map(({ station }) => STATION_IDS.indexOf(station)),
    STATION_IDS.length,
  );

function verifying(procedure: Procedure): readonly ShortStep[] {
  const last = procedure.checks.at(-1);
  return last ? checkSteps(closureOf(procedure, [last.id]), false) : [];
}

/** What each check gives where this defect is the one thing wrong. */
interface Book {
  readonly procedure: Procedure;
  readonly defect: Defect;
  readonly findings: ReadonlyMap<string, CheckFinding>;
}

const book = (procedure: Procedure, defect: Defect, scenario: BenchScenario): Book => ({
  procedure,
  defect,
  findings: new Map(procedure.checks.map((check) => [check.id, expectedFinding(check, defect, scenario)])),
});

const findingsIn = ({ findings }: Book, checks: readonly ProcedureCheck[]): readonly CheckFinding[] =>
  checks.flatMap(({ id }) => findings.get(id) ?? []);

function wayTo(known: Book, before: readonly ShortStep[]): readonly ShortStep[] {
  const { procedure, findings } = known;
  const done = new Set(before.flatMap((step) => (step.kind === 'check' ? [step.checkId] : [])));
  const speaking = procedure.checks.map(({ id }) => id).filter((id) => findings.get(id)?.word !== 'pass');
  const checks = closureOf(procedure, speaking);
  const costOf = (check: ProcedureCheck) => (done.has(check.id) ? 0 : minutesOf(check, check.runsNeeded));
  const enoughAt = (place: number) =>
    cheapestClosed({ checks, costOf, enough: (chosen) => leadsToIt(known, chosen, place) });
  const wanted = enoughAt(0) ?? enoughAt(1) ?? checks;
  const led = [...new Set([...done, ...wanted.map(({ id }) => id)])];
  const repair = repairOf(known, wanted);
  return [
    ...checkSteps(
      wanted.filter(({ id }) => !done.has(id)),
      false,
    ),
    ...(repair ? [repair.step, ...checkSteps(askedAfter(procedure, repair.cause, led), true)] : []),
  ];
}

const checkSteps = (checks: readonly ProcedureCheck[], again: boolean): readonly ShortStep[] =>
  checks.map((check) => ({
    kind: 'check',
    checkId: check.id,
    runs: check.runsNeeded,
    again,
    minutes: minutesOf(check, check.runsNeeded),
  }));

/**
 * The evidence rule: the cause at this place of the ranking (0 is the first) has something that speaks for it and a part that carries the
 * defect, and no open check is wanted before the repair.
 */
function leadsToIt(known: Book, chosen: readonly ProcedureCheck[], place: number): boolean {
  const { procedure, defect } = known;
  const findings = findingsIn(known, chosen);
  const ranked = rankCauses(procedure, findings)[place];
  const part = ranked ? partOfCause(procedure, ranked.causeId) : null;
  if (!ranked || ranked.because.length === 0 || part === null) return false;
  if (!PARTS_OF[defect.kind].includes(part)) return false;
  return !findings.some(isFailing) || whatNext(procedure, findings).step === 'repair';
}

const isFailing = ({ word }: CheckFinding): boolean => word === 'fail low' || word === 'fail high';

function partOfCause(procedure: Procedure, id: string): Part | null {
  const cause = causeOf(procedure, id);
  return cause ? partAgainst(cause.id, cause.station) : null;
}

/** The repair against the first-ranked cause that is one of the defect's; against its likeliest where the way could not tell. */
function repairOf(known: Book, chosen: readonly ProcedureCheck[]) {
  const { procedure, defect } = known;
  const findings = findingsIn(known, chosen);
  const own = causesOf(procedure, defect);
  const ranked = rankCauses(procedure, findings).map(({ causeId }) => causeId);
  const cause = own.toSorted((a, b) => ranked.indexOf(a.id) - ranked.indexOf(b.id))[0];
  const part = cause ? partAgainst(cause.id, cause.station) : null;
  if (!cause || part === null) return null;
  const step: ShortStep = { kind: 'work', part, causeId: cause.id, ...PART_COSTS[part] };
  return { cause, step };
}

/** What the repair asks for: the cause's own list with what must come before, and of the checks that were done those that the station touches. */
function askedAfter(procedure: Procedure, cause: Cause, done: readonly string[]): readonly ProcedureCheck[] {
  const touched = done.filter((id) => checkOf(procedure, id)?.repeatAfter.includes(cause.station));
  const asked = new Set([...touched, ...cause.repeat]);
  const needed = closureOf(procedure, [...asked]);
  return needed.filter(({ id }) => asked.has(id) || !done.includes(id));
}
