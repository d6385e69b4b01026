import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';

/** One line of the worksheet: what is worked out, by which rule, with which numbers, and what comes out. */
export interface ArithmeticStep {
  readonly label: string;
  readonly formula: string;
  readonly numbers: string;
  readonly result: string;
  /** Where the rule comes from, or what to mind. */
  readonly note?: string;
}

/** `m-arithmetic`: the way to the verdict as a worksheet that a person can follow with a pocket calculator. */
@customElement('m-arithmetic')
export class ArithmeticSheet extends LitElement {
  static override styles = [
    baseStyles,
    css`
      ol {
        counter-reset: step;
        border-top: var(--m-stroke-2) solid var(--m-ink);
      }
      li {
        display: grid;
        grid-template-columns: 2rem 1fr auto;
        gap: 0 var(--m-space-3);
        padding: var(--m-space-3) 0;
        border-bottom: var(--m-stroke-1) solid var(--m-line);
        counter-increment: step;
        break-inside: avoid;
      }
      li::before {
        content: counter(step);
        grid-row: 1 / span 3;
        color: var(--m-quiet);
        font-family: var(--m-font-number);
      }
      .step {
        font-weight: 600;
      }
      .formula,
      .numbers,
      .note {
        grid-column: 2;
        color: var(--m-quiet);
        overflow-wrap: anywhere;
      }
      .formula {
        font-style: italic;
      }
      .numbers {
        color: var(--m-ink);
      }
      .note {
        font-size: var(--m-text-s);
      }
      .result {
        grid-column: 3;
        grid-row: 1 / span 3;
        align-self: end;
        font-size: var(--m-text-l);
        font-weight: 600;
        white-space: nowrap;
      }
      @media (max-width: 30rem) {
        li {
          grid-template-columns: 1.5rem 1fr;
        }
        .result {
          grid-column: 2;
          grid-row: auto;
          justify-self: end;
        }
      }
    `,
  ];

  @property({ attribute: false }) steps: readonly ArithmeticStep[] = [];

  override render() {
    return html`<ol>
      ${this.steps.map(
        (step) =>
          html`<li>
            <span class="step">${step.label}</span>
            <span class="formula">${step.formula}</span>
            <span class="numbers number">${step.numbers}</span>
            ${step.note ? html`<span class="note">${step.note}</span>` : nothing}
            <span class="result number">${step.result}</span>
          </li>`,
      )}
    </ol>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-arithmetic': ArithmeticSheet;
  }
}
