const RESERVED = 'reserved: no meaning given';

/**
 * Failure mode identifiers 0 to 31 (SAE J1939-73) in our own plain words; meanings as in j1939.md, "FMI". The editions differ on 19 to 21
 * and on 31, which older ones call "not available".
 */
export const FMI_TEXTS: readonly string[] = [
  'far above normal (most severe)',
  'far below normal (most severe)',
  'erratic, comes and goes, or does not make sense',
  'voltage too high, or shorted to a higher voltage',
  'voltage too low, or shorted to a lower voltage',
  'current too low, or circuit open',
  'current too high, or shorted to ground',
  'mechanical part does not respond or is out of adjustment',
  'wrong frequency, pulse width or period',
  'message comes too seldom or too often',
  'changes faster or slower than it can',
  'cause not known',
  'device or part is bad',
  'out of calibration',
  "special instructions: see the engine maker's manual",
  'above normal (least severe)',
  'above normal (moderately severe)',
  'below normal (least severe)',
  'below normal (moderately severe)',
  'data received over the network are in error',
  'reading has drifted high',
  'reading has drifted low',
  ...Array.from({ length: 9 }, () => RESERVED),
  'condition exists',
];

/** The text of an FMI; numbers that cannot be one (five bits: 0 to 31) are said to be none. */
export const fmiText = (fmi: number): string => FMI_TEXTS[fmi] ?? `not a failure mode: ${fmi}`;

/** How far off a value is: the words of the FMIs that grade it; null where the FMI grades nothing. */
export function severityOf(fmi: number): { side: 'high' | 'low'; words: string } | null {
  const side = fmi === 0 || fmi === 15 || fmi === 16 ? 'high' : 'low';
  if (fmi === 0 || fmi === 1) return { side, words: 'most severe' };
  if (fmi === 16 || fmi === 18) return { side, words: 'moderately severe' };
  return fmi === 15 || fmi === 17 ? { side, words: 'least severe' } : null;
}
