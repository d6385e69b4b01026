import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Observable, Subscription } from 'rxjs';

/**
 * Binds a stream to an element: subscribes when the element is connected, drops when it leaves, returns when it comes back.
 * `source` is asked at each connection, so it may depend on where the element stands. `value` is `initial` until the
 * stream speaks; an error of the stream is kept in `failure` and the last value stays. Two streams bound to one host are
 * independent.
 */
export class Bound<T> implements ReactiveController {
  value: T;
  failure: unknown = null;
  readonly #host: ReactiveControllerHost;
  readonly #source: () => Observable<T>;
  #subscription: Subscription | null = null;

  constructor(host: ReactiveControllerHost, source: () => Observable<T>, initial: T) {
    this.#host = host;
    this.#source = source;
    this.value = initial;
    host.addController(this);
  }

  hostConnected(): void {
    this.failure = null;
    this.#subscription = this.#source().subscribe({
      next: (value) => {
        this.value = value;
        this.#host.requestUpdate();
      },
      error: (failure: unknown) => {
        this.failure = failure;
        this.#host.requestUpdate();
      },
    });
  }

  hostDisconnected(): void {
    this.#subscription?.unsubscribe();
    this.#subscription = null;
  }
}
