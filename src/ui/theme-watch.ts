import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { colourProperty, PRINT, type ColourName } from './tokens.ts';

/**
 * Tells an element that paints a canvas when the colours change: system preference, the document's data-theme, print.
 * Listens only while the element is connected.
 */
export class ThemeWatch implements ReactiveController {
  #printing = false;
  readonly #dark = matchMedia('(prefers-color-scheme: dark)');
  readonly #print = matchMedia('print');
  readonly #observer = new MutationObserver(() => this.#changed());
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #changed: () => void;

  constructor(host: ReactiveControllerHost & HTMLElement, changed: () => void) {
    this.#host = host;
    this.#changed = changed;
    host.addController(this);
  }

  /** The colour as it is now; paper colours while printing, whatever the screen shows. */
  colour(name: ColourName): string {
    if (this.#printing || this.#print.matches) return PRINT[name];
    return getComputedStyle(this.#host).getPropertyValue(colourProperty(name)).trim() || PRINT[name];
  }

  readonly #beforePrint = () => {
    this.#printing = true;
    this.#changed();
  };
  readonly #afterPrint = () => {
    this.#printing = false;
    this.#changed();
  };

  hostConnected(): void {
    this.#dark.addEventListener('change', this.#changed);
    this.#print.addEventListener('change', this.#changed);
    addEventListener('beforeprint', this.#beforePrint);
    addEventListener('afterprint', this.#afterPrint);
    this.#observer.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  }

  hostDisconnected(): void {
    this.#dark.removeEventListener('change', this.#changed);
    this.#print.removeEventListener('change', this.#changed);
    removeEventListener('beforeprint', this.#beforePrint);
    removeEventListener('afterprint', this.#afterPrint);
    this.#observer.disconnect();
  }
}
