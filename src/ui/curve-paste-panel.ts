import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { UnitId } from '../quantities/unit.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { CURVE_NAMES, numberText, type CurveName, type CurveRow } from './curve-edit.ts';
import { pastedRows, readPaste, type PasteReading } from './curve-paste.ts';
import { CURVE_WORDS } from './curve-reading.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';
import { tableStyles } from './table-styles.ts';

/** The rows to put into each boundary; what stood in those boundaries goes. */
export interface PasteTaken {
  readonly curves: Partial<Record<CurveName, readonly CurveRow[]>>;
}

/** So many rows of the preview are shown before "and … more". */
const SHOWN = 12;

/** `m-curve-paste`: a place for columns out of a spreadsheet, and what would be taken of them. `paste-taken`, `paste-cancelled`. */
@customElement('m-curve-paste')
export class CurvePastePanel extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    tableStyles,
    fieldStyles,
    css`
      .panel {
        display: grid;
        gap: var(--m-space-3);
      }
      textarea {
        min-height: 7rem;
        font-family: var(--m-font-hex);
        resize: vertical;
        white-space: pre;
      }
      table {
        width: auto;
      }
      th,
      td {
        padding: var(--m-space-1) var(--m-space-3);
      }
      thead th {
        white-space: normal;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
      }
      h3 {
        font-size: var(--m-text-m);
      }
    `,
  ];

  /** What stands in the field. Changes as the person pastes or types. */
  @property() text = '';
  /** The volume unit of the chart: what is pasted in another unit is converted to it. */
  @property({ attribute: false }) unit: UnitId = 'mL';
  /** Where a single volume column goes. */
  @property({ attribute: false }) into: CurveName = 'failBelow';
  @state() private _one: CurveName | null = null;

  override focus() {
    this.renderRoot.querySelector('textarea')?.focus();
  }

  #take(reading: PasteReading) {
    if (reading.rows.length === 0) return;
    const detail: PasteTaken = { curves: pastedRows(reading) };
    this.dispatchEvent(new CustomEvent('paste-taken', { detail, bubbles: true, composed: true }));
  }

  #cancel() {
    this.dispatchEvent(new CustomEvent('paste-cancelled', { bubbles: true, composed: true }));
  }

  #where(reading: PasteReading) {
    if (reading.into.length !== 1) return nothing;
    return html`<fieldset>
      <legend>Which boundary is it?</legend>
      <div class="choices">
        ${CURVE_NAMES.map(
          (name) =>
            html`<label
              ><input
                type="radio"
                name="one"
                .checked=${reading.into[0] === name}
                @change=${() => (this._one = name)}
              />${CURVE_WORDS[name]}</label
            >`,
        )}
      </div>
    </fieldset>`;
  }

  #preview(reading: PasteReading) {
    const { rows, into } = reading;
    if (rows.length === 0) return nothing;
    return html`<table>
        <caption>
          This will be taken
        </caption>
        <thead>
          <tr>
            <th scope="col">Speed, rpm</th>
            ${into.map((name) => html`<th scope="col">${CURVE_WORDS[name]}, ${this.unit}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.slice(0, SHOWN).map(
            (row) =>
              html`<tr>
                ${[0, ...into.map((_, at) => at + 1)].map((at) => html`<td class="number">${cell(row[at])}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
      ${rows.length > SHOWN ? html`<p class="hint">and ${rows.length - SHOWN} more</p>` : nothing}`;
  }

  #outcome(reading: PasteReading) {
    const left = reading.skipped;
    return html`${this.#where(reading)} ${this.#preview(reading)}
      ${reading.notes.length > 0 ? html`<p class="hint">${reading.notes.join(' ')}</p>` : nothing}
      ${left.length > 0 && reading.rows.length > 0 ? html`<h3>Left out</h3>` : nothing}
      <ul>
        ${left
          .slice(0, SHOWN)
          .map(
            ({ line, words }) =>
              html`<li class="mistake">
                <m-icon shape="fail"></m-icon
                ><span>${reading.rows.length > 0 ? `Line ${line}: ` : ''}${words}</span>
              </li>`,
          )}
      </ul>`;
  }

  override render() {
    const reading = this.text.trim() === '' ? null : readPaste(this.text, this.unit, this._one ?? this.into);
    const count = reading?.rows.length ?? 0;
    return html`<section class="panel" aria-label="Paste from a spreadsheet">
      <div class="field">
        <label class="label" for="text">Paste the columns here: speed, then one to three volumes</label>
        <textarea
          id="text"
          spellcheck="false"
          .value=${this.text}
          @input=${(event: Event) => (this.text = (event.target as HTMLTextAreaElement).value)}
        ></textarea>
      </div>
      <div role="status">${reading ? this.#outcome(reading) : nothing}</div>
      <div class="actions">
        <button class="primary" aria-disabled=${count === 0} @click=${() => reading && this.#take(reading)}>
          ${count === 0 ? 'Take them' : `Take ${count} ${count === 1 ? 'row' : 'rows'}`}
        </button>
        <button @click=${() => this.#cancel()}>Cancel</button>
      </div>
    </section>`;
  }
}

const cell = (value: number | undefined): string =>
  value === undefined || Number.isNaN(value) ? '–' : numberText(value);

declare global {
  interface HTMLElementTagNameMap {
    'm-curve-paste': CurvePastePanel;
  }
  interface HTMLElementEventMap {
    'paste-taken': CustomEvent<PasteTaken>;
    'paste-cancelled': CustomEvent<void>;
  }
}
