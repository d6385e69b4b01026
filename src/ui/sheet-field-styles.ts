import { css, type CSSResult } from 'lit';

/** Fields of the sheet forms: label above, box for gloves, the mistake below in words with a shape. */
export const fieldStyles: CSSResult = css`
  input:not([type='checkbox'], [type='radio']),
  select,
  textarea {
    width: 100%;
    min-width: 0;
    min-height: var(--m-target);
    padding: var(--m-space-2) var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-1);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 500 var(--m-text-m) / 1.3 var(--m-font-text);
  }
  input.number {
    font-family: var(--m-font-number);
    font-size: var(--m-text-l);
    text-align: right;
  }
  [aria-invalid='true'] {
    border-color: var(--m-fail) !important;
  }
  .field {
    display: grid;
    gap: var(--m-space-1);
    align-content: start;
    min-width: 0;
  }
  .hint {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .mistake {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    align-items: start;
    color: var(--m-fail);
    font-size: var(--m-text-s);
    font-weight: 600;
  }
  .mistake m-icon {
    margin-top: 0.15em;
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
  }
  .choices label {
    display: inline-flex;
    gap: var(--m-space-2);
    align-items: center;
    min-height: var(--m-target);
    padding: 0 var(--m-space-4);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-2);
    cursor: pointer;
  }
  .choices label:has(:checked) {
    border-color: var(--m-accent);
    background: var(--m-cranking-soft);
    font-weight: 700;
  }
  .choices label:has(:focus-visible) {
    outline: var(--m-stroke-3) solid var(--m-focus);
    outline-offset: var(--m-focus-gap);
  }
  .choices input {
    width: 1.25rem;
    height: 1.25rem;
    margin: 0;
    accent-color: var(--m-accent);
  }
  .choices input:focus-visible {
    outline: none;
  }
  fieldset {
    min-width: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }
  legend {
    padding: 0 0 var(--m-space-1);
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    font-weight: 600;
  }
`;
