import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * The element's own width in CSS pixels, so that a drawing can keep its text at reading size. `widthPx` is 0 until the
 * element is laid out. `changed` runs in the frame after each new whole-pixel width (at once,
 * a new height would make the observer complain of a loop); by default the element is updated.
 */
export class MeasuredWidth implements ReactiveController {
  widthPx = 0;
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #observer: ResizeObserver;
  #frame = 0;

  constructor(
    host: ReactiveControllerHost & HTMLElement,
    changed: (widthPx: number) => void = () => host.requestUpdate(),
  ) {
    this.#host = host;
    this.#observer = new ResizeObserver(([entry]) => {
      const widthPx = Math.floor(entry?.contentRect.width ?? 0);
      if (widthPx === this.widthPx) return;
      this.widthPx = widthPx;
      cancelAnimationFrame(this.#frame);
      this.#frame = requestAnimationFrame(() => changed(widthPx));
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.#observer.observe(this.#host);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
    cancelAnimationFrame(this.#frame);
  }
}
