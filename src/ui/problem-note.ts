import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles } from './base-styles.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';

export type ProblemTone = 'info' | 'warn' | 'error';

const TONES: Readonly<Record<ProblemTone, { shape: IconShape; word: string }>> = {
  info: { shape: 'info', word: 'Note' },
  warn: { shape: 'marginal', word: 'Caution' },
  error: { shape: 'fail', word: 'Problem' },
};

/** `m-problem`: what happened and what to do about it. Slot: further actions. */
@customElement('m-problem')
export class ProblemNote extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .note {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-1) var(--m-space-3);
        padding: var(--m-space-3) var(--m-space-4);
        border-left: var(--m-space-1) solid currentColor;
        background: var(--m-sunken);
        color: var(--m-quiet);
      }
      .warn {
        background: var(--m-marginal-soft);
        color: var(--m-marginal);
      }
      .error {
        background: var(--m-fail-soft);
        color: var(--m-fail);
      }
      m-icon {
        font-size: var(--m-text-l);
      }
      .message {
        color: var(--m-ink);
        font-weight: 600;
      }
      .remedy,
      slot {
        grid-column: 2;
        color: var(--m-ink);
      }
    `,
  ];

  @property({ attribute: false }) problem: ProblemText | null = null;
  @property() tone: ProblemTone = 'warn';

  override render() {
    if (!this.problem) return nothing;
    const { shape, word } = TONES[this.tone];
    return html`<div class="note ${this.tone}" role=${this.tone === 'error' ? 'alert' : 'note'}>
      <m-icon shape=${shape} label=${word}></m-icon>
      <p class="message">${this.problem.message}</p>
      <p class="remedy">${this.problem.remedy}</p>
      <slot></slot>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-problem': ProblemNote;
  }
}
