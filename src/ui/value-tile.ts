import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, panelStyles } from './base-styles.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';
import { spanWords } from './span-words.ts';

/** Whether the number may be believed now. `notAvailable`: the engine sends the signal but says it has no value. */
export type ValueState = 'waiting' | 'fresh' | 'stale' | 'lost' | 'notAvailable';
export type Trend = 'rising' | 'falling' | 'steady';

/** The word and the shape of each state, wherever values are shown. */
export const VALUE_STATES: Readonly<Record<ValueState, { word: string; shape: IconShape }>> = {
  waiting: { word: 'waiting', shape: 'waiting' },
  fresh: { word: 'live', shape: 'live' },
  stale: { word: 'stale', shape: 'stale' },
  lost: { word: 'lost', shape: 'lost' },
  notAvailable: { word: 'not available', shape: 'none' },
};

/** `m-value-tile`: one number, big enough to read from three metres, with the word for how far it can be believed. */
@customElement('m-value-tile')
export class ValueTile extends LitElement {
  static override styles = [
    baseStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 0 var(--m-space-3);
        align-items: baseline;
        height: 100%;
      }
      .label {
        font-size: var(--m-text-m);
      }
      .state {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        white-space: nowrap;
      }
      .state m-icon {
        margin-right: var(--m-space-1);
      }
      .stale .state,
      .lost .state {
        font-size: var(--m-text-m);
        font-weight: 600;
      }
      .huge.stale .state,
      .huge.lost .state {
        font-size: var(--m-text-l);
      }
      .fresh .state m-icon {
        color: var(--m-pass);
      }
      .reading {
        grid-column: 1 / -1;
        display: flex;
        align-items: last baseline;
        gap: var(--m-space-2);
        white-space: nowrap;
        line-height: 1.02;
      }
      .value {
        font-size: var(--m-text-xxl);
        font-weight: 600;
        letter-spacing: -0.01em;
      }
      .huge .value {
        font-size: var(--m-text-huge);
      }
      .unit {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .huge .unit {
        font-size: var(--m-text-beside);
      }
      .huge .five {
        font-size: var(--m-text-huge-5);
      }
      .huge .more {
        font-size: var(--m-text-huge-6);
      }
      .side {
        display: inline-flex;
        flex-direction: row-reverse;
        gap: var(--m-space-2);
        align-items: baseline;
      }
      .huge .side {
        display: inline-grid;
        gap: 0.2em;
      }
      @container (max-width: 15rem) {
        .panel {
          grid-template-columns: 1fr;
        }
        .reading {
          flex-wrap: wrap;
        }
        .value {
          font-size: var(--m-text-xl);
        }
        .unit {
          font-size: var(--m-text-m);
        }
      }
      @container (max-width: 9.5rem) {
        .value {
          font-size: var(--m-text-l);
        }
      }
      .trend {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .waiting .value,
      .notAvailable .value,
      .lost .value {
        color: var(--m-quiet);
        font-weight: 400;
      }
      .stale,
      .lost {
        border-style: dashed;
        border-color: var(--m-stale);
        background: var(--m-stale-soft);
      }
      .stale .value,
      .stale .state,
      .stale .unit,
      .lost .value,
      .lost .state,
      .lost .unit,
      .lost .label,
      .stale .label {
        color: var(--m-stale);
      }
      .stale .value {
        font-weight: 400;
      }
    `,
  ];

  @property() label = '';
  /** The number as it is to be shown, already in the person's unit. */
  @property() value = '';
  @property() unit = '';
  @property() state: ValueState = 'waiting';
  /** Seconds since the reading; shown with stale and lost. */
  @property({ type: Number, attribute: 'age-seconds' }) ageSeconds: number | null = null;
  @property() size: 'huge' | 'normal' = 'normal';
  @property() trend: Trend | null = null;

  #word(): string {
    const { word } = VALUE_STATES[this.state];
    const aged = this.state === 'stale' || this.state === 'lost';
    return aged && this.ageSeconds !== null ? `${word} ${spanWords(this.ageSeconds)}` : word;
  }

  /** A value that is lost or never came is not printed as if it were current. */
  #shown(): string {
    return this.state === 'fresh' || this.state === 'stale' ? this.value : '– –';
  }

  override render() {
    const shown = this.#shown();
    return html`<div class="panel graduated ${this.state} ${this.size}" role="group" aria-label=${this.label}>
      <span class="label">${this.label}</span>
      <span class="state"><m-icon shape=${VALUE_STATES[this.state].shape}></m-icon>${this.#word()}</span>
      <div class="reading">
        <span class="value number ${shown.length > 5 ? 'more' : shown.length > 4 ? 'five' : ''}"
          >${shown}</span
        >
        <span class="side">
          ${
            this.trend && this.state === 'fresh'
              ? html`<m-icon class="trend" shape=${this.trend} label=${this.trend}></m-icon>`
              : nothing
          }
          <span class="unit">${this.unit}</span>
        </span>
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-value-tile': ValueTile;
  }
}
