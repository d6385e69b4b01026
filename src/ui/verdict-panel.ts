import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { NearestBoundary, VerdictWord, Zone } from '../grading/verdict.ts';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles } from './base-styles.ts';
import type { IconShape } from './shape-icon.ts';
import type { Meaning } from './tokens.ts';
import './problem-note.ts';
import './shape-icon.ts';

/** What a verdict says on a screen: a graded Verdict with its problems already put into words. */
export interface VerdictView {
  readonly word: VerdictWord;
  readonly leaning: Zone | null;
  readonly confidence: number | null;
  readonly nearest: NearestBoundary | null;
  readonly reasons: readonly ProblemText[];
  readonly warnings: readonly ProblemText[];
  /** Why the verdict is not final yet, e.g. as its limit sheet was not confirmed for long; absent or null where nothing keeps it open. */
  readonly notFinal?: string | null;
}

/** The shape and meaning that go with each word; shape and meaning share their names. */
export const VERDICT_MEANING: Readonly<Record<VerdictWord, Meaning & IconShape>> = {
  pass: 'pass',
  marginal: 'marginal',
  'fail low': 'fail',
  'fail high': 'fail',
  'too close to call': 'unsure',
  'not valid': 'invalid',
};

const BOUNDARY_WORDS: Readonly<Record<NearestBoundary['name'], string>> = {
  failBelow: 'the fail line',
  passAbove: 'the pass line',
  failAbove: 'the upper fail line',
  min: 'the minimum',
  max: 'the maximum',
};

const digits = (value: number) => (Math.abs(value) < 10 ? value.toFixed(1) : value.toFixed(0));

/**
 * The distance in words, e.g. "35 mL below the minimum (28 %)".
 * @param unit of the value; the percentage is left out where the boundary is 0
 */
export function distanceText(nearest: NearestBoundary, unit: string): string {
  const side = nearest.distance < 0 ? 'below' : 'above';
  const percent = Number.isFinite(nearest.distancePercent)
    ? ` (${digits(Math.abs(nearest.distancePercent))}\u00a0%)`
    : '';
  return `${digits(Math.abs(nearest.distance))}\u00a0${unit} ${side} ${BOUNDARY_WORDS[nearest.name]}${percent}`;
}

/** Never rounds up to certainty: 0.9996 is "more than 99.9 %". */
export function confidenceText(confidence: number): string {
  return confidence > 0.999
    ? 'more than 99.9\u00a0%'
    : `${(Math.floor(confidence * 1000) / 10).toFixed(1)}\u00a0%`;
}

/** `m-verdict`: the verdict as one huge word with its shape, how far it is from the line, and how sure. Slot: actions. */
@customElement('m-verdict')
export class VerdictPanel extends LitElement {
  static override styles = [
    baseStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .verdict {
        padding: var(--m-space-5);
        border: var(--m-stroke-3) solid currentColor;
        border-radius: var(--m-radius-1);
        color: var(--m-invalid);
        background: var(--m-invalid-soft);
      }
      .pass {
        color: var(--m-pass);
        background: var(--m-pass-soft);
      }
      .marginal {
        color: var(--m-marginal);
        background: var(--m-marginal-soft);
      }
      .fail {
        color: var(--m-fail);
        background: var(--m-fail-soft);
      }
      .unsure {
        color: var(--m-unsure);
        background: var(--m-unsure-soft);
      }
      .invalid {
        border-style: dashed;
      }
      .word {
        display: flex;
        align-items: center;
        gap: 0.22em;
        font-size: var(--m-text-word);
        font-weight: 700;
        line-height: 1;
        letter-spacing: -0.02em;
      }
      .word span::first-letter {
        text-transform: uppercase;
      }
      .word m-icon {
        width: 0.82em;
        height: 0.82em;
      }
      .open {
        display: flex;
        gap: var(--m-space-2);
        align-items: center;
        margin-top: var(--m-space-3);
        padding: var(--m-space-2) var(--m-space-3);
        border: var(--m-stroke-2) dashed currentColor;
        color: var(--m-ink);
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .fact {
        margin-top: var(--m-space-3);
        color: var(--m-ink);
        font-size: var(--m-text-l);
      }
      .fact strong {
        font-size: 1.25em;
      }
      .sheet {
        margin-top: var(--m-space-2);
        color: var(--m-ink);
        font-size: var(--m-text-s);
      }
      m-problem {
        margin-top: var(--m-space-2);
      }
      ::slotted(*) {
        margin-top: var(--m-space-3);
      }
      @media print {
        .verdict {
          print-color-adjust: exact;
        }
      }
    `,
  ];

  @property({ attribute: false }) verdict: VerdictView | null = null;
  @property() unit = 'mL';
  /** Which limit sheet and revision it stands on, and whether that is invented for practice. */
  @property({ attribute: 'sheet-line' }) sheetLine = '';

  #confidence({ word, leaning, confidence }: VerdictView) {
    if (confidence === null || leaning === null) return nothing;
    const sure = confidenceText(confidence);
    return word === 'too close to call'
      ? html`<p class="fact">
          Leaning to <strong>${leaning}</strong>, ${sure} sure. Less than 95 % is no verdict.
        </p>`
      : html`<p class="fact">${sure} sure</p>`;
  }

  override render() {
    const { verdict } = this;
    if (!verdict) return nothing;
    const meaning = VERDICT_MEANING[verdict.word];
    return html`<section class="verdict ${meaning}" aria-label="Verdict">
        <p class="word" role="status"><m-icon shape=${meaning}></m-icon><span>${verdict.word}</span></p>
        ${
          verdict.notFinal
            ? html`<p class="open"><m-icon shape="unsure"></m-icon><span>${verdict.notFinal}</span></p>`
            : nothing
        }
        ${
          verdict.nearest
            ? html`<p class="fact number"><strong>${distanceText(verdict.nearest, this.unit)}</strong></p>`
            : nothing
        }
        ${this.#confidence(verdict)}
        ${this.sheetLine ? html`<p class="sheet">${this.sheetLine}</p>` : nothing}
        <slot></slot>
      </section>
      ${verdict.reasons.map((reason) => html`<m-problem tone="error" .problem=${reason}></m-problem>`)}
      ${verdict.warnings.map((warning) => html`<m-problem tone="warn" .problem=${warning}></m-problem>`)}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-verdict': VerdictPanel;
  }
}
