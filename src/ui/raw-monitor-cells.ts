import { html, nothing, type TemplateResult } from 'lit';
import type { MonitorRow } from './raw-monitor-row.ts';

/** Where a row stands and how it is marked. */
export interface RowLook {
  readonly position: number;
  readonly even: boolean;
  readonly chosen: boolean;
}

/** The heads of the columns; on a phone they are for screen readers only. */
export const columnHeads = (mode: 'frames' | 'bytes'): TemplateResult =>
  mode === 'bytes'
    ? html`<div class="head" role="row">
        <span class="time" role="columnheader">Time, s</span><span role="columnheader">Bytes</span
        ><span role="columnheader">As text</span>
      </div>`
    : html`<div class="head" role="row">
        <span class="time" role="columnheader">Time, s</span><span role="columnheader">Identifier</span
        ><span class="pgn right" role="columnheader">PGN</span
        ><span class="from" role="columnheader">From</span><span role="columnheader">Data</span
        ><span role="columnheader">Decoded</span>
      </div>`;

const cells = (row: MonitorRow): TemplateResult => {
  switch (row.kind) {
    case 'frame':
      return html`<span class="id" role="cell">${row.id}</span
        ><span class="pgn right" role="cell">${row.pgn ?? '–'}</span
        ><span class="from" role="cell">${row.source === null ? '–' : hexByte(row.source)}</span
        ><span class="data" role="cell">${row.data}</span
        ><span class="decoded" role="cell">${row.decoded}</span>`;
    case 'bytes':
      return html`<span class="hex" role="cell">${row.hex}</span
        ><span class="as-text" role="cell">${row.text}</span>`;
    case 'malformed':
    case 'note':
      return html`<span class="text" role="cell" aria-colspan="4">${row.text}</span
        ><span class="decoded" role="cell"
          >${row.kind === 'malformed' ? 'malformed: ' : ''}${row.reason}</span
        >`;
  }
};

const hexByte = (value: number) => value.toString(16).toUpperCase().padStart(2, '0');

/** One row. The cells of one column keep one width, whatever they hold. */
export const monitorRow = (row: MonitorRow, { position, even, chosen }: RowLook): TemplateResult =>
  html`<div
    class="${row.kind} ${even ? 'even' : ''} ${chosen ? 'chosen' : ''}"
    role="row"
    aria-rowindex=${position + 2}
    data-position=${position}
  >
    <span class="time" role="cell"
      >${row.time}${chosen ? html`<span class="unseen"> chosen</span>` : nothing}</span
    >${cells(row)}
  </div>`;
