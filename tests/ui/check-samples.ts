import type { HeldView } from '../../src/ui/held-words.ts';
import { READY_STOPWATCH, type StopwatchView } from '../../src/ui/stopwatch-words.ts';

/** Invented data for looking at and testing the screen parts of the checks. No number here is a limit of any engine. */
export const HELD: HeldView = {
  label: 'Rail pressure',
  value: '71.4',
  unit: 'MPa',
  asked: '60 to 80 MPa',
  state: 'in',
  share: 0.97,
};

export const stopwatch = (view: Partial<StopwatchView> = {}): StopwatchView => ({
  ...READY_STOPWATCH,
  ...view,
});
