import type { CheckFinding } from './finding.ts';
import { likelihood, ofMeasuring } from './likelihood.ts';
import type { Procedure, ProcedureCheck } from './procedure.ts';

/** A cause with how much speaks for it. */
export interface RankedCause {
  readonly causeId: string;
  /** Share of all suspicion, 0 to 1. Not a probability of the engine: it orders what to look at. */
  readonly share: number;
  /** The findings that speak for it. */
  readonly because: readonly { readonly checkId: string; readonly word: string }[];
}

/** What a mistake of measuring starts with, against 1 of everything else: it has to be pointed at. */
const RARE = 0.05;

interface Told {
  readonly finding: CheckFinding;
  readonly check: ProcedureCheck;
}

/**
 * All causes of the procedure, the likeliest first, from what is known of the checks. Bayes, one cause at a time: each finding multiplies the
 * share of a cause by how likely that result is with it (likelihood.ts). Without any finding all that is left is the order of the procedure,
 * from the low side to the high side. The order of the findings does not matter.
 */
export function rankCauses(procedure: Procedure, findings: readonly CheckFinding[]): readonly RankedCause[] {
  const told = procedure.checks.flatMap((check): Told[] => {
    const finding = findings.find(({ checkId }) => checkId === check.id);
    return finding && finding.repeatBecause === null && finding.word !== null ? [{ check, finding }] : [];
  });
  const weighed = procedure.causes.map(({ id }, place) => {
    const prior = (ofMeasuring(id) ? RARE : 1) * (1 - 0.002 * place);
    const weight = prior * againstAndFor(told, id);
    return { causeId: id, weight, because: told.filter((each) => names(each, id)).map(reasonOf) };
  });
  const sum = weighed.reduce((total, { weight }) => total + weight, 0);
  return weighed
    .toSorted((a, b) => b.weight - a.weight)
    .map(({ causeId, weight, because }) => ({ causeId, share: sum > 0 ? weight / sum : 0, because }));
}

/**
 * Passes overlap: four supply pressures would show the same air leak. So the pass that speaks most against a cause counts in full, the second
 * by its square root, the third by its cube root and so on.
 */
function againstAndFor(told: readonly Told[], causeId: string): number {
  const of = (some: readonly Told[]) => some.map(({ check, finding }) => likelihood(check, finding, causeId));
  const passes = of(told.filter(({ finding }) => finding.word === 'pass')).toSorted((a, b) => a - b);
  const others = of(told.filter(({ finding }) => finding.word !== 'pass'));
  const lowered = passes.reduce((product, each, place) => product * each ** (1 / (place + 1)), 1);
  return others.reduce((product, each) => product * each, lowered);
}

const reasonOf = ({ finding }: Told) => ({ checkId: finding.checkId, word: finding.word ?? '' });

/** Whether the finding names the cause: an inspection by the points that are not in order, any other check by its advice. */
function names({ check, finding: { word, causes } }: Told, causeId: string): boolean {
  if (word === null || word === 'pass' || word === 'too close to call' || word === 'disagree') return false;
  return (causes.length > 0 ? causes : check.advice[word].causes).includes(causeId);
}
