import { Observable, Subscription, type SchedulerLike } from 'rxjs';
import type { Adapter } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import type { Problem } from '../src/problems/problem.ts';
import type { Result } from '../src/problems/result.ts';
import { SLICE_MS } from './deliver-in-slices.ts';
import { eventQueue, type EventQueue } from './event-queue.ts';

/** How fast a replay runs: a factor of 0.25 to 32, everything at once, or standing still. */
export type ReplaySpeed = number | 'instant' | 'paused';

export interface ReplayChoice {
  readonly events: Iterable<LinkEvent> | AsyncIterable<LinkEvent>;
  readonly device: string;
  readonly speed: ReplaySpeed;
  /** Changes of speed while it runs. Its end or error changes nothing. */
  readonly speed$?: Observable<ReplaySpeed>;
}

const SLOWEST = 0.25;
const FASTEST = 32;

/** Longest wait on one timer, ms: browsers fire timers of more than 2^31 ms at once. */
const LONGEST_WAIT_MS = 60_000;

/** Less than this is rounding and not a wait, ms: a timer for it might not move the clock at all. */
const LEAST_WAIT_MS = 0.001;

/**
 * Plays recorded events again with the very same `atMs`, paced by them on `scheduler`. It completes at the end.
 * `choose` passes on what the person picked from the list of recordings, so its answer is given at construction.
 */
export function replayAdapter(
  scheduler: SchedulerLike,
  pick: () => Promise<Result<ReplayChoice>>,
): Adapter<ReplayChoice> {
  return {
    id: 'replay',
    availability: () => ({ usable: true }),
    choose: pick,
    open: (choice) =>
      new Observable<LinkEvent>((subscriber) => {
        const player = makePlayer(choice, scheduler, {
          next: (event) => subscriber.next(event),
          over: (failure) => (failure ? subscriber.error(failure) : subscriber.complete()),
        });
        subscriber.add(player.stop);
        player.start();
        subscriber.add(choice.speed$?.subscribe({ next: player.setSpeed, error: () => undefined }));
      }),
  };
}

interface Player {
  start(): void;
  stop(): void;
  setSpeed(speed: ReplaySpeed): void;
}

interface PlayerSink {
  next(event: LinkEvent): void;
  over(failure: Problem | null): void;
}

function makePlayer(choice: ReplayChoice, scheduler: SchedulerLike, sink: PlayerSink): Player {
  const pace = makePace(choice.speed, scheduler);
  let timer = Subscription.EMPTY;
  let running = false;
  let stopped = false;
  const later = (waitMs: number) =>
    void (timer = scheduler.schedule(step, Math.min(waitMs, LONGEST_WAIT_MS)));
  const playSlice = () => {
    const until = scheduler.now() + SLICE_MS;
    while (!stopped) {
      const event = queue.peek();
      if (event === undefined) return queue.ended() ? sink.over(queue.failure()) : undefined;
      const waitMs = pace.waitFor(event.atMs);
      if (waitMs === Infinity) return;
      if (waitMs > LEAST_WAIT_MS || scheduler.now() >= until) return later(Math.max(waitMs, 0));
      queue.take();
      sink.next(event.kind === 'open' ? { ...event, write: null } : event);
    }
  };
  const step = () => {
    if (running || stopped) return; // a listener that changes the speed is called from within
    timer.unsubscribe();
    running = true;
    playSlice();
    running = false;
  };
  const queue: EventQueue = eventQueue(choice.events, choice.device, step);
  return {
    start: () => later(0),
    stop: () => {
      stopped = true;
      timer.unsubscribe();
      queue.stop();
    },
    setSpeed: (speed) => {
      pace.set(speed);
      step();
    },
  };
}

interface Pace {
  /** Milliseconds until an event of this recorded time is due: 0 or less when it is, Infinity while paused. */
  waitFor(atMs: number): number;
  set(speed: ReplaySpeed): void;
}

/** Maps the scheduler's time to the recording's. A change of speed holds from the present place on. */
function makePace(first: ReplaySpeed, scheduler: SchedulerLike): Pace {
  let factor = factorOf(first);
  let anchorMs = NaN; // recorded time at `since`; known from the first event on
  let since = scheduler.now();
  let lastMs = NaN;
  const positionMs = () => (factor === Infinity ? lastMs : anchorMs + (scheduler.now() - since) * factor);
  return {
    waitFor: (atMs) => {
      if (factor === 0) return Infinity;
      if (Number.isNaN(anchorMs)) [anchorMs, since] = [atMs, scheduler.now()];
      lastMs = atMs;
      return factor === Infinity ? 0 : (atMs - positionMs()) / factor;
    },
    set: (speed) => {
      [anchorMs, since, factor] = [positionMs(), scheduler.now(), factorOf(speed)];
    },
  };
}

function factorOf(speed: ReplaySpeed): number {
  if (speed === 'paused') return 0;
  if (speed === 'instant') return Infinity;
  return Number.isFinite(speed) ? Math.min(Math.max(speed, SLOWEST), FASTEST) : 1;
}
