import type { ClockWarning } from '../ui/crank-clock-words.ts';
import type { Cue } from '../ui/sounds.ts';

/** The sound that goes with a warning of the crank clock; null for none. */
export function cueOf(warning: ClockWarning): Cue | null {
  if (warning === null) return null;
  if (warning === 'now') return 'target';
  return warning === 'over' ? 'over' : (`${warning}` as Cue);
}
