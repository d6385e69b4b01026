import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * The element's own width in CSS pixels, so that a drawing can keep its text at reading size. `widthPx` is 0 until the
 * element is laid out. `changed` runs on each new whole-pixel width; by default the element is updated.
 */
export class MeasuredWidth implements ReactiveController {
  widthPx = 0;
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #observer: ResizeObserver;

  constructor(
    host: ReactiveControllerHost & HTMLElement,
    changed: (widthPx: number) => void = () => host.requestUpdate(),
  ) {
    this.#host = host;
    this.#observer = new ResizeObserver(([entry]) => {
      const widthPx = Math.floor(entry?.contentRect.width ?? 0);
      if (widthPx === this.widthPx) return;
      this.widthPx = widthPx;
      changed(widthPx);
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.#observer.observe(this.#host);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
  }
}
