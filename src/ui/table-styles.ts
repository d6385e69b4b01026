import { css, type CSSResult } from 'lit';

/** Tables of figures: names left, numbers right in columns, a rule under the head and hair lines between rows. */
export const tableStyles: CSSResult = css`
  table {
    width: 100%;
    border-collapse: collapse;
  }
  caption {
    padding-bottom: var(--m-space-2);
    text-align: left;
    font-weight: 700;
  }
  thead tr {
    border-bottom: var(--m-stroke-2) solid var(--m-ink);
  }
  tbody tr {
    border-bottom: var(--m-stroke-1) solid var(--m-line);
  }
  th,
  td {
    padding: var(--m-space-2) var(--m-space-3);
    text-align: right;
    vertical-align: baseline;
  }
  thead th {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    white-space: nowrap;
  }
  td.number {
    white-space: nowrap;
  }
  tbody th,
  th.word,
  td.word {
    text-align: left;
  }
  td.none {
    color: var(--m-quiet);
  }
  .hex {
    font-family: var(--m-font-hex);
  }
`;
