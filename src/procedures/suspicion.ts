import type { CheckFinding } from './finding.ts';
import type { Cause, Procedure, ProcedureCheck } from './procedure.ts';

/** A cause with how much speaks for it. */
export interface RankedCause {
  readonly causeId: string;
  /** Share of all suspicion, 0 to 1. Not a probability of the engine: it orders what to look at. */
  readonly share: number;
  /** The findings that speak for it. */
  readonly because: readonly { readonly checkId: string; readonly word: string }[];
}

/**
 * How a finding moves a cause (common practice, no source): factors on its odds. A failing check raises the causes that its advice names, the
 * first most; one that it does not name explains less. A pass lowers what the check would have shown, most where it clears the station.
 */
const FACTORS = {
  named: (place: number) => 1 + 7 / (1 + 0.6 * place),
  notNamed: 0.25,
  marginal: 0.6,
  passNamed: (place: number) => (place < 3 ? 0.3 : 0.6),
  passClears: 0.2,
  notValidNamed: (place: number) => 1 + 1.5 / (1 + place),
  seen: 30,
} as const;

/** What is wrong less often than parts of the engine: it has to be pointed at. */
const PRIOR: Readonly<Record<string, number>> = { 'wrong-set-up': 0.3, 'bridge-cable': 0.3 };

/**
 * All causes of the procedure, the likeliest first, from what is known of the checks. Without any finding all that is left is the order of the
 * procedure. The order of the findings does not matter.
 */
export function rankCauses(procedure: Procedure, findings: readonly CheckFinding[]): readonly RankedCause[] {
  const told = findings.flatMap((finding) => {
    const check = procedure.checks.find(({ id }) => id === finding.checkId);
    return check && finding.word !== null ? [{ finding, check }] : [];
  });
  const weighed = procedure.causes.map((cause, place) => {
    const prior = (PRIOR[cause.id] ?? 1) * (1 - 0.002 * place);
    const weight = told.reduce((odds, each) => odds * factorOf(cause, each), prior);
    const because = told.filter((each) => factorOf(cause, each) > 1).map(reasonOf);
    return { causeId: cause.id, weight, because };
  });
  const sum = weighed.reduce((total, { weight }) => total + weight, 0);
  return weighed
    .toSorted((a, b) => b.weight - a.weight)
    .map(({ causeId, weight, because }) => ({ causeId, share: sum > 0 ? weight / sum : 0, because }));
}

interface Told {
  readonly finding: CheckFinding;
  readonly check: ProcedureCheck;
}

const reasonOf = ({ finding }: Told) => ({ checkId: finding.checkId, word: finding.word ?? '' });

function factorOf(cause: Cause, { finding, check }: Told): number {
  if (finding.repeatBecause !== null) return 1; // what was found before the work says nothing of now
  const seen = finding.causes.includes(cause.id) ? FACTORS.seen : 1;
  return seen * wordFactor(cause, check, finding.word);
}

function wordFactor(cause: Cause, check: ProcedureCheck, word: CheckFinding['word']): number {
  switch (word) {
    case 'fail low':
    case 'fail high':
      return namedFactor(cause, check, word);
    case 'marginal':
      return namedFactor(cause, check, word) ** FACTORS.marginal;
    case 'pass':
      return passFactor(cause, check);
    case 'not valid': {
      const place = check.advice['not valid'].causes.indexOf(cause.id);
      return place < 0 ? 1 : FACTORS.notValidNamed(place);
    }
    case 'too close to call':
    case 'disagree':
    case null:
      return 1;
  }
}

function namedFactor(cause: Cause, check: ProcedureCheck, word: 'fail low' | 'fail high' | 'marginal') {
  const place = check.advice[word].causes.indexOf(cause.id);
  return place < 0 ? FACTORS.notNamed : FACTORS.named(place);
}

function passFactor(cause: Cause, check: ProcedureCheck): number {
  const named = (['fail low', 'fail high', 'marginal', 'not valid'] as const)
    .map((word) => check.advice[word].causes.indexOf(cause.id))
    .filter((place) => place >= 0);
  const shown = named.length > 0 ? FACTORS.passNamed(Math.min(...named)) : 1;
  return named.length > 0 && check.clears.includes(cause.station)
    ? Math.min(shown, FACTORS.passClears)
    : shown;
}
