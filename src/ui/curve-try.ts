import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';
import { cellNumber } from './curve-edit.ts';
import type { CurveChart } from './curve-reading.ts';
import { tryPoint, ZONE_LOOK } from './curve-zone.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** The two numbers of the tried point as typed. */
export interface TriedText {
  readonly speed: string;
  readonly volume: string;
}

/** `m-curve-try`: a speed and a volume, and what the chart says of them: word, shape, distance. Says `tried-typed`. */
@customElement('m-curve-try')
export class CurveTry extends LitElement {
  static override styles = [
    baseStyles,
    fieldStyles,
    css`
      .pair {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: var(--m-space-3);
        max-width: 26rem;
      }
      .says {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 0 var(--m-space-3);
        align-items: center;
        min-height: 4.5rem;
        margin-top: var(--m-space-3);
        padding: var(--m-space-3) var(--m-space-4);
        background: var(--m-sunken);
      }
      .says m-icon {
        grid-row: 1 / span 2;
        font-size: var(--m-text-xl);
      }
      .word {
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .distance {
        grid-column: 2;
        color: var(--m-ink);
      }
      .pass {
        background: var(--m-pass-soft);
        color: var(--m-pass);
      }
      .marginal {
        background: var(--m-marginal-soft);
        color: var(--m-marginal);
      }
      .fail {
        background: var(--m-fail-soft);
        color: var(--m-fail);
      }
      .invalid {
        background: var(--m-invalid-soft);
        color: var(--m-invalid);
      }
      .hint {
        grid-column: 1 / -1;
      }
    `,
  ];

  @property({ attribute: false }) chart: CurveChart | null = null;
  @property({ attribute: false }) tried: TriedText = { speed: '', volume: '' };
  /** The unit as printed, e.g. "US fl oz". */
  @property() unit = 'mL';

  #type(change: Partial<TriedText>) {
    const detail: TriedText = { ...this.tried, ...change };
    this.dispatchEvent(new CustomEvent('tried-typed', { detail, bubbles: true, composed: true }));
  }

  #field(field: keyof TriedText, label: string) {
    return html`<div class="field">
      <label class="label" for=${field}>${label}</label>
      <input
        id=${field}
        class="number"
        inputmode="decimal"
        autocomplete="off"
        .value=${this.tried[field]}
        @input=${(event: Event) => this.#type({ [field]: (event.target as HTMLInputElement).value })}
      />
    </div>`;
  }

  #says() {
    const [speed, volume] = [cellNumber(this.tried.speed), cellNumber(this.tried.volume)];
    const hint = (words: string) => html`<div class="says"><p class="hint">${words}</p></div>`;
    if (!this.chart) return hint('A point can be tried when the boundaries are without mistakes.');
    if (Number.isNaN(speed) || Number.isNaN(volume))
      return hint('Type a speed and a volume, or click on the chart.');
    const { zone, words } = tryPoint(this.chart, speed, volume, this.unit);
    const { shape, kind } = ZONE_LOOK[zone];
    return html`<div class="says ${kind}">
      <m-icon shape=${shape}></m-icon>
      <p class="word">${zone}</p>
      <p class="distance">${words}</p>
    </div>`;
  }

  override render() {
    return html`<fieldset>
      <legend>Try a point</legend>
      <div class="pair">
        ${this.#field('speed', 'Average speed, rpm')} ${this.#field('volume', `Volume, ${this.unit}`)}
      </div>
      <div role="status">${this.#says()}</div>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-curve-try': CurveTry;
  }
  interface HTMLElementEventMap {
    'tried-typed': CustomEvent<TriedText>;
  }
}
