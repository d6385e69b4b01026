import { BehaviorSubject, type Observable } from 'rxjs';

/** A question to the person that an adapter waits for: which of the device's characteristics carry the bytes. */
export interface Picking<Option, Pick> {
  readonly options: readonly Option[];
  /** Answers the adapter; null: the person chose none. */
  answer(pick: Pick | null): void;
}

/** Where adapters ask and the screen answers. `asked$` is the question that waits; null while there is none. */
export interface PickDesk<Option, Pick> {
  readonly asked$: Observable<Picking<Option, Pick> | null>;
  /** Puts a question on the screen and waits for its answer. A newer question answers an older one with null. */
  ask(options: readonly Option[]): Promise<Pick | null>;
}

export function pickDesk<Option, Pick>(): PickDesk<Option, Pick> {
  const waiting = new BehaviorSubject<Picking<Option, Pick> | null>(null);
  return {
    asked$: waiting.asObservable(),
    ask: (options) =>
      new Promise((resolve) => {
        waiting.value?.answer(null);
        waiting.next({
          options,
          answer: (pick) => {
            waiting.next(null);
            resolve(pick);
          },
        });
      }),
  };
}
