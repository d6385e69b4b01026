import { nearestBoundary, type Placement } from './boundary.ts';
import { NEEDED_CONFIDENCE } from './judge.ts';
import { normalQuantile } from './normal-distribution.ts';
import type { UncertaintyCause, UncertaintyPart } from './uncertainty.ts';
import type { Verdict } from './verdict.ts';

export type SettlingAction =
  | 'repeat'
  | 'finer vessel'
  | 'longer time'
  | 'log speed better'
  | 'drain the line'
  | 'trace better'
  | 'longer stretch'
  | 'finer instrument'
  | 'log more often'
  | 'log the starter'
  | 'on the line';

/** One thing that would help a verdict that is too close to call. */
export interface SettlingStep {
  readonly action: SettlingAction;
  /** Share of the variance that it works on, 0 to 1. */
  readonly share: number;
  /** Whether it could settle the matter by itself, as far as the numbers tell. */
  readonly enough: boolean;
  /** Runs in all whose mean would be clear enough; only for `repeat` where that is possible. */
  readonly runs: number | null;
  readonly text: string;
}

/** More runs than this nobody makes; then repeating alone is not called enough. */
const MOST_RUNS = 6;

/** Causes that fall out differently each time, so that a mean over runs makes them smaller. The marks of one vessel do not. */
const VARIES: readonly UncertaintyCause[] = [
  'reading',
  'photo',
  'line',
  'time',
  'speed',
  'spread',
  'startEdge',
  'endEdge',
  'lateReport',
  'instrumentStep',
];

const LOG_OFTEN = 'Log the pressure more often, so that the instants are sharper.';
const TRACE_AGAIN = 'Trace the chart again from a larger, sharper picture, with more marks on its axes.';

const ACTION: Readonly<Record<UncertaintyCause, { readonly action: SettlingAction; readonly text: string }>> =
  {
    tolerance: { action: 'finer vessel', text: 'Measure the volume in a vessel with a smaller tolerance.' },
    reading: { action: 'finer vessel', text: 'Measure the volume in a vessel with finer marks.' },
    photo: {
      action: 'finer vessel',
      text: 'Photograph the vessel from nearer, at the height of the surface, and mark the graduations next to it.',
    },
    volume: { action: 'finer vessel', text: 'Measure the volume in a finer vessel.' },
    line: {
      action: 'drain the line',
      text: 'Let the drain line run empty before the start and after the end.',
    },
    time: {
      action: 'longer time',
      text: 'Get the edges of the time sharper (log battery voltage, or more often), or use a check with a longer time.',
    },
    speed: {
      action: 'log speed better',
      text: 'Log speed more often, and crank with fully charged batteries.',
    },
    value: { action: 'repeat', text: 'Measure with a finer instrument.' },
    tracing: { action: 'trace better', text: TRACE_AGAIN },
    tracingSpeed: { action: 'trace better', text: TRACE_AGAIN },
    spread: { action: 'longer stretch', text: 'Hold the operating point still for longer.' },
    resolution: { action: 'finer instrument', text: 'Read the pressure on a gauge with finer steps.' },
    instrument: { action: 'finer instrument', text: 'Use an instrument with a smaller tolerance.' },
    instrumentStep: { action: 'finer instrument', text: 'Use an instrument with finer steps.' },
    startEdge: { action: 'log more often', text: LOG_OFTEN },
    endEdge: { action: 'log more often', text: LOG_OFTEN },
    lateReport: {
      action: 'log the starter',
      text: 'Log battery voltage or the starter signal five times a second: they show when the starter began to turn.',
    },
  };

/**
 * What would settle a verdict that is too close to call: the largest parts of the uncertainty first (those with a fifth of the variance or more), then
 * repeating. Empty for every other verdict. The needed uncertainty is the distance to the nearest boundary over the normal quantile of the
 * needed confidence (1.645 for 95 %, JCGM 106 table 1).
 */
export function whatSettles(placement: Placement, verdict: Verdict): readonly SettlingStep[] {
  const nearest = nearestBoundary(placement);
  if (verdict.word !== 'too close to call' || !nearest) return [];
  const needed = Math.abs(placement.value - nearest.atValue) / normalQuantile(NEEDED_CONFIDENCE);
  const { parts, combined } = nearest.budget;
  const repeat = repeatStep(parts, needed);
  const steps = partSteps(parts, combined, needed);
  const all = repeat.share > 0 ? [...steps, repeat] : steps;
  return all.some(({ enough }) => enough) ? all : [...all, onTheLine(placement)];
}

function partSteps(
  parts: readonly UncertaintyPart[],
  combined: number,
  needed: number,
): readonly SettlingStep[] {
  const actions = [...new Set(parts.map(({ cause }) => ACTION[cause].action))];
  return actions
    .map((action) => {
      const mine = parts.filter(({ cause }) => ACTION[cause].action === action);
      const largest = mine.reduce((most, part) => (part.contribution > most.contribution ? part : most));
      const rest = parts.filter((part) => !mine.includes(part));
      const share = combined === 0 ? 0 : squares(mine) / combined ** 2;
      // Half of a part is what a better vessel or log can be hoped to leave of it.
      const enough = Math.sqrt(squares(rest) + squares(mine) / 4) <= needed;
      return { action, share, enough, runs: null, text: ACTION[largest.cause].text };
    })
    .filter(({ share }) => share >= 0.2)
    .sort((a, b) => b.share - a.share);
}

/** Runs needed so that √(fixed² + varying²/n) is small enough. */
function repeatStep(parts: readonly UncertaintyPart[], needed: number): SettlingStep {
  const varying = squares(parts.filter(({ cause }) => VARIES.includes(cause)));
  const fixed = squares(parts) - varying;
  const room = needed ** 2 - fixed;
  const runs = room > 0 ? Math.max(2, Math.ceil(varying / room)) : null;
  const enough = runs !== null && runs <= MOST_RUNS;
  const text = enough
    ? `Repeat the run: the mean of ${runs} that agree would be clear enough.`
    : 'Repeat the run to see whether it falls on the same side again; repeating alone will not make it certain.';
  const total = squares(parts);
  return {
    action: 'repeat',
    share: total === 0 ? 0 : varying / total,
    enough,
    runs: enough ? runs : null,
    text,
  };
}

function onTheLine({ unit }: Placement): SettlingStep {
  const text = `The result lies so near the line (in ${unit}) that no better reading will settle it. Treat it as on the line and let other checks decide.`;
  return { action: 'on the line', share: 0, enough: false, runs: null, text };
}

const squares = (parts: readonly UncertaintyPart[]): number =>
  parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
