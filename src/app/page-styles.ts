import { css, type CSSResult } from 'lit';

/** What the pages share: the column, headings, cards and rows. Elements bring their own looks. */
export const pageStyles: CSSResult = css`
  :host {
    display: block;
  }
  h1 {
    margin: 0;
    font-size: var(--m-text-xl);
    line-height: 1.15;
    font-weight: 650;
    text-wrap: balance;
  }
  h2 {
    margin: 0;
    font-size: var(--m-text-l);
    line-height: 1.25;
  }
  .column {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-5);
    max-width: 76rem;
    margin: 0 auto;
    padding: var(--m-space-5) var(--m-space-4) var(--m-space-7);
  }
  .quiet {
    color: var(--m-quiet);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
    align-items: center;
  }
  .stack {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
    align-content: start;
  }
  .card {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
    align-content: start;
    padding: var(--m-space-4);
    border: var(--m-stroke-1) solid var(--m-line);
    border-radius: var(--m-radius-1);
    background: var(--m-surface);
  }
  label.field {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    min-width: 0;
    max-width: 100%;
    gap: var(--m-space-1);
    font-size: var(--m-text-s);
    font-weight: 600;
    color: var(--m-quiet);
  }
  select,
  input[type='text'] {
    min-height: var(--m-target);
    padding: var(--m-space-2) var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-2);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 500 var(--m-text-m) / 1.2 var(--m-font-text);
    max-width: 100%;
  }
  a {
    color: var(--m-accent);
  }
  summary {
    min-height: var(--m-target);
    display: flex;
    align-items: center;
    gap: var(--m-space-2);
    cursor: pointer;
    font-weight: 600;
  }
  summary::before {
    content: '▸';
  }
  details[open] > summary::before {
    content: '▾';
  }
  details.card:not([open]) {
    padding-block: 0;
  }
  @media print {
    .column {
      padding: 0;
      max-width: none;
    }
    .screen-only {
      display: none;
    }
  }
`;
