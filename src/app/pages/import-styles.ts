import { css, type CSSResult } from 'lit';

/** Looks of the import screen: one row a column of the file, the used ones marked. */
export const importStyles: CSSResult = css`
  .columns {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-2);
  }
  .columns li {
    display: grid;
    grid-template-columns: minmax(10rem, 1.3fr) minmax(9rem, 1fr) minmax(6rem, auto) minmax(10rem, 1.4fr);
    gap: var(--m-space-3);
    align-items: center;
    padding: var(--m-space-2) var(--m-space-3);
    border-left: var(--m-stroke-3) solid transparent;
  }
  .columns li.used {
    border-left-color: var(--m-accent);
    background: var(--m-cranking-soft);
  }
  .columns li > div {
    display: grid;
  }
  .columns select {
    width: 100%;
  }
  .scroll {
    overflow: auto;
  }
  table {
    border-collapse: collapse;
    font-variant-numeric: tabular-nums;
  }
  th,
  td {
    padding: var(--m-space-1) var(--m-space-3);
    border-bottom: var(--m-stroke-1) solid var(--m-line);
    text-align: left;
    white-space: nowrap;
  }
  @media (max-width: 48rem) {
    .columns li {
      grid-template-columns: minmax(0, 1fr) minmax(0, max-content);
    }
    .columns li > div,
    .columns li > :last-child {
      grid-column: 1 / -1;
    }
  }
`;
