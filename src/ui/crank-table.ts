import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CrankEnd } from '../crank/crank.ts';
import { baseStyles } from './base-styles.ts';

/** One crank as the table shows it. */
export interface CrankRow {
  readonly number: number;
  /** Start from the beginning of the recording. */
  readonly startSeconds: number;
  readonly durationSeconds: number;
  readonly meanRpm: number;
  readonly samples: number;
  /** 0 to 1: the part of the crank that the samples cover. */
  readonly coverage: number;
  readonly endedBy: CrankEnd;
  readonly counts: boolean;
  /** A lower bound, a set edge, a reason for leaving it out. */
  readonly note?: string;
}

export interface CrankCountsChange {
  readonly number: number;
  readonly counts: boolean;
}

const rpm = (value: number) => (Number.isFinite(value) ? value.toFixed(1) : '–');

/** `m-crank-table`: the cranks found, with a tick for whether each counts. Says `crank-counts-changed`. */
@customElement('m-crank-table')
export class CrankTable extends LitElement {
  static override styles = [
    baseStyles,
    css`
      :host {
        container-type: inline-size;
      }
      table {
        width: 100%;
        border-collapse: collapse;
      }
      caption {
        padding-bottom: var(--m-space-2);
        text-align: left;
        font-weight: 700;
      }
      th {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        text-align: right;
        white-space: nowrap;
      }
      thead tr {
        border-bottom: var(--m-stroke-2) solid var(--m-ink);
      }
      th,
      td {
        padding: var(--m-space-1) var(--m-space-3);
        vertical-align: middle;
      }
      td {
        text-align: right;
      }
      td.number,
      td.tick {
        white-space: nowrap;
      }
      th:first-child,
      th.word,
      td.word {
        text-align: left;
      }
      tbody tr {
        border-bottom: var(--m-stroke-1) solid var(--m-line);
      }
      tbody th {
        color: var(--m-ink);
        font-size: var(--m-text-l);
      }
      tr.out td.number {
        color: var(--m-quiet);
        text-decoration: line-through;
      }
      .note {
        display: block;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        white-space: normal;
      }
      label {
        display: inline-flex;
        align-items: center;
        gap: var(--m-space-2);
        min-width: var(--m-target);
        min-height: var(--m-target);
        cursor: pointer;
      }
      input {
        width: var(--m-space-5);
        height: var(--m-space-5);
        margin: 0;
        accent-color: var(--m-cranking);
      }
      @container (max-width: 46rem) {
        .answer {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
      }
      @container (max-width: 36rem) {
        .answer {
          position: static;
          width: auto;
          height: auto;
          clip-path: none;
        }
      }
      @container (max-width: 36rem) {
        thead {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
        tbody tr {
          display: grid;
          grid-template-columns: 1fr 1fr;
          padding: var(--m-space-2) 0;
        }
        td,
        td.word,
        tbody th {
          display: flex;
          flex-wrap: wrap;
          align-items: center;
          gap: 0 var(--m-space-2);
          padding: var(--m-space-1);
          text-align: left;
        }
        td.none {
          grid-column: 1 / -1;
        }
        tbody th::before {
          content: 'Crank';
        }
        td[data-name]::before {
          content: attr(data-name);
          color: var(--m-quiet);
          font-size: var(--m-text-s);
        }
      }
    `,
  ];

  @property({ attribute: false }) rows: readonly CrankRow[] = [];
  @property() caption = 'Cranks';

  #toggle(number: number, counts: boolean) {
    const detail: CrankCountsChange = { number, counts };
    this.dispatchEvent(new CustomEvent('crank-counts-changed', { detail, bubbles: true, composed: true }));
  }

  #row(row: CrankRow) {
    return html`<tr class=${row.counts ? '' : 'out'}>
      <th scope="row" class="number">${row.number}</th>
      <td class="number" data-name="start">${row.startSeconds.toFixed(2)} s</td>
      <td class="number" data-name="time">${row.durationSeconds.toFixed(2)} s</td>
      <td class="number" data-name="mean">${rpm(row.meanRpm)} rpm</td>
      <td class="number" data-name="samples">${row.samples}</td>
      <td class="number" data-name="coverage">${Math.floor(row.coverage * 100)} %</td>
      <td class="word" data-name="ended by">
        ${row.endedBy}${row.note ? html`<span class="note">${row.note}</span>` : nothing}
      </td>
      <td class="tick">
        <label>
          <input
            type="checkbox"
            aria-label="Crank ${row.number} counts"
            .checked=${row.counts}
            @change=${(event: Event) => this.#toggle(row.number, (event.target as HTMLInputElement).checked)}
          />
          <span class="answer">${row.counts ? 'counts' : 'left out'}</span>
        </label>
      </td>
    </tr>`;
  }

  override render() {
    return html`<table>
      <caption>
        ${this.caption}
      </caption>
      <thead>
        <tr>
          <th scope="col">No.</th>
          <th scope="col">Start</th>
          <th scope="col">Time</th>
          <th scope="col">Mean speed</th>
          <th scope="col">Samples</th>
          <th scope="col">Coverage</th>
          <th scope="col" class="word">Ended by</th>
          <th scope="col">Counts</th>
        </tr>
      </thead>
      <tbody>
        ${
          this.rows.length === 0
            ? html`<tr>
                <td colspan="8" class="word none">
                  No crank yet. One appears here as soon as the starter turns the engine.
                </td>
              </tr>`
            : this.rows.map((row) => this.#row(row))
        }
      </tbody>
    </table>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-crank-table': CrankTable;
  }
  interface HTMLElementEventMap {
    'crank-counts-changed': CustomEvent<CrankCountsChange>;
  }
}
