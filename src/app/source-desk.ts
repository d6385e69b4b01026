import { BehaviorSubject, map, merge, Subject, withLatestFrom, type Observable } from 'rxjs';
import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import type { BridgeAsk } from '../wire/slcan-ask.ts';
import { wishesOf, type LivePending } from './live-sources.ts';
import { looksAt } from './looks-at.ts';
import { nextSearch, type SearchView } from './search-view.ts';
import type { Services } from './services.ts';
import { sourceNowMs, type SessionState } from './session.ts';

/** What the session is called while the source page listens: no run has this id. */
export const SOURCE_PAGE = 'source page';

interface SourceDeskState {
  readonly pending: LivePending | null;
  readonly search: SearchView | null;
}

export interface SourceDeskView extends SourceDeskState {
  readonly session: SessionState;
  readonly nowMs: number;
  readonly wallMs: number;
}

/** Listening without a run: to see what the bus says before anything is measured. Nothing of it is recorded. */
export class SourceDesk {
  readonly view$: Observable<SourceDeskView>;
  readonly #services: Services;
  readonly #state = new BehaviorSubject<SourceDeskState>({ pending: null, search: null });
  readonly #ask = new Subject<BridgeAsk>();

  constructor(services: Services) {
    this.#services = services;
    const { session } = services;
    this.view$ = merge(this.#state, looksAt(session.state$)).pipe(
      withLatestFrom(this.#state, session.state$),
      map(([, state, heard]) => {
        const wallMs = services.wallMs();
        return { ...state, session: heard, wallMs, nowMs: sourceNowMs(heard, wallMs) };
      }),
    );
  }

  listen(pending: LivePending): void {
    const { session, live, settings } = this.#services;
    this.#state.next({ pending, search: null });
    session.listen({
      runId: SOURCE_PAGE,
      event$: live.open(pending, {
        wishes: wishesOf(settings.value),
        title: 'the source page',
        onSearch: (report) => {
          const search = nextSearch(this.#state.value.search, report, this.#services.wallMs());
          this.#state.next({ ...this.#state.value, search });
        },
        ask$: this.#ask,
      }),
      options: { wire: 'auto', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null },
      rate: () => 1,
      keep: null,
    });
  }

  ask(wish: BridgeAsk): void {
    this.#ask.next(wish);
  }

  /** Closes the source: the device is free for others. */
  stop(): void {
    this.#services.session.stop();
    this.#state.next({ pending: null, search: null });
  }
}
