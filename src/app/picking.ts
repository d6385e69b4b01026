import { BehaviorSubject } from 'rxjs';

/** A question to the person that an adapter waits for: which of the device's characteristics carry the bytes. */
export interface Picking<Option = unknown, Pick = unknown> {
  readonly options: readonly Option[];
  /** Answers the adapter; null: the person chose none. */
  answer(pick: Pick | null): void;
}

/** Puts a question on the screen and waits for its answer. A newer question answers an older one with null. */
export const askPerson =
  <Option, Pick>(picking$: BehaviorSubject<Picking<Option, Pick> | null>) =>
  (options: readonly Option[]): Promise<Pick | null> =>
    new Promise((resolve) => {
      picking$.value?.answer(null);
      picking$.next({
        options,
        answer: (pick) => {
          picking$.next(null);
          resolve(pick);
        },
      });
    });
