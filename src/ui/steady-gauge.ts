import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatNumber } from '../quantities/format.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { heldStrip, heldStyles } from './held-strip.ts';
import type { HeldView } from './held-words.ts';
import { figureSize, liveStyles } from './live-styles.ts';
import './shape-icon.ts';
import { VALUE_STATES, type Trend, type ValueState } from './value-tile.ts';
import './value-window.ts';

/** A pressure at an operating point as it is to be shown: pressures in the person's unit, times in seconds. */
export interface SteadyView {
  readonly label: string;
  readonly value: number | null;
  readonly state: ValueState;
  readonly unit: string;
  readonly digits: number;
  readonly trend: Trend | null;
  /** The limit, if there is one. */
  readonly min: number | null;
  readonly max: number | null;
  /** Engine speed against the window it has to be in; null when any speed does. */
  readonly speed: HeldView | null;
  /** How long it has been steady now, and how long it has to be. */
  readonly steadySeconds: number;
  readonly neededSeconds: number;
  /** The steady stretch found: mean and half its spread. */
  readonly found: { readonly mean: number; readonly halfSpread: number; readonly seconds: number } | null;
  /** What is still missing, each in a sentence that says what to do; the first is called out. */
  readonly missing: readonly string[];
}

export const WAITING_STEADY: SteadyView = {
  label: 'Pressure',
  value: null,
  state: 'waiting',
  unit: 'kPa',
  digits: 0,
  trend: null,
  min: null,
  max: null,
  speed: null,
  steadySeconds: 0,
  neededSeconds: 5,
  found: null,
  missing: [],
};

/**
 * `m-steady-gauge`: the pressure now, whether the engine turns as asked, how long it has been steady, and the mean that was found.
 * Events: `stretch-taken` (the steady stretch found is the one), `done`.
 */
@customElement('m-steady-gauge')
export class SteadyGauge extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    liveStyles,
    heldStyles,
    css`
      .steadiness {
        display: grid;
        gap: var(--m-space-1);
        margin-top: var(--m-space-3);
      }
      progress {
        width: 100%;
        height: var(--m-space-5);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-sunken);
        appearance: none;
      }
      progress::-webkit-progress-bar {
        background: var(--m-sunken);
      }
      progress::-webkit-progress-value {
        background: var(--m-cranking);
      }
      progress::-moz-progress-bar {
        background: var(--m-cranking);
      }
      .good progress::-webkit-progress-value {
        background: var(--m-pass);
      }
      .good progress::-moz-progress-bar {
        background: var(--m-pass);
      }
      .found {
        margin-top: var(--m-space-3);
        font-size: var(--m-text-l);
      }
      .found strong {
        font-size: var(--m-text-xl);
      }
      m-value-window {
        margin-top: var(--m-space-3);
      }
      ul {
        margin-top: var(--m-space-2);
        color: var(--m-quiet);
      }
    `,
  ];

  @property({ attribute: false }) view: SteadyView = WAITING_STEADY;
  /** Offers to take the stretch by hand instead of the first that is long enough. */
  @property({ type: Boolean, attribute: 'can-take' }) canTake = false;

  #say(name: 'done' | 'stretch-taken') {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }

  #number(value: number): string {
    return formatNumber(value, { decimals: this.view.digits });
  }

  #prompt(): string {
    const { found, missing, label } = this.view;
    if (missing[0]) return missing[0];
    return found
      ? 'Found. Go on when you are ready.'
      : `Hold the engine there until ${label.toLowerCase()} is steady.`;
  }

  #steadiness() {
    const { steadySeconds, neededSeconds, found } = this.view;
    const done = found !== null || steadySeconds >= neededSeconds;
    const words = done ? 'steady long enough' : steadySeconds > 0 ? 'steady' : 'not steady yet';
    return html`<div class="steadiness">
      <p class="number">
        <m-icon shape=${done ? 'pass' : steadySeconds > 0 ? 'steady' : 'waiting'}></m-icon>
        ${words}, ${(Math.floor(steadySeconds * 10 + 1e-9) / 10).toFixed(1)} of ${neededSeconds} s
      </p>
      <progress
        aria-label="Steady for"
        max=${neededSeconds}
        value=${Math.min(steadySeconds, neededSeconds)}
      ></progress>
    </div>`;
  }

  #found() {
    const { found, unit } = this.view;
    if (!found) return nothing;
    return html`<p class="found number">
      Mean <strong>${this.#number(found.mean)} ± ${this.#number(found.halfSpread)} ${unit}</strong> over
      ${found.seconds.toFixed(1)} s <span class="label">(± half the spread)</span>
    </p>`;
  }

  #scale() {
    const { view } = this;
    if (view.min === null && view.max === null) return nothing;
    const { found, value } = view;
    const shown = found ? found.mean : view.state === 'fresh' ? value : null;
    const mark =
      shown === null
        ? null
        : { value: shown, halfWidth: found?.halfSpread ?? 0, label: found ? 'mean' : 'now' };
    return html`<m-value-window
      label=${view.label}
      unit=${view.unit}
      .digits=${view.digits}
      .min=${view.min}
      .max=${view.max}
      .value=${mark}
    ></m-value-window>`;
  }

  #actions() {
    const { found, missing } = this.view;
    const ready = found !== null && missing.length === 0;
    return html`<div class="actions">
      <button
        class="primary"
        aria-disabled=${!ready}
        aria-describedby="prompt"
        @click=${() => ready && this.#say('done')}
      >
        Done: grade it
      </button>
      ${this.canTake && found ? html`<button class="take" @click=${() => this.#say('stretch-taken')}>Take this stretch</button>` : nothing}
    </div>`;
  }

  #figure() {
    const { view } = this;
    const believed = (view.state === 'fresh' || view.state === 'stale') && view.value !== null;
    const shown = believed ? this.#number(view.value) : '– –';
    return html`<p class="huge">
      <span class="figure number ${figureSize(shown)} ${believed ? '' : 'none'}">${shown}</span>
      ${view.trend && view.state === 'fresh' ? html`<m-icon class="beside" shape=${view.trend} label=${view.trend}></m-icon>` : nothing}
      <span class="beside">${view.unit}</span>
    </p>`;
  }

  override render() {
    const { view } = this;
    const { word, shape } = VALUE_STATES[view.state];
    const ready = view.found !== null && view.missing.length === 0;
    const tone = ready ? 'good' : view.missing.length > 0 ? 'soon' : 'active';
    return html`<section class="panel ${tone}" aria-label=${view.label}>
      <p class="top">
        <span class="name">${view.label}</span
        ><span class="state"><m-icon shape=${shape}></m-icon>${word}</span>
      </p>
      ${this.#figure()} ${view.speed ? heldStrip(view.speed) : nothing} ${this.#steadiness()} ${this.#found()}
      ${this.#scale()}
      <p class="prompt" id="prompt" role="status">${this.#prompt()}</p>
      ${
        view.missing.length > 1
          ? html`<ul>
              ${view.missing.slice(1).map((each) => html`<li>${each}</li>`)}
            </ul>`
          : nothing
      }
      ${this.#actions()}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-steady-gauge': SteadyGauge;
  }
  interface HTMLElementEventMap {
    done: CustomEvent<void>;
    'stretch-taken': CustomEvent<void>;
  }
}
