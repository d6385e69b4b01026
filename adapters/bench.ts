import { asyncScheduler, Observable, of, type SchedulerLike } from 'rxjs';
import type { Adapter } from '../src/link/adapter.ts';
import type { LinkEvent, WriteBytes } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import { millis } from '../src/quantities/time.ts';
import { benchView, createBench, stepBench, type BenchState, type BenchView } from '../simulators/bench.ts';
import type { BenchCommand, KeyPosition } from '../simulators/bench-command.ts';
import { SCENARIO_BY_ID, type BenchScenario, type ScenarioId } from '../simulators/scenarios.ts';

/** How often the bench speaks, in ms of the clock on the wall. */
const TICK_MS = 20;
/** The most wall time made up for at once: a page in the background is woken once a second, a lid may be shut for hours. */
const CATCH_UP_MS = 2000;
/** The longest stretch of simulated time in one `bytes` event, ms. */
const SLICE_MS = 160;
const DEVICE = 'Bench engine';

/** What the person does at the bench. `emptyVessel` counts once each time it comes as true. */
export interface BenchKey {
  readonly keyOn: boolean;
  readonly starterOn: boolean;
  readonly emptyVessel?: boolean;
}

export interface BenchChoice {
  /** A name of the list, or an engine that is in no list. */
  readonly scenario: ScenarioId | BenchScenario;
  readonly seed: number;
  /** How much faster than life. */
  readonly speed: 1 | 2 | 4 | 8;
  readonly key$: Observable<BenchKey>;
  /** What else the person does; each counts from the next slice on, in the order of both streams. */
  readonly command$?: Observable<BenchCommand>;
  /** Told what there is to see, after each slice of time: a key turned from here holds from the next slice on. */
  readonly onView?: (view: BenchView) => void;
}

export interface BenchOptions {
  readonly scheduler?: SchedulerLike;
  /** Lets the person choose; the page that shows the bench gives it. By default the healthy engine with the key on. */
  readonly choose?: () => Promise<Result<BenchChoice>>;
}

const DEFAULT_CHOICE: BenchChoice = {
  scenario: 'healthy',
  seed: 1,
  speed: 1,
  key$: of({ keyOn: true, starterOn: false }),
};

/**
 * The simulated engine behind a simulated SLCAN bridge as a source. Cold: each subscription is a new engine. `open` first, with a
 * `write` that reaches the bridge; then bytes, stamped with simulated time. Never completes; the engine and its battery
 * last for ever. The same choice, keys and writes at the same instants give the same bytes.
 */
export function benchAdapter({
  scheduler = asyncScheduler,
  choose,
}: BenchOptions = {}): Adapter<BenchChoice> {
  return {
    id: 'bench',
    availability: () => ({ usable: true }),
    choose: choose ?? (() => Promise.resolve(ok(DEFAULT_CHOICE))),
    open: (choice) => openBench(choice, scheduler),
  };
}

/** What changes while one bench is open. */
interface Desk {
  bench: BenchState;
  commands: BenchCommand[];
  fromHost: number[];
  open: boolean;
}

function openBench(choice: BenchChoice, scheduler: SchedulerLike): Observable<LinkEvent> {
  return new Observable((subscriber) => {
    const desk: Desk = {
      bench: createBench(engineFor(choice.scenario), choice.seed),
      commands: [],
      fromHost: [],
      open: true,
    };
    subscriber.next({ kind: 'open', atMs: millis(0), device: DEVICE, write: writeTo(desk) });
    subscriber.add(() => (desk.open = false));
    subscriber.add(
      choice.key$.subscribe((key) => {
        desk.commands.push({ kind: 'key', at: positionOf(key) });
        if (key.emptyVessel === true) desk.commands.push({ kind: 'empty vessel' });
      }),
    );
    subscriber.add(choice.command$?.subscribe((command) => desk.commands.push(command)));
    let lastMs = scheduler.now();
    subscriber.add(
      scheduler.schedule(function tick() {
        const nowMs = scheduler.now();
        const elapsedMs = Math.min(CATCH_UP_MS, Math.max(0, nowMs - lastMs));
        lastMs = nowMs;
        for (const spanMs of slices(elapsedMs * choice.speed)) {
          const bytes = advance(desk, spanMs);
          if (bytes.length > 0) subscriber.next({ kind: 'bytes', atMs: millis(desk.bench.timeMs), bytes });
          choice.onView?.(benchView(desk.bench));
        }
        this.schedule(undefined, TICK_MS);
      }, TICK_MS),
    );
  });
}

const engineFor = (scenario: BenchChoice['scenario']): BenchScenario =>
  typeof scenario === 'string' ? SCENARIO_BY_ID[scenario] : scenario;

/** A span in pieces of at most `SLICE_MS`: what is made up for at once still arrives as a real bridge would have sent it. */
function slices(spanMs: number): readonly number[] {
  const count = Math.max(1, Math.ceil(spanMs / SLICE_MS));
  return new Array<number>(count).fill(spanMs / count);
}

const positionOf = ({ keyOn, starterOn }: BenchKey): KeyPosition =>
  keyOn ? (starterOn ? 'crank' : 'on') : 'off';

function advance(desk: Desk, spanMs: number): Uint8Array {
  const fromHost = desk.fromHost.length > 0 ? Uint8Array.from(desk.fromHost) : null;
  const { state, toHost } = stepBench(desk.bench, { fromHost, commands: desk.commands }, spanMs);
  desk.bench = state;
  desk.fromHost = [];
  desk.commands = [];
  return toHost;
}

const writeTo =
  (desk: Desk): WriteBytes =>
  (bytes) => {
    if (!desk.open) return Promise.resolve(failed(problem('link.closed')));
    for (const byte of bytes) desk.fromHost.push(byte);
    return Promise.resolve(ok(undefined));
  };
