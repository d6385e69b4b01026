import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** Suggestion above, decision as three large choices, then the words and the signature. */
export const conclusionStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  .all,
  .panel {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
  }
  .suggestion {
    gap: var(--m-space-2);
    background: var(--m-sunken);
  }
  h3 {
    font-size: var(--m-text-l);
    line-height: 1.2;
  }
  .said,
  .suggestion p {
    max-width: var(--m-measure);
  }
  .said {
    padding-left: var(--m-space-4);
    list-style: disc;
  }
  .caveat {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    padding: var(--m-space-2) var(--m-space-3);
    background: var(--m-marginal-soft);
  }
  .caveat m-icon {
    margin-top: 0.15em;
    color: var(--m-marginal);
  }
  .three {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    gap: var(--m-space-3);
  }
  .choice {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr);
    gap: var(--m-space-3);
    align-items: start;
    min-height: var(--m-key);
    padding: var(--m-space-4);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-2);
    cursor: pointer;
  }
  .choice:has(:checked) {
    border-color: var(--m-accent);
    background: var(--m-cranking-soft);
  }
  .choice:has(:focus-visible) {
    outline: var(--m-stroke-3) solid var(--m-focus);
    outline-offset: var(--m-focus-gap);
  }
  .choice input {
    width: 1.5rem;
    height: 1.5rem;
    margin: 0;
    accent-color: var(--m-accent);
  }
  .choice input:focus-visible {
    outline: none;
  }
  .choice strong {
    display: block;
    font-size: var(--m-text-l);
    line-height: 1.15;
  }
  .choice small {
    display: block;
    margin-top: var(--m-space-1);
    font-size: var(--m-text-s);
  }
  [data-wrong] .choice {
    border-color: var(--m-fail);
  }
  textarea {
    resize: vertical;
  }
  .panel > button {
    justify-self: start;
  }
  dl {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: var(--m-space-2) var(--m-space-4);
  }
  dt {
    color: var(--m-quiet);
  }
  dd {
    max-width: var(--m-measure);
    overflow-wrap: anywhere;
    white-space: pre-line;
  }
  .sign {
    display: grid;
    grid-template-columns: minmax(0, 24rem) auto;
    gap: var(--m-space-3);
    justify-content: start;
  }
  .sign button {
    align-self: start;
    margin-top: calc(var(--m-text-s) * 1.45 + var(--m-space-1));
  }
  .signature {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-3);
    align-items: center;
    padding-top: var(--m-space-3);
    border-top: var(--m-stroke-2) solid var(--m-ink);
  }
  @container (max-width: 44rem) {
    .three,
    .sign,
    dl {
      grid-template-columns: minmax(0, 1fr);
    }
    .sign button {
      margin-top: 0;
    }
    dl {
      gap: 0;
    }
    dd {
      margin-bottom: var(--m-space-2);
    }
    .panel {
      padding: var(--m-space-3);
    }
  }
`;
