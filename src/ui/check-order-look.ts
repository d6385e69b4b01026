import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** The checks as rows of one panel: place, what it is, what came out, what can be done. The next one carries an edge and its purpose. */
export const checkOrderStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  .panel {
    padding: 0;
  }
  .check {
    display: grid;
    grid-template-columns: var(--m-space-7) minmax(0, 1fr) minmax(14rem, 18rem) minmax(16rem, auto);
    gap: var(--m-space-2) var(--m-space-4);
    align-items: start;
    padding: var(--m-space-3) var(--m-space-4);
    border-left: var(--m-space-1) solid transparent;
  }
  .check + .check {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  .check.next {
    border-left-color: var(--m-accent);
    padding-block: var(--m-space-4);
    background: var(--m-cranking-soft);
  }
  .check.next .label,
  .check.next .place {
    color: var(--m-ink);
  }
  .place {
    color: var(--m-quiet);
    font-size: var(--m-text-xl);
    font-weight: 600;
    line-height: 1;
    text-align: right;
  }
  .flag {
    display: flex;
    gap: var(--m-space-2);
    align-items: center;
    color: var(--m-accent);
    font-size: var(--m-text-s);
    font-weight: 700;
  }
  h3 {
    font-size: var(--m-text-m);
    line-height: 1.3;
    overflow-wrap: anywhere;
  }
  .next h3 {
    font-size: var(--m-text-l);
    line-height: 1.2;
  }
  .out h3 {
    color: var(--m-quiet);
  }
  .what {
    display: grid;
    gap: var(--m-space-1);
  }
  .purpose {
    max-width: var(--m-measure);
  }
  .because,
  .asks {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    overflow-wrap: anywhere;
  }
  .next .because,
  .next .asks {
    color: var(--m-ink);
  }
  .asks {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
  }
  .facts {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--m-space-3);
    align-items: baseline;
    margin-top: var(--m-space-1);
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
    justify-content: end;
  }
  .next button.quiet {
    color: var(--m-accent);
  }
  m-reason,
  m-check-runs {
    grid-column: 2 / -1;
  }
  @container (max-width: 64rem) {
    .check {
      grid-template-columns: var(--m-space-6) minmax(0, 1fr) minmax(12rem, 16rem);
    }
    .actions {
      grid-column: 2 / -1;
      justify-content: start;
    }
  }
  @container (max-width: 34rem) {
    .check {
      grid-template-columns: var(--m-space-5) minmax(0, 1fr);
      gap: var(--m-space-2) var(--m-space-3);
      padding-inline: var(--m-space-2) var(--m-space-3);
    }
    .place {
      font-size: var(--m-text-l);
    }
    .result,
    .actions {
      grid-column: 2;
    }
    .actions button {
      flex: 1 1 auto;
    }
    m-reason,
    m-check-runs {
      grid-column: 1 / -1;
    }
  }
  @media print {
    .check.next {
      border-left-color: transparent;
      background: none;
    }
    .flag,
    .purpose {
      display: none;
    }
    .check {
      break-inside: avoid;
    }
  }
`;

/** Runs as lines: which, value, verdict, what can be done; on a narrow screen the value stands beside the number. */
export const checkRunsStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  ol {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  li {
    display: grid;
    grid-template-columns: minmax(10rem, 1fr) minmax(8rem, 1fr) minmax(14rem, 1.4fr) minmax(
        13rem,
        max-content
      );
    gap: var(--m-space-1) var(--m-space-4);
    align-items: center;
    padding-block: var(--m-space-1);
  }
  li + li {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  .value {
    font-weight: 600;
  }
  .label {
    color: inherit;
    font-weight: 400;
  }
  .out .value {
    text-decoration: line-through;
    text-decoration-thickness: var(--m-stroke-2);
  }
  .verdict {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--m-space-3);
    align-items: center;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    justify-content: end;
  }
  .because {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    font-size: var(--m-text-s);
    overflow-wrap: anywhere;
  }
  m-reason {
    grid-column: 1 / -1;
    margin-bottom: var(--m-space-2);
  }
  @container (max-width: 44rem) {
    li {
      grid-template-columns: minmax(0, 1fr) auto;
      padding-block: var(--m-space-2);
    }
    .verdict {
      grid-column: 1;
    }
    .value {
      text-align: right;
    }
  }
  @container (max-width: 26rem) {
    .verdict {
      grid-column: 1 / -1;
    }
    .acts {
      grid-column: 1 / -1;
      justify-content: start;
    }
  }
`;
