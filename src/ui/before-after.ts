import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { VerdictWord } from '../grading/verdict.ts';
import { baseStyles, panelStyles } from './base-styles.ts';
import { sureText, wordLook, type FindingLook } from './finding-look.ts';
import { findingPlate, findingStyles } from './finding-plate.ts';

/** What a check gave before or after the work. `value` with unit and uncertainty, as shown. */
export interface ResultView {
  readonly value: string;
  readonly word: VerdictWord | 'disagree';
  readonly confidence: number | null;
  /** How many runs it stands on. */
  readonly runs: number;
}

/** Whether a difference is more than the uncertainties explain. */
export type ChanceWord = 'more than chance' | 'may be chance' | 'not comparable';

export interface BeforeAfterRow {
  readonly checkId: string;
  readonly title: string;
  readonly before: ResultView | null;
  readonly after: ResultView | null;
  /** After minus before, with unit and uncertainty, as shown; empty where there is none. */
  readonly difference: string;
  readonly chance: ChanceWord;
}

const CHANCE_LOOK: Readonly<Record<ChanceWord, FindingLook>> = {
  'more than chance': { shape: 'live', kind: 'cranking', words: 'more than chance' },
  'may be chance': { shape: 'unsure', kind: 'unsure', words: 'may be chance' },
  'not comparable': { shape: 'none', kind: 'plain', words: 'not comparable' },
};

/** `m-before-after`: each check before and after the work side by side, the difference, and whether it is more than chance. */
@customElement('m-before-after')
export class BeforeAfter extends LitElement {
  static override styles = [
    baseStyles,
    panelStyles,
    css`
      ${findingStyles}
      :host {
        container-type: inline-size;
      }
      .panel {
        padding: 0;
      }
      .row {
        display: grid;
        grid-template-columns: minmax(0, 1.2fr) repeat(3, minmax(0, 1fr));
        gap: var(--m-space-2) var(--m-space-4);
        padding: var(--m-space-3) var(--m-space-4);
        break-inside: avoid;
      }
      .row + .row {
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      h3 {
        font-size: var(--m-text-m);
        overflow-wrap: anywhere;
      }
      .side {
        display: grid;
        gap: var(--m-space-1);
        align-content: start;
        justify-items: start;
      }
      .value {
        font-size: var(--m-text-l);
        font-weight: 600;
      }
      .none {
        color: var(--m-quiet);
      }
      @media screen {
        @container (max-width: 44rem) {
          .row {
            grid-template-columns: repeat(2, minmax(0, 1fr));
          }
          h3,
          .change {
            grid-column: 1 / -1;
          }
        }
      }
      @media print {
        .panel {
          border-width: var(--m-stroke-1) 0;
        }
        .row {
          padding: var(--m-space-2) 0;
          font-size: var(--m-text-s);
        }
        .value,
        h3 {
          font-size: inherit;
        }
      }
    `,
  ];

  @property({ attribute: false }) rows: readonly BeforeAfterRow[] = [];
  /** What lies between, e.g. "Metering valve replaced"; empty where it is clear. */
  @property() work = '';

  #side(name: 'Before' | 'After', result: ResultView | null) {
    return html`<div class="side">
      <p class="label">${name}</p>
      ${
        result === null
          ? html`<p class="none">${name === 'Before' ? 'not measured' : 'not repeated yet'}</p>`
          : html`<p class="value number">${result.value || '–'}</p>
              ${findingPlate(wordLook(result.word))}
              <p class="label">
                ${[sureText(result.confidence), `${result.runs} ${result.runs === 1 ? 'run' : 'runs'}`].filter(Boolean).join(', ')}
              </p>`
      }
    </div>`;
  }

  #row({ title, before, after, difference, chance }: BeforeAfterRow) {
    const both = before !== null && after !== null;
    return html`<li class="row">
      <h3>${title}</h3>
      ${this.#side('Before', before)} ${this.#side('After', after)}
      <div class="side change">
        <p class="label">Difference</p>
        ${
          both
            ? html`${difference ? html`<p class="value number">${difference}</p>` : nothing}
              ${findingPlate(CHANCE_LOOK[chance])}`
            : html`<p class="none">–</p>`
        }
      </div>
    </li>`;
  }

  override render() {
    if (this.rows.length === 0) {
      return html`<p class="label">
        Nothing to compare yet. After work is noted, each check that was done before and after it stands here
        side by side.
      </p>`;
    }
    return html`<ul
      class="panel"
      aria-label=${this.work ? `Before and after: ${this.work}` : 'Before and after'}
    >
      ${this.rows.map((row) => this.#row(row))}
    </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-before-after': BeforeAfter;
  }
}
