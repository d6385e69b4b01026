import { BehaviorSubject, distinctUntilChanged, type Observable } from 'rxjs';
import type { BenchKey } from '../../adapters/bench.ts';
import type { BenchView } from '../../simulators/bench.ts';

export type BenchSpeed = 1 | 2 | 4 | 8;

/**
 * The simulated technician's side of the bench: the key switch and the vessel. It turns a simulated key only; nothing here can reach
 * a real engine.
 */
export class BenchDesk {
  readonly #key = new BehaviorSubject<BenchKey>({ keyOn: true, starterOn: false });
  readonly #view = new BehaviorSubject<BenchView | null>(null);
  readonly key$: Observable<BenchKey> = this.#key.asObservable();
  /** What there is to see, as of the last tick. */
  readonly view$: Observable<BenchView | null> = this.#view.pipe(distinctUntilChanged());

  #releaseAtMs: number | null = null;

  readonly show = (view: BenchView): void => {
    this.#view.next(view);
    if (this.#releaseAtMs !== null && view.timeMs >= this.#releaseAtMs) this.turnStarter(false);
  };

  get lastView(): BenchView | null {
    return this.#view.value;
  }

  get cranking(): boolean {
    return this.#key.value.starterOn;
  }

  /** Turns the starter and lets go by itself after this span of the bench's own time, ms. */
  crankFor(spanMs: number): void {
    this.turnStarter(true);
    this.#releaseAtMs = (this.lastView?.timeMs ?? 0) + spanMs;
  }

  turnStarter(on: boolean): void {
    this.#releaseAtMs = null;
    if (on !== this.#key.value.starterOn) this.#key.next({ keyOn: true, starterOn: on });
  }

  emptyVessel(): void {
    this.#key.next({ ...this.#key.value, emptyVessel: true });
  }
}
