import type { CheckFinding } from './finding.ts';
import { standsFirm } from './order.ts';
import type { Procedure, ProcedureCheck } from './procedure.ts';
import { STATION_IDS, STATIONS, type StationId } from './station.ts';

/** What is known of a station. */
export type StationState =
  'not checked' | 'cleared' | 'suspect' | 'fails' | 'open question' | 'to be repeated';

export interface PathStation {
  readonly station: StationId;
  readonly state: StationState;
  /** The checks that say so. */
  readonly checkIds: readonly string[];
  readonly sentence: string;
}

interface Said {
  readonly check: ProcedureCheck;
  readonly finding: CheckFinding;
}

/**
 * The stations from tank to injectors with what the findings say of each. Where checks contradict each other the one that speaks for fewer
 * stations holds: a final drive that fails does not take back what the supply pressure cleared.
 */
export function fuelPath(procedure: Procedure, findings: readonly CheckFinding[]): readonly PathStation[] {
  const said = findings.flatMap((finding): Said[] => {
    const check = procedure.checks.find(({ id }) => id === finding.checkId);
    return check && finding.word !== null ? [{ check, finding }] : [];
  });
  return STATION_IDS.map((station) => stationOf(procedure, station, said));
}

function stationOf(procedure: Procedure, station: StationId, all: readonly Said[]): PathStation {
  const here = all.filter(({ check }) => check.stations.includes(station));
  const spoke = (some: readonly Said[], state: StationState, words: string): PathStation => ({
    station,
    state,
    checkIds: some.map(({ check }) => check.id),
    sentence: `${STATIONS[station].name}: ${words}${some.length > 0 ? ` (${titles(some)})` : ''}.`,
  });
  const again = here.filter(({ finding }) => finding.repeatBecause !== null);
  if (again.length > 0) return spoke(again, 'to be repeated', 'work was done, the checks are to be repeated');
  const failing = here.filter((each) => isFailing(each) && blames(procedure, each, station));
  const clearing = here.filter(
    ({ check, finding }) => finding.word === 'pass' && standsFirm(finding) && check.clears.includes(station),
  );
  const narrow = narrowest(clearing);
  const blaming = failing.filter(({ check }) => check.stations.length <= narrow);
  const alone = blaming.filter((each) => pointsAt(procedure, each, station));
  if (alone.length > 0) return spoke(alone, 'fails', 'a check that speaks for it alone failed');
  if (blaming.length > 0) return spoke(blaming, 'suspect', 'the loss may lie here');
  if (clearing.length > 0) return spoke(clearing, 'cleared', 'in order');
  const open = here.filter(({ finding }) => !standsFirm(finding));
  if (open.length > 0) return spoke(open, 'open question', 'not settled yet');
  const passed = here.filter(({ finding }) => finding.word === 'pass');
  return passed.length > 0
    ? spoke(passed, 'not checked', 'nothing against it so far, but not cleared')
    : spoke([], 'not checked', 'nothing is known yet');
}

const isFailing = ({ finding }: Said): boolean =>
  standsFirm(finding) && ['fail low', 'fail high', 'marginal'].includes(finding.word ?? '');

const narrowest = (some: readonly Said[]): number =>
  Math.min(Infinity, ...some.map(({ check }) => check.stations.length));

/** The failing check names a cause at this station, or saw one there. */
function blames(procedure: Procedure, { check, finding }: Said, station: StationId): boolean {
  const { word, causes } = finding;
  const named =
    word === 'fail low' || word === 'fail high' || word === 'marginal' ? check.advice[word].causes : [];
  const ids = causes.length > 0 ? causes : named;
  return procedure.causes.some((cause) => cause.station === station && ids.includes(cause.id));
}

/** It can only be this station: the check speaks for no other, or its inspection saw the cause there; and it failed, not nearly. */
function pointsAt(procedure: Procedure, said: Said, station: StationId): boolean {
  if (said.finding.word === 'marginal') return false;
  const seen = procedure.causes.some(
    (cause) => cause.station === station && said.finding.causes.includes(cause.id),
  );
  return seen || said.check.stations.length === 1;
}

const titles = (some: readonly Said[]): string => some.map(({ check }) => check.title).join(', ');

/** In words which stretch of the path is cleared and where the loss must lie. */
export function stretchWords(path: readonly PathStation[]): string {
  const firstOpen = path.findIndex(({ state }) => state !== 'cleared');
  const cleared = clearedStretch(path);
  const blamed = path.filter(({ state }) => state === 'fails' || state === 'suspect');
  const failing = path.filter(({ state }) => state === 'fails');
  const parts = [cleared === null ? 'No stretch is cleared yet.' : `${capital(cleared)}.`];
  if (failing.length > 0) parts.push(`The loss lies at ${names(failing)}.`);
  else if (blamed.length > 0) parts.push(`The loss must lie at ${names(blamed, 'or')}.`);
  else if (firstOpen >= 0 && cleared !== null)
    parts.push(`From ${nameOf(path[firstOpen]!)} on nothing is settled yet.`);
  return parts.filter(Boolean).join(' ');
}

/** The stretch from the tank on that is cleared without a gap, as words that fit into a sentence; null where there is none. */
export function clearedStretch(path: readonly PathStation[]): string | null {
  const firstOpen = path.findIndex(({ state }) => state !== 'cleared');
  const cleared = firstOpen < 0 ? path : path.slice(0, firstOpen);
  const [first] = cleared;
  const last = cleared.at(-1);
  if (!first || !last) return null;
  if (cleared.length === path.length) return 'the whole path from tank to injectors is cleared';
  return first === last
    ? `${nameOf(first)} is cleared`
    : `from ${nameOf(first)} to ${nameOf(last)} the path is cleared`;
}

const nameOf = ({ station }: PathStation): string => {
  const { name } = STATIONS[station];
  return `the ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
};
const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function names(some: readonly PathStation[], word = 'and'): string {
  const each = some.map(nameOf);
  return each.length < 2 ? each.join('') : `${each.slice(0, -1).join(', ')} ${word} ${each.at(-1)!}`;
}
