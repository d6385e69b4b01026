import type { IconShape } from './shape-icon.ts';

/** Seconds before the target, the target itself, and past it; null far from it. */
export type ClockWarning = 3 | 2 | 1 | 'now' | 'over' | null;
export type ClockState = 'waiting' | 'cranking' | 'resting' | 'done' | 'over time';

/** The crank clock as plain numbers, all in seconds. `crankNumber` counts from 1. */
export interface ClockView {
  readonly state: ClockState;
  readonly crankNumber: number;
  readonly cranks: number;
  readonly thisCrankSeconds: number;
  readonly targetSeconds: number;
  readonly totalSeconds: number;
  readonly totalTarget: number;
  readonly warn: ClockWarning;
  /** The least rest, and what is left of it; 0 when no rest is asked for. */
  readonly restSeconds: number;
  readonly restLeftSeconds: number;
}

export const WAITING_CLOCK: ClockView = {
  state: 'waiting',
  crankNumber: 1,
  cranks: 1,
  thisCrankSeconds: 0,
  targetSeconds: 15,
  totalSeconds: 0,
  totalTarget: 15,
  warn: null,
  restSeconds: 0,
  restLeftSeconds: 0,
};

export const CLOCK_STATES: Readonly<Record<ClockState, { word: string; shape: IconShape }>> = {
  waiting: { word: 'waiting for the starter', shape: 'waiting' },
  cranking: { word: 'cranking', shape: 'cranking' },
  resting: { word: 'starter resting', shape: 'resting' },
  done: { word: 'all cranks done', shape: 'pass' },
  'over time': { word: 'over time', shape: 'fail' },
};

/** What to do now, in the fewest words that can be shouted across a shop. */
export function clockPrompt(view: ClockView): string {
  switch (view.state) {
    case 'waiting':
      return 'Turn the starter. The clock starts by itself.';
    case 'cranking':
      return crankingPrompt(view.warn);
    case 'resting':
      return view.restLeftSeconds > 0
        ? 'Let the starter cool.'
        : `Ready for crank ${Math.min(view.crankNumber + 1, view.cranks)}.`;
    case 'done':
      return 'Read the vessel and type the volume.';
    case 'over time':
      return 'Release the starter. Over the target time.';
  }
}

function crankingPrompt(warn: ClockWarning): string {
  if (warn === null) return 'Keep cranking.';
  if (warn === 'now') return 'Release the starter now.';
  if (warn === 'over') return 'Release the starter. Over the target time.';
  return `Release in ${warn}.`;
}

/** The figure that is shown huge, and what stands beside it: time turned, or rest left while resting. */
export function clockFigure(view: ClockView): { figure: string; beside: string } {
  if (view.state === 'resting' && view.restLeftSeconds > 0) {
    return { figure: String(Math.ceil(view.restLeftSeconds)), beside: 's of rest left' };
  }
  if (view.state === 'done') {
    return { figure: view.totalSeconds.toFixed(1), beside: `of ${view.totalTarget} s` };
  }
  return { figure: view.thisCrankSeconds.toFixed(1), beside: `of ${view.targetSeconds} s` };
}

/** How full the bar is, 0 to 1, and of how many seconds: the crank, or the rest running out. */
export function clockFill(view: ClockView): { part: number; ofSeconds: number } {
  const resting = view.state === 'resting' && view.restLeftSeconds > 0;
  const done = view.state === 'done';
  const ofSeconds = resting ? view.restSeconds : done ? view.totalTarget : view.targetSeconds;
  const value = resting ? view.restLeftSeconds : done ? view.totalSeconds : view.thisCrankSeconds;
  return { part: ofSeconds > 0 ? Math.min(1, Math.max(0, value / ofSeconds)) : 0, ofSeconds };
}
