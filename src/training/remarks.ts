import type { Defect } from '../../simulators/engine/defects.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import { causeOf, checkOf } from '../procedures/library.ts';
import { standsFirm } from '../procedures/order.ts';
import type { Procedure } from '../procedures/procedure.ts';
import type { Compared } from './compare-conclusion.ts';
import { DEFECT_FACTS } from './defect-facts.ts';
import { spoils } from './expected-finding.ts';
import type { TakenPath, TakenStep } from './path-taken.ts';
import type { ShortestPath } from './shortest-path.ts';

/** One thing that was good, or that cost time or parts, and what it is seen from. */
export interface Remark {
  readonly words: string;
  readonly evidence: string;
}

export interface Remarks {
  readonly good: readonly Remark[];
  /** What cost something or was missed. */
  readonly costly: readonly Remark[];
}

export interface Reviewed {
  readonly procedure: Procedure;
  readonly compared: Compared;
  readonly path: TakenPath;
  readonly shortest: ShortestPath;
  /** As they stood at the end. */
  readonly findings: readonly CheckFinding[];
  readonly truth: readonly Defect[];
}

type RunStep = Extract<TakenStep, { kind: 'run' }>;
type WorkStep = Extract<TakenStep, { kind: 'work' }>;

/** What is to be said of the way that was gone, each with its evidence, the weightier first. */
export const remarksOn = (reviewed: Reviewed): Remarks => ({
  good: [...goodEnd(reviewed), ...goodParts(reviewed), ...verified(reviewed), ...goodOrder(reviewed)],
  costly: [
    ...missed(reviewed),
    ...wrongParts(reviewed),
    ...unrepeated(reviewed),
    ...extraChecks(reviewed),
    ...spoiledRuns(reviewed),
  ],
});

const runsOf = ({ path }: Reviewed): readonly RunStep[] => path.steps.filter((step) => step.kind === 'run');
const worksOf = ({ path }: Reviewed): readonly WorkStep[] =>
  path.steps.filter((step) => step.kind === 'work');
const titleOf = ({ procedure }: Reviewed, id: string): string => checkOf(procedure, id)?.title ?? id;
const namesOf = (truth: readonly Defect[]): string =>
  truth.map(({ kind }) => DEFECT_FACTS[kind].name).join(' and ') || 'nothing';

function goodEnd({
  compared: { cause, station, decision, words, decided },
  truth,
}: Reviewed): readonly Remark[] {
  const evidence = words === '' ? 'No cause was written down.' : `You wrote: “${words}”.`;
  const found: Remark[] = [];
  if (cause === 'right')
    found.push({
      words: truth.length === 0 ? 'You did not name what was not there.' : 'You named what was wrong.',
      evidence,
    });
  else if (station === 'right' && truth.length > 0)
    found.push({ words: 'You looked at the right station.', evidence });
  if (decision === 'right')
    found.push({ words: 'The decision fits the engine.', evidence: `You decided: ${decided ?? ''}.` });
  return found;
}

function goodParts(reviewed: Reviewed): readonly Remark[] {
  const parts = worksOf(reviewed).filter(({ part }) => part !== null);
  const [first] = parts;
  if (!first || first.cured.length === 0) return [];
  const alone = parts.every(({ cured }) => cured.length > 0);
  return [
    {
      words: alone
        ? 'Only parts that were at fault were replaced.'
        : 'The first part that was replaced was at fault.',
      evidence: `${capital(first.part ?? '')}: ${namesOf(first.cured)}.`,
    },
  ];
}

/** After the right part: what it asks for stands again, and passes. */
function verified(reviewed: Reviewed): readonly Remark[] {
  const { findings } = reviewed;
  if (!worksOf(reviewed).some(({ cured }) => cured.length > 0)) return [];
  const open = findings.some(({ repeatBecause }) => repeatBecause !== null);
  const passed = findings.filter((each) => each.word === 'pass' && standsFirm(each));
  if (open || passed.length === 0) return [];
  return [
    {
      words: 'The repair was proved: every check that it touched was run again.',
      evidence: `${passed.length} ${passed.length === 1 ? 'check passes' : 'checks pass'} at the end.`,
    },
  ];
}

