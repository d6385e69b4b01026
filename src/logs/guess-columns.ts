import type { SignalId } from '../quantities/reading.ts';
import type { ColumnProfile } from './column-profile.ts';
import { normalHeader, SIGNAL_WORDS, type SignalWords } from './header-words.ts';
import { guessUnit } from './unit-by-size.ts';

/** Which signal a column seems to hold. */
export interface ColumnGuess {
  readonly index: number;
  readonly signal: SignalId;
  /** 0 to 1. Engine speed below `SURE` is asked for. */
  readonly confidence: number;
  readonly reason: string;
  /** Engine speed that no header tells: found by its values. */
  readonly byContent?: boolean;
}

export const SURE = 0.75;
const LEAST = 0.35;
/** Highest speed that the standard parameter can say (J1939-71, SPN 190: 0xFAFF of 0.125 rpm): above it is no engine speed. */
export const HIGHEST_SPEED_RPM = 8031.875;
const LEAST_CRANKING_RPM = 60; // common practice, no source: starters turn heavy diesels at 100 to 250 rpm

/**
 * One signal a column at most, and one column a signal: the most certain guess wins, the left one when equal.
 * @param timeColumn left out of the guessing.
 */
export function guessColumns(
  profiles: readonly ColumnProfile[],
  timeColumn: number | null,
): readonly ColumnGuess[] {
  const others = profiles.filter(({ index }) => index !== timeColumn);
  const guesses = [...speedCandidates(others).slice(0, 1), ...others.flatMap(guessesByWords)];
  guesses.sort((a, b) => b.confidence - a.confidence || a.index - b.index);
  const taken: ColumnGuess[] = [];
  for (const guess of guesses) {
    if (taken.some(({ index, signal }) => index === guess.index || signal === guess.signal)) continue;
    if (guess.confidence >= LEAST) taken.push(guess);
  }
  return taken;
}

const guessesByWords = (profile: ColumnProfile): readonly ColumnGuess[] =>
  SIGNAL_WORDS.filter(({ signal }) => signal !== 'engineSpeed').flatMap(
    (words) => guessByWords(profile, words) ?? [],
  );

function guessByWords(profile: ColumnProfile, words: SignalWords): ColumnGuess | null {
  const header = normalHeader(profile.name);
  if (header === '' || profile.numberShare < 0.5 || words.not.test(header)) return null;
  if (profile.unit !== null && !words.units.includes(profile.unit)) return null;
  const as = (confidence: number, reason: string) => ({
    index: profile.index,
    signal: words.signal,
    confidence,
    reason,
  });
  if (words.strong.test(header)) return as(0.9, `the header says "${profile.header}"`);
  if (!words.weak?.test(header)) return null;
  const fits = guessUnit(words.signal, profile);
  return fits.plausible ? as(0.6, `the header says "${profile.header}" and the values fit`) : null;
}

/** Columns that may be engine speed, the most certain first; ties and lookalikes make each other uncertain. */
export function speedCandidates(profiles: readonly ColumnProfile[]): readonly ColumnGuess[] {
  const numeric = profiles.filter(({ numberShare, values }) => numberShare >= 0.5 && values.length > 0);
  const found = numeric.flatMap((profile) => speedGuess(profile, numeric) ?? []);
  found.sort((a, b) => b.confidence - a.confidence || a.index - b.index);
  const [first, second] = found;
  if (first && second && first.confidence >= SURE && first.confidence - second.confidence < 0.02) {
    return found.map((guess, i) => (i < 2 ? { ...guess, confidence: SURE - 0.05, reason: `${guess.reason}, but so does another column` } : guess)); // prettier-ignore
  }
  return found;
}

function speedGuess(profile: ColumnProfile, numeric: readonly ColumnProfile[]): ColumnGuess | null {
  const words = SIGNAL_WORDS[0]!;
  const header = normalHeader(profile.name);
  const foreign = profile.unit !== null ? profile.unit !== 'rpm' : isRoadSpeed(profile.unitText);
  if (foreign || words.not.test(header) || /\bkm\b|\bmph\b/.test(header)) return null;
  const as = (confidence: number, reason: string): ColumnGuess => ({
    index: profile.index,
    signal: 'engineSpeed',
    confidence: canBeSpeed(profile) ? confidence : 0.3 * confidence,
    reason,
  });
  if (words.strong.test(header)) return as(0.95, `the header says "${profile.header}"`);
  if (profile.unit === 'rpm') return as(0.85, 'its unit is that of engine speed');
  const weak = words.weak?.test(header) ?? false;
  if (header !== '' && !weak) return null;
  const guess = byContent(profile, numeric, weak, as);
  return guess && { ...guess, byContent: true };
}

/** Without telling words: the only column that moves through cranking speeds, or one that no road speed reaches. */
function byContent(
  profile: ColumnProfile,
  numeric: readonly ColumnProfile[],
  weak: boolean,
  as: (confidence: number, reason: string) => ColumnGuess,
): ColumnGuess | null {
  const alike = numeric.filter(cranks);
  const alone = weak ? numeric.length === 1 : alike.length === 1 && alike[0] === profile;
  if (cranks(profile) && alone) return as(SURE, 'it is the only column that moves like a cranking engine');
  if (weak && profile.highest > 400)
    return as(SURE, `the header says "${profile.header}" and no vehicle is that fast`);
  if (!weak && !cranks(profile)) return null;
  return as(0.5, weak ? `the header says only "${profile.header}"` : 'its values could be engine speed');
}

const isRoadSpeed = (unitText: string | null): boolean =>
  unitText !== null && /km|mph|mi|m\/s|kn|%|hz/i.test(unitText);

/** Values between 0 and the highest speed; a log may hold a few that are not (65535 for "none"). */
function canBeSpeed({ values }: ColumnProfile): boolean {
  const inside = values.filter((value) => value >= 0 && value <= HIGHEST_SPEED_RPM).length;
  return inside >= 0.7 * values.length;
}

/** Reaches cranking speed and moves, as battery voltage and temperatures do not. */
function cranks(profile: ColumnProfile): boolean {
  const usable = profile.values.filter((value) => value >= 0 && value <= HIGHEST_SPEED_RPM);
  const highest = usable.reduce((a, b) => Math.max(a, b), 0);
  const lowest = usable.reduce((a, b) => Math.min(a, b), Infinity);
  return (
    canBeSpeed(profile) && highest >= LEAST_CRANKING_RPM && highest - lowest > 0 && profile.highest < 70_000
  );
}
