import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** Time on the left, works as plates, the runs between them as thin lines. */
export const workStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  .all,
  .form {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
  }
  .time-line {
    padding: 0;
  }
  .time-line > li {
    display: grid;
    grid-template-columns: 10rem minmax(0, 1fr);
    gap: var(--m-space-1) var(--m-space-4);
    padding: var(--m-space-2) var(--m-space-4);
  }
  .time-line > li + li {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  .time-line > .work {
    padding-block: var(--m-space-4);
    border-left: var(--m-space-1) solid var(--m-accent);
    background: var(--m-sunken);
  }
  .time-line > .work.out {
    border-left-color: var(--m-invalid);
  }
  .time {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .work .body {
    display: grid;
    gap: var(--m-space-2);
    justify-items: start;
    overflow-wrap: anywhere;
  }
  .run .body {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-1) var(--m-space-4);
    align-items: center;
  }
  h3 {
    font-size: var(--m-text-l);
    line-height: 1.2;
  }
  .out .title {
    text-decoration: line-through;
    text-decoration-thickness: var(--m-stroke-2);
  }
  .note {
    white-space: pre-line;
  }
  .because,
  .primed,
  .prime p {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
  }
  .primed {
    color: var(--m-pass);
    font-weight: 600;
  }
  .prime {
    display: grid;
    gap: var(--m-space-2);
    justify-items: start;
    width: 100%;
    padding: var(--m-space-3) var(--m-space-4);
    border-left: var(--m-space-1) solid var(--m-marginal);
    background: var(--m-marginal-soft);
  }
  .prime m-icon {
    margin-top: 0.15em;
    color: var(--m-marginal);
  }
  .prime ol {
    padding-left: var(--m-space-5);
    list-style: decimal;
  }
  m-reason {
    width: 100%;
  }
  .add {
    justify-self: start;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
  }
  @container (max-width: 34rem) {
    .time-line > li {
      grid-template-columns: minmax(0, 1fr);
      padding-inline: var(--m-space-3);
    }
  }
`;
