import { BehaviorSubject, concat, distinctUntilChanged, from, Subject, type Observable } from 'rxjs';
import type { BenchKey } from '../../adapters/bench.ts';
import type { BenchCommand } from '../../simulators/bench-command.ts';
import type { BenchView } from '../../simulators/bench.ts';
import type { Part } from '../../simulators/engine/parts.ts';

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

  readonly #commands = new Subject<BenchCommand>();
  #releaseAtMs: number | null = null;

  /** What is done at the bench beside the key: first the parts that the job replaced, primed, then what the person does. */
  commands$(replaced: readonly Part[]): Observable<BenchCommand> {
    const before = replaced.map((part): BenchCommand => ({ kind: 'replace', part }));
    const primed: readonly BenchCommand[] = before.length > 0 ? [{ kind: 'prime' }] : [];
    return concat(from([...before, ...primed]), this.#commands);
  }

  /** Does something at the bench; the key is turned by `turnStarter` and `turnKey`. */
  command(...commands: readonly BenchCommand[]): void {
    for (const command of commands) this.#commands.next(command);
  }

  /** Key on or off; off stops the engine. */
  turnKey(on: boolean): void {
    this.#releaseAtMs = null;
    this.#key.next({ keyOn: on, starterOn: false });
  }

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