/** Nothing was run before what it needs. */
function goodOrder(reviewed: Reviewed): readonly Remark[] {
  const ids = runsOf(reviewed).map(({ checkId }) => checkId);
  if (new Set(ids).size < 3) return [];
  const isEarly = (id: string, place: number) =>
    (checkOf(reviewed.procedure, id)?.needs ?? []).some((need) => !ids.slice(0, place).includes(need));
  if (ids.some(isEarly)) return [];
  return [
    {
      words:
        'You went from the low-pressure side to the high-pressure side, and left out nothing that a check stands on.',
      evidence: `${new Set(ids).size} checks, each after those that it needs.`,
    },
  ];
}

function missed({ compared, truth }: Reviewed): readonly Remark[] {
  const { cause, station, decision, decided, words, rightDecisions } = compared;
  const was = truth.length === 0 ? 'Nothing was wrong with this engine.' : `It was ${namesOf(truth)}.`;
  const said = words === '' ? 'No cause was written down.' : `You wrote: “${words}”.`;
  const found: Remark[] = [];
  if (cause === 'wrong') found.push({ words: 'Something else was named.', evidence: `${said} ${was}` });
  if (cause === 'partly')
    found.push({ words: 'Not all of it was named, or something beside it.', evidence: `${said} ${was}` });
  if (cause === 'not named') found.push({ words: 'What was wrong was not named.', evidence: was });
  if (cause === 'open' && station !== 'right')
    found.push({
      words: 'Your words name no cause of the procedure: compare them yourself.',
      evidence: `${said} ${was}`,
    });
  if (decision === 'wrong')
    found.push({
      words: 'Another decision fits this engine better.',
      evidence: `You decided: ${decided ?? ''}. Better: ${rightDecisions.join(' or ')}.`,
    });
  return found;
}

const wrongParts = (reviewed: Reviewed): readonly Remark[] =>
  worksOf(reviewed)
    .filter(({ part, cured }) => part !== null && cured.length === 0)
    .map(({ part, points, minutes, likeliest }) => {
      const cause = likeliest === null ? null : causeOf(reviewed.procedure, likeliest);
      const then = cause
        ? `The evidence then spoke most for: ${lower(cause.text)}.`
        : 'No check had found anything yet.';
      return {
        words: `${capital(part ?? '')}: it was not at fault.`,
        evidence: `${points} part points, ${minutes} min. ${then}`,
      };
    });

/** The last right part was put in, and checks that it touched were not run since. */
function unrepeated(reviewed: Reviewed): readonly Remark[] {
  if (worksOf(reviewed).length === 0) return [];
  const open = reviewed.findings.filter(
    ({ repeatBecause, skipped }) => repeatBecause !== null && skipped === null,
  );
  if (open.length === 0) return [];
  return [
    {
      words: 'The repair was not proved to the end.',
      evidence: `Not run again since: ${open.map(({ checkId }) => `“${titleOf(reviewed, checkId)}”`).join(', ')}.`,
    },
  ];
}

/** Checks that the shortest way does not have. */
function extraChecks(reviewed: Reviewed): readonly Remark[] {
  const wanted = new Set(
    reviewed.shortest.steps.flatMap((step) => (step.kind === 'check' ? [step.checkId] : [])),
  );
  const extra = runsOf(reviewed).filter(({ checkId }) => !wanted.has(checkId));
  const ids = [...new Set(extra.map(({ checkId }) => checkId))];
  return ids.map((id) => {
    const own = extra.filter(({ checkId }) => checkId === id);
    return {
      words: `“${titleOf(reviewed, id)}” is not on the shortest way.`,
      evidence: `${total(own)} min, ${own.length === 1 ? 'one run' : `${own.length} runs`}: ${own.map(({ word }) => word).join(', ')}.`,
    };
  });
}

/** Runs that could not be judged, beyond what the engine itself makes so. */
function spoiledRuns(reviewed: Reviewed): readonly Remark[] {
  const { procedure, truth } = reviewed;
  const isOfEngine = (id: string) => {
    const check = checkOf(procedure, id);
    return check !== null && truth.some((defect) => spoils(check, defect));
  };
  const spoiled = runsOf(reviewed).filter(
    ({ word, checkId }) => word === 'not valid' && !isOfEngine(checkId),
  );
  if (spoiled.length === 0) return [];
  const ids = [...new Set(spoiled.map(({ checkId }) => checkId))];
  return [
    {
      words:
        spoiled.length === 1 ? 'One run could not be judged.' : `${spoiled.length} runs could not be judged.`,
      evidence: `${total(spoiled)} min: ${ids.map((id) => `“${titleOf(reviewed, id)}”`).join(', ')}.`,
    },
  ];
}

const total = (steps: readonly RunStep[]): number => steps.reduce((sum, { minutes }) => sum + minutes, 0);
const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
