import {
  catchError,
  concat,
  defer,
  of,
  scan,
  shareReplay,
  startWith,
  Subject,
  switchMap,
  takeUntil,
  type MonoTypeOperatorFunction,
  type Observable,
  type Subscription,
} from 'rxjs';
import type { LinkEvent } from '../link/link-event.ts';
import { isOpen, NO_LINK, nextLinkState, type LinkChange, type LinkState } from '../link/link-state.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineOptions,
  type PipelineState,
} from '../pipeline/pipeline.ts';
import { problem, type Problem } from '../problems/problem.ts';

/** What to listen to and how: a source's events, how to read them, and where they are kept on the way. */
export interface Listening {
  readonly runId: string;
  readonly event$: Observable<LinkEvent>;
  readonly options: PipelineOptions;
  /** Source milliseconds per wall millisecond: 1 for live, the speed factor on the bench and in replay. */
  readonly rate: () => number;
  /** Writes what passes to disk; null in replay, where it already lies there. */
  readonly keep: MonoTypeOperatorFunction<LinkEvent> | null;
}

export interface SessionState {
  readonly runId: string | null;
  readonly link: LinkState;
  readonly pipeline: PipelineState | null;
  readonly rate: number;
  /** Wall clock when the last frame or reading came, to know what the source's clock shows now. */
  readonly heardAtWallMs: number;
}

export const IDLE_SESSION: SessionState = {
  runId: null,
  link: NO_LINK,
  pipeline: null,
  rate: 1,
  heardAtWallMs: 0,
};

/**
 * The one open source of this tab. `listen` replaces what was open, `stop` closes it; both free the device. All state lives
 * in one scan; late viewers get the last state.
 */
export class Session {
  readonly #wanted = new Subject<Listening | null>();
  readonly #over = new Subject<void>();
  readonly #running: Subscription;
  readonly state$: Observable<SessionState>;

  /** @param wallMs the wall clock, ms: only for telling how old the last event is, never for measuring. */
  constructor(wallMs: () => number) {
    this.state$ = this.#wanted.pipe(
      switchMap((listening) => (listening ? statesOf(listening, this.#over, wallMs) : of(IDLE_SESSION))),
      startWith(IDLE_SESSION),
      shareReplay({ bufferSize: 1, refCount: false }),
    );
    this.#running = this.state$.subscribe();
  }

  listen(listening: Listening): void {
    this.#wanted.next(listening);
  }

  /** Closes the source as if it had ended: the device is free, what was heard stays. */
  end(): void {
    this.#over.next();
  }

  /** Closes the source and forgets what was heard. */
  stop(): void {
    this.#wanted.next(null);
  }

  /** Ends the session for good. */
  close(): void {
    this.stop();
    this.#running.unsubscribe();
  }
}

function statesOf(
  listening: Listening,
  over$: Observable<void>,
  wallMs: () => number,
): Observable<SessionState> {
  return defer(() => {
    const start: SessionState = {
      runId: listening.runId,
      link: nextLinkState(NO_LINK, { kind: 'opening' }),
      pipeline: startPipeline(listening.options),
      rate: 1,
      heardAtWallMs: wallMs(),
    };
    return changesOf(listening, over$).pipe(
      scan((state, change) => ({ ...nextState(state, change, wallMs()), rate: listening.rate() }), start),
      startWith(start),
    );
  });
}

/** The source's events, kept on the way, with its end or failure as a last value: the state outlives the source. */
function changesOf({ event$, keep }: Listening, over$: Observable<void>): Observable<LinkChange> {
  const heard$ = event$.pipe(takeUntil(over$));
  const kept$: Observable<LinkChange> = keep ? heard$.pipe(keep) : heard$;
  return concat(kept$, of<LinkChange>({ kind: 'ended' })).pipe(
    catchError((error: unknown) => of<LinkChange>({ kind: 'error', problem: asProblem(error) })),
  );
}

/** One change later. Exported for its tests. */
export function nextState(state: SessionState, change: LinkChange, nowWallMs: number): SessionState {
  const link = nextLinkState(state.link, change);
  if (change.kind === 'opening') return { ...state, link };
  if (change.kind === 'ended' || change.kind === 'error')
    return { ...state, link, pipeline: state.pipeline && finishPipeline(state.pipeline) };
  const pipeline = state.pipeline && stepPipeline(state.pipeline, change);
  // Bytes that make no frame, and gaps, do not make the last value younger.
  const same = pipeline !== null && pipeline.lastMs !== null && pipeline.lastMs === state.pipeline?.lastMs;
  return { ...state, link, pipeline, heardAtWallMs: same ? state.heardAtWallMs : nowWallMs };
}

/** What the source's clock shows now: runs on while the source is open, stands still once it is over. */
export function sourceNowMs(state: SessionState, nowWallMs: number): number {
  const last = state.pipeline?.lastMs ?? state.pipeline?.atMs ?? 0;
  return isOpen(state.link.kind) && state.link.kind !== 'opening'
    ? last + Math.max(0, nowWallMs - state.heardAtWallMs) * state.rate
    : last;
}

/** Over by a failure before the device was ever open: nothing can have been received. */
export const neverOpened = ({ link }: Pick<SessionState, 'link'>): boolean =>
  link.kind === 'lost' && link.device === null;

const asProblem = (error: unknown): Problem =>
  typeof error === 'object' && error !== null && 'code' in error && 'context' in error
    ? (error as Problem)
    : problem('link.lost', { device: 'the source', detail: String(error) });
