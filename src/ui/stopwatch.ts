import { css, html, LitElement, nothing, svg, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import type { ClockWarning } from './crank-clock-words.ts';
import { heldStrip, heldStyles } from './held-strip.ts';
import { figureSize, liveStyles } from './live-styles.ts';
import { readSpan } from './read-span.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';
import {
  READY_STOPWATCH,
  STOPWATCH_STATES,
  stopwatchPrompt,
  stopwatchState,
  stopwatchWarning,
  timeMissed,
  type StopwatchView,
} from './stopwatch-words.ts';

/** A press that started or stopped the clock by a person's hand. */
export interface ClockPressed {
  readonly by: 'hand';
}
export interface ClockWarned {
  readonly warn: Exclude<ClockWarning, null>;
}
export interface TimeTyped {
  readonly spanMs: number;
  readonly typed: string;
}

const BAR_WIDTH = 1000;
const BAR_HEIGHT = 60;
/** A gloved hand may press twice: the second press must not stop the clock. */
const BOUNCE_SECONDS = 0.5;
/** Longest collection that anybody stands beside: common practice, no source. */
const SPAN_RANGE = { min: 0.5, max: 3600 };

/** Space belongs to these themselves. */
const KEEPS_SPACE =
  'button, input, textarea, select, summary, a[href], label, [contenteditable], [role=button]';

/**
 * `m-stopwatch`: how long has been collected, of how long. Starts and stops by hand (button, or Space anywhere on the page), or by itself;
 * it keeps no time: the page sets `view`. Events: `clock-start`, `clock-stop`, `clock-reset` (asked about first),
 * `clock-warn` at each new warning, `time-typed`.
 */
@customElement('m-stopwatch')
export class Stopwatch extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    liveStyles,
    heldStyles,
    css`
      .bad .figure {
        color: var(--m-fail);
      }
      svg.bar {
        display: block;
        width: 100%;
        height: var(--m-space-7);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-right-width: var(--m-space-1);
        border-radius: var(--m-radius-1);
        background: var(--m-sunken);
      }
      .fill {
        fill: var(--m-cranking);
      }
      .good .fill {
        fill: var(--m-pass);
      }
      .bad .fill {
        fill: var(--m-fail);
      }
      .tick {
        stroke: var(--m-mark);
        stroke-width: 1;
        vector-effect: non-scaling-stroke;
      }
      .tick.long {
        stroke-width: 2;
      }
      .go {
        flex: 1 1 14rem;
        min-height: calc(var(--m-key) * 1.5);
        font-size: var(--m-text-xl);
      }
      .ask {
        flex: 1 1 100%;
        font-weight: 700;
      }
      .hint {
        flex: 1 1 100%;
      }
    `,
  ];

  @property({ attribute: false }) view: StopwatchView = READY_STOPWATCH;
  /** Offers to type the time instead. */
  @property({ attribute: false }) canType = true;
  @state() private _asking = false;
  @state() private _typed = '';
  @state() private _refusal = '';
  #warned: ClockWarning = null;

  override connectedCallback() {
    super.connectedCallback();
    document.addEventListener('keydown', this.#keyed);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.#keyed);
  }

  protected override willUpdate(changed: PropertyValues<this>) {
    // The question is about the time that stood there when it was asked.
    if (changed.has('view') && this.view.phase === 'ready') this._asking = false;
  }

  protected override updated(changed: PropertyValues<this>) {
    if (!changed.has('view')) return;
    const warn = stopwatchWarning(this.view);
    const before = this.#warned;
    this.#warned = warn;
    if (warn !== null && warn !== before) this.#say<ClockWarned>('clock-warn', { warn });
  }

  #say<T>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent<T>(name, { detail, bubbles: true, composed: true }));
  }

  readonly #keyed = (event: KeyboardEvent) => {
    if (event.key !== ' ' || event.repeat || event.defaultPrevented || event.ctrlKey || event.altKey) return;
    const target = event.composedPath()[0];
    if (target instanceof Element && target.closest(KEEPS_SPACE)) return;
    if (this.view.startedBy !== 'hand' || this.view.phase === 'stopped' || this._asking) return;
    event.preventDefault();
    this.#press();
  };

  #press() {
    const { phase, elapsedSeconds } = this.view;
    if (phase === 'ready') this.#say<ClockPressed>('clock-start', { by: 'hand' });
    else if (phase === 'running' && elapsedSeconds >= BOUNCE_SECONDS) {
      this.#say<ClockPressed>('clock-stop', { by: 'hand' });
    }
  }

  async #focus(selector: string) {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }

  #ask(asking: boolean) {
    this._asking = asking;
    void this.#focus(asking ? '.keep' : '.reset');
  }

  #reset() {
    this._asking = false;
    this.#say('clock-reset', null);
    void this.#focus('.go, .reset');
  }

  readonly #typedIn = (event: Event) => {
    event.preventDefault();
    const read = readSpan(this._typed, SPAN_RANGE);
    this._refusal = 'refusal' in read ? read.refusal : '';
    if ('refusal' in read) return void this.#focus('#typed');
    this.#say<TimeTyped>('time-typed', { spanMs: Math.round(read.value * 1000), typed: this._typed.trim() });
  };

  #tone(): string {
    const clock = stopwatchState(this.view);
    if (clock === 'over') return 'bad loud';
    if (clock === 'done') return timeMissed(this.view) === 0 ? 'good' : 'bad';
    if (clock === 'ready') return '';
    const warn = stopwatchWarning(this.view);
    if (warn === 'now') return 'active now';
    const off = this.view.held !== null && this.view.held.state !== 'in';
    return warn !== null || off ? 'active soon' : 'active';
  }

  #bar() {
    const { elapsedSeconds, targetSeconds } = this.view;
    const part = targetSeconds > 0 ? Math.min(1, Math.max(0, elapsedSeconds / targetSeconds)) : 0;
    const step = targetSeconds > 120 ? 30 : targetSeconds > 30 ? 5 : 1;
    const count = Math.max(0, Math.ceil(targetSeconds / step) - 1);
    const ticks = Array.from({ length: Math.min(count, 120) }, (_, index) => index + 1);
    return html`<svg
      class="bar"
      viewBox="0 0 ${BAR_WIDTH} ${BAR_HEIGHT}"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      ${svg`<rect class="fill" width=${part * BAR_WIDTH} height=${BAR_HEIGHT} />`}
      ${ticks.map((tick) => {
        const x = ((tick * step) / targetSeconds) * BAR_WIDTH;
        const long = step === 1 ? tick % 5 === 0 : tick % 2 === 0;
        return svg`<line class="tick ${long ? 'long' : ''}" x1=${x} x2=${x} y1=${long ? 26 : 42} y2=${BAR_HEIGHT} />`;
      })}
    </svg>`;
  }

  /** By hand: one big button that is Start and then Stop. By itself: a small way out, should the signal never come. */
  #pressing() {
    const { phase, startedBy } = this.view;
    if (phase === 'stopped') return nothing;
    const word = phase === 'ready' ? 'Start' : 'Stop';
    if (startedBy === 'hand') {
      return html`<button class="go primary" aria-keyshortcuts="Space" @click=${() => this.#press()}>
        ${word}
      </button>`;
    }
    return html`<button class="by-hand" @click=${() => this.#press()}>${word} by hand instead</button>`;
  }

  #actions() {
    if (this._asking) {
      return html`<div
        class="actions"
        role="group"
        aria-label="Start over"
        @keydown=${(event: KeyboardEvent) => event.key === 'Escape' && this.#ask(false)}
      >
        <p class="ask" role="alert">Throw this time away? The volume collected so far no longer counts.</p>
        <button class="danger" @click=${() => this.#reset()}>Throw it away</button>
        <button class="keep" @click=${() => this.#ask(false)}>Keep it</button>
      </div>`;
    }
    const { phase, startedBy } = this.view;
    return html`<div class="actions">
      ${this.#pressing()}
      ${
        phase === 'ready'
          ? nothing
          : html`<button class="reset" @click=${() => this.#ask(true)}>
              <m-icon shape="replay"></m-icon>Start over
            </button>`
      }
      ${startedBy === 'hand' && phase !== 'stopped' ? html`<p class="label hint">The space bar does the same.</p>` : nothing}
    </div>`;
  }

  #typing() {
    if (!this.canType || this.view.phase === 'running') return nothing;
    return html`<details>
      <summary><m-icon shape="more"></m-icon>Type the time instead</summary>
      <form @submit=${this.#typedIn}>
        <div class="field">
          <label class="label" for="typed">Time of collecting, s or min:s</label>
          <input
            id="typed"
            class="number"
            inputmode="text"
            autocomplete="off"
            aria-invalid=${this._refusal ? 'true' : 'false'}
            aria-describedby="refusal"
            .value=${this._typed}
            @input=${(event: Event) => {
              this._typed = (event.target as HTMLInputElement).value;
              this._refusal = '';
            }}
          />
          <p class="mistake" id="refusal" role="alert">
            ${this._refusal ? html`<m-icon shape="fail"></m-icon><span>${this._refusal}</span>` : nothing}
          </p>
        </div>
        <button>Use this time</button>
      </form>
    </details>`;
  }

  override render() {
    const { view } = this;
    const figure = view.elapsedSeconds.toFixed(1);
    const { word, shape } = STOPWATCH_STATES[stopwatchState(view)];
    return html`<section class="panel ${this.#tone()}" aria-label="Collection clock">
      <p class="top">
        <span class="name">Collecting time</span>
        <span class="state"><m-icon shape=${shape}></m-icon>${view.typed ? 'typed' : word}</span>
      </p>
      <p class="huge">
        <span class="figure number ${figureSize(figure)}">${figure}</span
        ><span class="beside number">of ${view.targetSeconds} s</span>
      </p>
      ${this.#bar()} ${view.held ? heldStrip(view.held) : nothing}
      <p class="prompt" role="status">${stopwatchPrompt(view)}</p>
      ${this.#actions()} ${this.#typing()}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-stopwatch': Stopwatch;
  }
  interface HTMLElementEventMap {
    'clock-start': CustomEvent<ClockPressed>;
    'clock-stop': CustomEvent<ClockPressed>;
    'clock-reset': CustomEvent<null>;
    'clock-warn': CustomEvent<ClockWarned>;
    'time-typed': CustomEvent<TimeTyped>;
  }
}
