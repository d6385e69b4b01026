import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** A sheet of paper on the screen too. Rows, works and the signatures are never cut by the end of a page. */
export const jobSheetStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  article {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-5);
    max-width: 60rem;
    margin: 0 auto;
    padding: var(--m-space-5);
    border: var(--m-stroke-1) solid var(--m-line);
    background: var(--m-surface);
    font-size: var(--m-text-s);
    line-height: 1.4;
  }
  header {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 0 var(--m-space-4);
    align-items: baseline;
    padding-bottom: var(--m-space-2);
    border-bottom: var(--m-stroke-3) solid var(--m-ink);
  }
  h1 {
    grid-column: 1 / -1;
    margin: 0;
    font-size: var(--m-text-xl);
    line-height: 1.15;
    overflow-wrap: anywhere;
  }
  header button {
    grid-column: 1 / -1;
    justify-self: start;
    margin-top: var(--m-space-3);
  }
  h2 {
    margin-bottom: var(--m-space-2);
    padding-bottom: var(--m-space-1);
    border-bottom: var(--m-stroke-1) solid var(--m-ink);
    font-size: var(--m-text-m);
    break-after: avoid;
  }
  section {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-2);
  }
  .complaint {
    font-size: var(--m-text-m);
    font-weight: 600;
    white-space: pre-line;
    overflow-wrap: anywhere;
  }
  dl {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(12rem, 100%), 1fr));
    gap: var(--m-space-2) var(--m-space-4);
  }
  dt,
  .quiet {
    color: var(--m-quiet);
  }
  dd {
    font-weight: 600;
    overflow-wrap: anywhere;
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  th,
  td {
    padding: var(--m-space-1) var(--m-space-2);
    text-align: left;
    vertical-align: top;
    overflow-wrap: anywhere;
  }
  thead th {
    white-space: nowrap;
    color: var(--m-quiet);
    font-weight: 600;
    border-bottom: var(--m-stroke-2) solid var(--m-ink);
  }
  tbody {
    break-inside: avoid;
    border-bottom: var(--m-stroke-1) solid var(--m-line);
  }
  tbody th {
    font-weight: 600;
  }
  td .quiet,
  td .state {
    display: block;
  }
  td .state {
    display: inline-grid;
  }
  .notes td {
    padding-top: 0;
    color: var(--m-quiet);
  }
  .works li {
    display: grid;
    grid-template-columns: 9rem minmax(0, 1fr);
    gap: var(--m-space-2);
    padding-block: var(--m-space-1);
    break-inside: avoid;
    overflow-wrap: anywhere;
  }
  .decision {
    font-size: var(--m-text-l);
    font-weight: 700;
  }
  .decision::first-letter {
    text-transform: uppercase;
  }
  .words {
    white-space: pre-line;
    overflow-wrap: anywhere;
  }
  .signs {
    display: grid;
    grid-template-columns: 1fr 1fr;
    gap: var(--m-space-6);
    margin-top: var(--m-space-6);
    break-inside: avoid;
    color: var(--m-quiet);
  }
  .signs span {
    display: block;
    min-height: 1.5em;
    border-bottom: var(--m-stroke-1) solid var(--m-ink);
    color: var(--m-ink);
    font-weight: 600;
  }
  .practice {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    padding: var(--m-space-2) var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-unsure);
    color: var(--m-unsure);
    font-weight: 700;
  }
  footer {
    display: grid;
    gap: var(--m-space-1);
    padding-top: var(--m-space-2);
    border-top: var(--m-stroke-1) solid var(--m-line);
    color: var(--m-quiet);
    font-size: 0.8125rem;
    break-inside: avoid;
  }
  @container (max-width: 36rem) {
    article {
      padding: var(--m-space-3);
    }
    table,
    tbody,
    tr,
    th,
    td {
      display: block;
    }
    thead,
    tbody td:first-child {
      display: none;
    }
    tbody {
      padding-block: var(--m-space-2);
    }
    .works li,
    .signs {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    article {
      max-width: none;
      padding: 0;
      border: 0;
      font-size: 0.8125rem;
    }
    /* Blocks, since grids are not cut well between pages. */
    article,
    section {
      display: block;
    }
    article > *,
    section > * + * {
      margin-top: var(--m-space-2);
    }
    article > section,
    article > footer {
      margin-top: var(--m-space-4);
    }
    h1 {
      font-size: var(--m-text-l);
    }
    /* Some lines alone on a page of their own help nobody. */
    footer {
      break-before: avoid;
    }
    /* The signature stays with what it signs. */
    section:last-of-type {
      break-inside: avoid;
    }
  }
`;
