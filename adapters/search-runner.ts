import { Subscription, type SchedulerLike } from 'rxjs';
import {
  beginSearch,
  stepSearch,
  type SearchInput,
  type SearchSettings,
  type SearchStep,
} from '../src/wire/search-bridge.ts';

/** Where the steps of a search go. `send` may be answered before it returns. */
export interface SearchSink {
  step(step: SearchStep): void;
  send(command: string): void;
}

/** Plays the pure search in time: gives it what happens, and the lack of it when a wait is over. */
export function searchRunner(scheduler: SchedulerLike, sink: SearchSink) {
  let current: SearchStep | null = null;
  let timer = Subscription.EMPTY;
  let stopped = false;
  let setUp = false;
  const apply = (step: SearchStep): void => {
    timer.unsubscribe();
    current = step.done ? null : step;
    if (current) timer = scheduler.schedule(() => input({}), step.waitMs);
    sink.step(step);
    if (stopped) return;
    // Readable lines of an unknown form: this is the right speed, and they are listened to for good.
    if (step.done?.kind === 'text') return begin({ ...step.state.settings, patience: 'stay' });
    if (step.send === null) return;
    setUp ||= /^[SLOM]/.test(step.send);
    sink.send(step.send); // last: the answer may come before this returns
  };
  const input = (what: Omit<SearchInput, 'nowMs'>) => {
    if (current) apply(stepSearch(current.state, { ...what, nowMs: scheduler.now() }));
  };
  const begin = (settings: SearchSettings): void => apply(beginSearch(settings, scheduler.now()));
  return {
    begin,
    input,
    hasSetUp: () => setUp,
    stop: () => {
      stopped = true;
      current = null;
      timer.unsubscribe();
    },
  };
}
