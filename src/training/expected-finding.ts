import type { Defect } from '../../simulators/engine/defects.ts';
import type { BenchScenario } from '../../simulators/scenarios.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';
import { DEFECT_FACTS } from './defect-facts.ts';
import { sightsOf } from './what-is-seen.ts';

/** Words of a check that something is wrong, those first that a repair may rest on. */
const WORDS = ['fail low', 'fail high', 'marginal', 'not valid'] as const;

/**
 * What a check gives by the book where the defect is the one thing wrong: the failing verdict whose advice names its likeliest cause earliest, else
 * marginal, else not valid (then it was tried and left out), else a pass. An inspection gives what is to be seen. No bench is asked.
 */
export function expectedFinding(
  check: ProcedureCheck,
  defect: Defect,
  scenario: BenchScenario,
): CheckFinding {
  const { word, causes } =
    check.settings.kind === 'inspection'
      ? looked(check, { ...scenario, defects: [defect] })
      : measured(check, defect);
  return {
    checkId: check.id,
    word,
    confidence: null,
    runs: word === 'not valid' ? 0 : check.runsNeeded,
    runsNeeded: check.runsNeeded,
    skipped: word === 'not valid' ? 'It could not be graded.' : null,
    repeatBecause: null,
    causes,
  };
}

type Said = Pick<CheckFinding, 'word' | 'causes'>;
const PASS: Said = { word: 'pass', causes: [] };

function looked(check: ProcedureCheck, scenario: BenchScenario): Said {
  const { settings } = check;
  if (settings.kind !== 'inspection') return PASS;
  const seen = sightsOf(check, scenario).filter(({ inOrder }) => !inOrder);
  const points = settings.points.filter(({ id }) => seen.some(({ point }) => point === id));
  if (!points[0]) return PASS;
  const causes = points.flatMap(({ cause }) => (cause === null ? [] : [cause]));
  return { word: points[0].whenNot, causes: [...new Set(causes)] };
}

function measured({ advice }: ProcedureCheck, { kind }: Defect): Said {
  const [likeliest] = DEFECT_FACTS[kind].causes;
  const placeUnder = (word: (typeof WORDS)[number]) => {
    const place = advice[word].causes.indexOf(likeliest);
    return place < 0 ? Infinity : place;
  };
  const [low, high] = [placeUnder('fail low'), placeUnder('fail high')];
  if (Math.min(low, high) < Infinity) return { word: low <= high ? 'fail low' : 'fail high', causes: [] };
  const word = WORDS.slice(2).find((each) => placeUnder(each) < Infinity);
  return word ? { word, causes: [] } : PASS;
}

/** Whether a measurement cannot be judged, by the book, because of what is wrong. */
export const spoils = (check: ProcedureCheck, defect: Defect): boolean =>
  check.settings.kind !== 'inspection' && measured(check, defect).word === 'not valid';
