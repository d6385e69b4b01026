import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { toCanonical } from '../quantities/convert.ts';
import { unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { cellNumber, type CurveAction, type CurveName, type CurveRow } from './curve-edit.ts';
import { CURVE_WORDS, type CurveMistake } from './curve-reading.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';
import { tableStyles } from './table-styles.ts';

/** Text of several cells was pasted into a cell. */
export interface CellsPasted {
  readonly text: string;
}

/**
 * `m-curve-table`: the points of one boundary as rows. Enter goes on to the next cell and adds a row at the end, the arrow keys go up
 * and down. Says every change as a `curve-action`, `cells-pasted` when columns are pasted into a cell, `point-chosen` where the cursor is.
 */
@customElement('m-curve-table')
export class CurveTable extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    tableStyles,
    fieldStyles,
    css`
      table {
        max-width: 34rem;
      }
      th,
      td {
        padding: var(--m-space-1);
        vertical-align: top;
      }
      thead th {
        white-space: normal;
      }
      th:first-child {
        width: 1.75rem;
      }
      tbody tr {
        border-bottom: 0;
      }
      tbody th {
        color: var(--m-quiet);
        line-height: var(--m-target);
        text-align: right;
      }
      .chosen th {
        color: var(--m-ink);
        box-shadow: inset var(--m-space-1) 0 0 var(--m-accent);
      }
      .tools {
        width: 6.5rem;
        white-space: nowrap;
      }
      .tools button {
        padding: 0;
      }
      td.says {
        text-align: left;
      }
      .both {
        display: block;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      .more {
        margin-top: var(--m-space-2);
      }
      @media print {
        .tools {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) curve: CurveName = 'failBelow';
  @property({ attribute: false }) rows: readonly CurveRow[] = [];
  @property({ attribute: false }) mistakes: readonly CurveMistake[] = [];
  @property({ attribute: false }) unit: UnitId = 'mL';
  @property({ type: Number }) chosen = -1;

  #act(detail: CurveAction) {
    this.dispatchEvent(new CustomEvent('curve-action', { detail, bubbles: true, composed: true }));
  }

  /** The cell to go to once the rows have changed. */
  #wanted: readonly [number, keyof CurveRow] | null = null;

  #focus(index: number, field: keyof CurveRow) {
    const cell = this.renderRoot.querySelector<HTMLInputElement>(`#${field}-${index}`);
    cell?.focus();
    cell?.select();
  }

  protected override updated(changed: PropertyValues<this>) {
    if (!this.#wanted || !changed.has('rows')) return;
    const [index, field] = this.#wanted;
    this.#wanted = null;
    this.#focus(index, field);
  }

  #insert(index: number) {
    this.#wanted = [index, 'speed'];
    this.#act({ do: 'insert', curve: this.curve, index });
  }

  #remove(index: number) {
    this.#wanted = [Math.min(index, this.rows.length - 2), 'speed'];
    this.#act({ do: 'remove', curve: this.curve, index });
  }

  #key(event: KeyboardEvent, index: number, field: keyof CurveRow) {
    if (event.key === 'Enter') {
      if (field === 'speed') this.#focus(index, 'volume');
      else if (index + 1 < this.rows.length) this.#focus(index + 1, 'speed');
      else this.#insert(index + 1);
    } else if (event.key === 'ArrowUp') this.#focus(Math.max(0, index - 1), field);
    else if (event.key === 'ArrowDown') this.#focus(Math.min(this.rows.length - 1, index + 1), field);
    else return;
    event.preventDefault();
  }

  #paste(event: ClipboardEvent) {
    const text = event.clipboardData?.getData('text') ?? '';
    if (!/[\t\n;]/.test(text.trim())) return;
    event.preventDefault();
    this.dispatchEvent(
      new CustomEvent<CellsPasted>('cells-pasted', { detail: { text }, bubbles: true, composed: true }),
    );
  }

  /** Sorting waits until the person has left the table: rows that jump away while one types are no help. */
  #left(event: FocusEvent) {
    const to = event.relatedTarget;
    if (to instanceof Node && this.renderRoot.contains(to)) return;
    this.#act({ do: 'leave', curve: this.curve });
  }

  #cell(row: CurveRow, index: number, field: keyof CurveRow) {
    const wrong = this.mistakes.some((each) => each.index === index && each.field === field);
    return html`<td>
      <input
        id="${field}-${index}"
        class="number"
        inputmode="decimal"
        autocomplete="off"
        aria-label="${CURVE_WORDS[this.curve]}, point ${index + 1}, ${field}"
        aria-invalid=${wrong ? 'true' : 'false'}
        aria-describedby="says-${index}"
        .value=${row[field]}
        @input=${(event: Event) => this.#act({ do: 'type', curve: this.curve, index, field, text: (event.target as HTMLInputElement).value })}
        @focus=${() => this.dispatchEvent(new CustomEvent('point-chosen', { detail: { curve: this.curve, index }, bubbles: true, composed: true }))}
        @keydown=${(event: KeyboardEvent) => this.#key(event, index, field)}
        @paste=${(event: ClipboardEvent) => this.#paste(event)}
      />${field === 'volume' ? this.#bothWays(row) : nothing}
    </td>`;
  }

  /** What was printed in another unit is shown in mL beside it, so that a slip of the unit shows. */
  #bothWays({ volume }: CurveRow) {
    const value = cellNumber(volume);
    if (Number.isNaN(value) || this.unit === 'mL') return nothing;
    return html`<span class="both number">= ${toCanonical(value, this.unit).toFixed(1)} mL</span>`;
  }

  #row(row: CurveRow, index: number) {
    const words = [
      ...new Set(this.mistakes.filter((each) => each.index === index).map((each) => each.words)),
    ];
    return html`<tr class=${index === this.chosen ? 'chosen' : ''}>
        <th scope="row" class="number">${index + 1}</th>
        ${this.#cell(row, index, 'speed')} ${this.#cell(row, index, 'volume')}
        <td class="tools">
          <button
            class="quiet"
            title="Insert a point above"
            aria-label="Insert a point above point ${index + 1}"
            @click=${() => this.#insert(index)}
          >
            <m-icon shape="plus"></m-icon></button
          ><button
            class="quiet"
            title="Remove"
            aria-label="Remove point ${index + 1}"
            @click=${() => this.#remove(index)}
          >
            <m-icon shape="cross"></m-icon>
          </button>
        </td>
      </tr>
      <tr ?hidden=${words.length === 0}>
        <td></td>
        <td class="says" colspan="3" id="says-${index}">
          ${words.map((each) => html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${each}</span></p>`)}
        </td>
      </tr>`;
  }

  override render() {
    const whole = this.mistakes.filter(({ index }) => index === -1);
    return html`<div @focusout=${(event: FocusEvent) => this.#left(event)}>
      <table aria-label="Points of ${CURVE_WORDS[this.curve].toLowerCase()}">
        <thead>
          <tr>
            <th scope="col"><span class="unseen">Point</span></th>
            <th scope="col">Speed, rpm</th>
            <th scope="col">Volume, ${unitSymbol(this.unit)}</th>
            <th scope="col" class="tools"><span class="unseen">Insert, remove</span></th>
          </tr>
        </thead>
        <tbody>
          ${this.rows.map((row, index) => this.#row(row, index))}
        </tbody>
      </table>
      <div class="more">
        <button @click=${() => this.#insert(this.rows.length)}>
          <m-icon shape="plus"></m-icon>Add a point
        </button>
      </div>
      ${whole.map(({ words }) => html`<p class="mistake more"><m-icon shape="fail"></m-icon><span>${words}</span></p>`)}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-curve-table': CurveTable;
  }
  interface HTMLElementEventMap {
    'curve-action': CustomEvent<CurveAction>;
    'cells-pasted': CustomEvent<CellsPasted>;
  }
}
