import { problem, type Problem } from '../problems/problem.ts';
import type { Judged } from './conditions.ts';
import type { CrankEntry } from './crank-entry.ts';
import { rounded } from './rounded.ts';

/** Below this share of the crank covered by speed readings the average is warned of, and below the second not used. */
const COVERAGE_WARNS = 0.9;
const COVERAGE_NEEDED = 0.5;

/** What is wrong with one crank as the person counts it. `number` is its place in the list from 1, for the messages. */
export function crankProblems(entry: CrankEntry, number: number): Judged {
  const timed = crankTimeProblems(entry, number);
  if (entry.leftOut) return timed;
  return {
    reasons: [...timed.reasons, ...averageReasons(entry, number)],
    warnings: [...coverageWarning(entry, number), ...timed.warnings],
  };
}

/** What is wrong with the time of one crank alone, whatever its speed was. */
export function crankTimeProblems(entry: CrankEntry, number: number): Judged {
  const { leftOut, setEdges } = entry;
  if (leftOut) {
    const silent = leftOut.reason.trim() === '';
    return {
      reasons: silent ? [problem('check.left-out-without-reason', { number })] : [],
      warnings: leftOutOf(entry, number),
    };
  }
  return {
    reasons: [...edgeReasons(entry, number), ...endReasons(entry, number)],
    warnings: setEdges ? [problem('check.edges-set', { number, why: setEdges.reason })] : [],
  };
}

/** A crank left out still delivered into the vessel, unless it was emptied: that must be said. */
const leftOutOf = ({ leftOut }: CrankEntry, number: number): readonly Problem[] => [
  problem('check.crank-left-out', { number, why: leftOut?.reason ?? '' }),
];

function edgeReasons({ setEdges, time }: CrankEntry, number: number): readonly Problem[] {
  const timed = time.spanMs > 0 && Number.isFinite(time.spanMs) && time.standardUncertaintyMs >= 0;
  if (!timed || (setEdges && !(setEdges.endMs > setEdges.startMs)))
    return [problem('check.edges-wrong', { number })];
  if (setEdges && setEdges.reason.trim() === '') return [problem('check.edges-without-reason', { number })];
  return [];
}

/** Set edges replace a found end that was cut or lost (the person saw where it was), but not a started engine. */
function endReasons({ crank, setEdges }: CrankEntry, number: number): readonly Problem[] {
  const found: Problem[] = [];
  if (crank.endedBy === 'engine started') found.push(problem('check.engine-started', { number }));
  if (setEdges) return found;
  if (crank.cutAtStart || crank.endedBy === 'cut') found.push(problem('check.crank-cut', { number }));
  if (crank.endedBy === 'data lost') found.push(problem('check.crank-data-lost', { number }));
  return found;
}

function averageReasons({ average }: CrankEntry, number: number): readonly Problem[] {
  if (average.samples === 0) return [problem('check.no-speed-in-crank', { number })];
  if (average.coverage >= COVERAGE_NEEDED) return [];
  return [problem('check.coverage-too-low', { number, percent: rounded(100 * average.coverage) })];
}

function coverageWarning({ average }: CrankEntry, number: number): readonly Problem[] {
  const low = average.samples > 0 && average.coverage >= COVERAGE_NEEDED && average.coverage < COVERAGE_WARNS;
  return low ? [problem('check.coverage-low', { number, percent: rounded(100 * average.coverage) })] : [];
}
