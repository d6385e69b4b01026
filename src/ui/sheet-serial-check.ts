import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './problem-note.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import { stateStyles } from './sheet-state-styles.ts';
import { confirmationLook, type ConfirmationView } from './sheet-words.ts';
import './shape-icon.ts';

/** A sheet in the answer. */
export interface AnswerSheet {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly validFrom: string;
  readonly confirmation: ConfirmationView;
}

/** A sheet that does not hold, and why; `otherCheck` where it has no limit for the check. */
export interface PassedOver {
  readonly id: string;
  readonly otherCheck: boolean;
  readonly title: string;
  readonly revision: string;
  readonly why: string;
}

/** Which sheet holds. `one`: this one; `several`: a person has to choose; `none`: none here. `why` is plain words in each case. */
export interface SerialAnswer {
  readonly kind: 'one' | 'several' | 'none';
  readonly why: string;
  /** The checks for which this is so, by their titles. */
  readonly checks: readonly string[];
  readonly sheets: readonly AnswerSheet[];
  readonly passedOver: readonly PassedOver[];
  readonly warnings: readonly ProblemText[];
}

/** What is asked, as typed. `onDate` is yyyy-mm-dd, or empty. */
export interface SerialAsked {
  readonly serial: string;
  readonly onDate: string;
}

const HEADS = {
  one: { shape: 'pass', kind: 'pass', words: 'One sheet holds' },
  several: { shape: 'unsure', kind: 'unsure', words: 'More than one may hold' },
  none: { shape: 'invalid', kind: 'invalid', words: 'No sheet holds' },
} as const;

/**
 * `m-serial-check`: a serial number and a day, and which sheet holds for them, and why. Says `serial-asked` at every change; the
 * page gives `answers`. `answer-opened` opens a sheet of the answer.
 */
@customElement('m-serial-check')
export class SerialCheck extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    stateStyles,
    css`
      .panel,
      .answer,
      ul {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
      }
      h2 {
        font-size: var(--m-text-l);
        line-height: 1.2;
      }
      .ask {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(14rem, 100%), 1fr));
        gap: var(--m-space-3);
        max-width: var(--m-measure);
      }
      .answer + .answer {
        margin-top: var(--m-space-4);
        padding-top: var(--m-space-4);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      .checks {
        max-width: var(--m-measure);
        font-weight: 600;
      }
      .head {
        justify-self: start;
        font-size: var(--m-text-l);
      }
      .why {
        max-width: var(--m-measure);
        overflow-wrap: anywhere;
      }
      .sheet {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--m-space-2) var(--m-space-4);
        align-items: center;
        padding: var(--m-space-3) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        border-left: var(--m-space-1) solid var(--m-accent);
      }
      .title {
        font-weight: 700;
        overflow-wrap: anywhere;
      }
      .sheet .state {
        grid-column: 1 / -1;
        justify-self: start;
      }
      details summary {
        min-height: var(--m-target);
        line-height: var(--m-target);
        cursor: pointer;
      }
      details ul {
        gap: var(--m-space-2);
      }
    `,
  ];

  @property() serial = '';
  /** The day of the run as yyyy-mm-dd. */
  @property({ attribute: 'on-date' }) onDate = '';
  /** What the page found: one answer for all checks for which it is the same; none while nothing is asked. */
  @property({ attribute: false }) answers: readonly SerialAnswer[] = [];

  #ask(change: Partial<SerialAsked>) {
    if (change.serial !== undefined) this.serial = change.serial;
    if (change.onDate !== undefined) this.onDate = change.onDate;
    const detail: SerialAsked = { serial: this.serial.trim(), onDate: this.onDate };
    this.dispatchEvent(new CustomEvent('serial-asked', { detail, bubbles: true, composed: true }));
  }

  #open(id: string) {
    this.dispatchEvent(new CustomEvent('answer-opened', { detail: { id }, bubbles: true, composed: true }));
  }

  #sheet({ id, title, revision, validFrom, confirmation }: AnswerSheet) {
    const { shape, kind, words } = confirmationLook(confirmation);
    return html`<li class="sheet">
      <div>
        <p class="title">${title}</p>
        <p class="label number">Revision ${revision} · valid from ${validFrom}</p>
      </div>
      <button aria-label="Open ${title}, revision ${revision}" @click=${() => this.#open(id)}>Open</button>
      <span class="state ${kind}"><m-icon shape=${shape}></m-icon><span>${words}</span></span>
    </li>`;
  }

  #answer({ kind, why, checks, sheets, passedOver, warnings }: SerialAnswer) {
    const head = HEADS[kind];
    return html`<div class="answer">
      <p class="state head ${head.kind}"><m-icon shape=${head.shape}></m-icon><span>${head.words}</span></p>
      ${checks.length === 0 ? nothing : html`<p class="checks"><span class="label">For</span> ${checks.join(', ')}</p>`}
      <p class="why">${why}</p>
      <ul>
        ${sheets.map((sheet) => this.#sheet(sheet))}
      </ul>
      ${warnings.map((problem) => html`<m-problem .problem=${problem}></m-problem>`)}
      ${
        passedOver.length === 0
          ? nothing
          : html`<details ?open=${kind === 'none'}>
              <summary>Why the others do not hold</summary>
              <ul>
                ${passedOver.map(({ title, revision, why: reason }) => html`<li><strong>${title}</strong>, revision ${revision}: ${reason}</li>`)}
              </ul>
            </details>`
      }
    </div>`;
  }

  override render() {
    return html`<section class="panel" aria-labelledby="heading">
      <h2 id="heading">Which sheet holds?</h2>
      <div class="ask">
        <div class="field">
          <label class="label" for="serial">Serial number of the engine</label>
          <input
            id="serial"
            autocomplete="off"
            spellcheck="false"
            .value=${this.serial}
            @input=${(event: Event) => this.#ask({ serial: (event.target as HTMLInputElement).value })}
          />
        </div>
        <div class="field">
          <label class="label" for="day">On the day</label>
          <input
            id="day"
            type="date"
            .value=${this.onDate}
            @input=${(event: Event) => this.#ask({ onDate: (event.target as HTMLInputElement).value })}
          />
        </div>
      </div>
      <div role="status">
        ${
          this.answers.length > 0
            ? this.answers.map((answer) => this.#answer(answer))
            : html`<p class="hint">Type the serial number from the engine’s plate.</p>`
        }
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-serial-check': SerialCheck;
  }
  interface HTMLElementEventMap {
    'serial-asked': CustomEvent<SerialAsked>;
    'answer-opened': CustomEvent<{ readonly id: string }>;
  }
}
