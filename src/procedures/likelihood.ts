import type { Zone } from '../grading/verdict.ts';
import type { CheckFinding } from './finding.ts';
import type { ProcedureCheck } from './procedure.ts';

/**
 * How the advice of a procedure is read as evidence (common practice, no source: only the order of size matters, and the tests of the ranking
 * hold it). A cause that stands first under a verdict brings that verdict about in `first` of all cases, each later place `perPlace` as
 * often, never below `least`. What is not named happens by mischance (`odd`).
 */
export const EVIDENCE = {
  first: 0.85,
  perPlace: 0.9,
  least: 0.45,
  odd: 0.04,
  /** What an inspection would have to overlook, or to take for something else. */
  unseen: 0.002,
  /**
   * How much of what a cause would have brought about a pass takes from it, and one whose pass clears a stretch. Not all: defects can be
   * mild, and the checks overlap.
   */
  passNamed: 0.6,
  passClears: 0.75,
  /** A marginal result of what is named under a fail only. */
  milder: 0.4,
  /** How often a run cannot be judged, whatever is wrong. */
  notValid: 0.15,
  /** Weight of a result that is too close to call, by the side that it leans to. */
  leaning: 0.5,
  /** Weight of a finding with fewer runs than the procedure asks for: it says something, though it is not yet a finding. */
  tooFewRuns: 0.6,
} as const;

const BELOW_PASS: readonly Zone[] = ['marginal', 'fail low', 'fail high'];

/**
 * How likely the check comes out as it did where `causeId` is the one thing wrong: above 0, up to 1. It is 1 for every cause where the finding
 * says nothing: no run, runs that disagree, or work done since.
 */
export function likelihood(check: ProcedureCheck, finding: CheckFinding, causeId: string): number {
  const { word, repeatBecause, dataLost = false } = finding;
  if (repeatBecause !== null || word === null) return 1;
  const whole = dataLost ? dataLikelihood(check, causeId) : 1;
  return whole * verdictLikelihood(check, finding, causeId);
}

function verdictLikelihood(check: ProcedureCheck, finding: CheckFinding, causeId: string): number {
  const { word, causes, runs, runsNeeded, leaning = null } = finding;
  if (word === null || word === 'disagree') return 1;
  if (word === 'not valid') return invalidLikelihood(check, causeId);
  // An inspection says by its points what was seen; its advice only says what looking can show.
  if (word !== 'pass' && causes.length > 0)
    return causes.includes(causeId) ? EVIDENCE.first : EVIDENCE.unseen;
  if (word === 'too close to call')
    return leaning === null ? 1 : zoneLikelihood(check, leaning, causeId) ** EVIDENCE.leaning;
  const weight = runs >= runsNeeded ? 1 : EVIDENCE.tooFewRuns;
  return zoneLikelihood(check, word, causeId) ** weight;
}

const invalidLikelihood = ({ advice }: ProcedureCheck, causeId: string): number =>
  EVIDENCE.notValid + (1 - EVIDENCE.notValid) * strength(advice['not valid'].causes, causeId);

/** Holes in the data speak for mistakes of measuring that the check names where it cannot be judged, whatever its verdict. */
const dataLikelihood = (check: ProcedureCheck, causeId: string): number =>
  ofMeasuring(causeId) ? invalidLikelihood(check, causeId) : EVIDENCE.notValid;

/** Not shares that add up: a cause named under several words must not lose by it. */
function zoneLikelihood({ advice, clears }: ProcedureCheck, zone: Zone, causeId: string): number {
  const of = (each: Zone) => strength(advice[each].causes, causeId);
  const strongest = Math.max(...BELOW_PASS.map(of));
  if (zone === 'pass') {
    if (ofMeasuring(causeId)) return 1;
    return 1 - (clears.length > 0 ? EVIDENCE.passClears : EVIDENCE.passNamed) * strongest;
  }
  return Math.max(EVIDENCE.odd, of(zone), zone === 'marginal' ? EVIDENCE.milder * strongest : 0);
}

/** Two causes that differ by less come out alike. */
const APART = 0.25;

/** Whether the check tends to come out differently with the one cause than with the other. */
export function tellsApart({ advice }: ProcedureCheck, one: string, other: string): boolean {
  const strongest = (causeId: string) =>
    Math.max(...BELOW_PASS.map((word) => strength(advice[word].causes, causeId)));
  return Math.abs(strongest(one) - strongest(other)) >= APART;
}

/** Mistakes of one measurement: that another check passed says nothing about them. They are rarer than what is wrong with an engine. */
export const ofMeasuring = (causeId: string): boolean =>
  causeId === 'wrong-set-up' || causeId === 'bridge-cable';

/** 0 where the cause is not named, else by its place. */
function strength(causes: readonly string[], causeId: string): number {
  const place = causes.indexOf(causeId);
  return place < 0 ? 0 : Math.max(EVIDENCE.least, EVIDENCE.first * EVIDENCE.perPlace ** place);
}
