import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';
import { spanWords as span } from './span-words.ts';

export type SourceCondition =
  'none' | 'opening' | 'waiting' | 'live' | 'stale' | 'reopening' | 'lost' | 'ended' | 'error';

const CONDITIONS: Readonly<Record<SourceCondition, { word: string; shape: IconShape; tone: string }>> = {
  none: { word: 'No source', shape: 'none', tone: 'quiet' },
  opening: { word: 'Opening', shape: 'opening', tone: 'quiet' },
  waiting: { word: 'Open, waiting for data', shape: 'waiting', tone: 'quiet' },
  live: { word: 'Live', shape: 'live', tone: 'pass' },
  stale: { word: 'Stale', shape: 'stale', tone: 'stale' },
  reopening: { word: 'Lost, opening again', shape: 'replay', tone: 'marginal' },
  lost: { word: 'Lost', shape: 'lost', tone: 'fail' },
  ended: { word: 'Ended', shape: 'ended', tone: 'quiet' },
  error: { word: 'Error', shape: 'fail', tone: 'fail' },
};

/** `m-source-state`: where data comes from and how well it comes. Only the change of state is announced, not the numbers. */
@customElement('m-source-state')
export class SourceState extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .strip {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--m-space-1) var(--m-space-4);
      }
      .state {
        display: inline-flex;
        align-items: center;
        gap: var(--m-space-2);
        font-weight: 700;
      }
      .quiet {
        color: var(--m-quiet);
      }
      .pass {
        color: var(--m-pass);
      }
      .stale {
        color: var(--m-stale);
      }
      .marginal {
        color: var(--m-marginal);
      }
      .fail {
        color: var(--m-fail);
      }
      .device {
        overflow-wrap: anywhere;
      }
      .fact {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        white-space: nowrap;
      }
      .fact.bad {
        color: var(--m-marginal);
        font-weight: 600;
      }
    `,
  ];

  @property() state: SourceCondition = 'none';
  @property({ attribute: 'device-name' }) deviceName = '';
  @property({ attribute: false }) framesPerSecond: number | null = null;
  /** Lines that could not be read, since the source was opened. */
  @property({ attribute: false }) malformed = 0;
  @property({ attribute: false }) secondsSinceLast: number | null = null;
  /** Counted up while the source is being opened again. */
  @property({ attribute: false }) secondsSinceLoss: number | null = null;

  #fact(text: string, bad = false) {
    return html`<span class="fact number ${bad ? 'bad' : ''}">${text}</span>`;
  }

  override render() {
    const { word, shape, tone } = CONDITIONS[this.state];
    const silent = this.state === 'stale' || this.state === 'lost' || this.state === 'waiting';
    return html`<div class="strip">
      <span class="state ${tone}" role="status"><m-icon shape=${shape}></m-icon>${word}</span>
      ${this.deviceName ? html`<span class="device">${this.deviceName}</span>` : nothing}
      ${this.framesPerSecond === null ? nothing : this.#fact(`${Math.round(this.framesPerSecond)} frames/s`)}
      ${this.malformed > 0 ? this.#fact(`${this.malformed} malformed`, true) : nothing}
      ${this.state === 'reopening' && this.secondsSinceLoss !== null ? this.#fact(`gone for ${span(this.secondsSinceLoss)}`, true) : nothing}
      ${silent && this.secondsSinceLast !== null ? this.#fact(`last ${span(this.secondsSinceLast)} ago`, true) : nothing}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-source-state': SourceState;
  }
}
