import { css, type CSSResult } from 'lit';

/** The form: fields in columns where there is room; what the bus says stands under its field. */
export const jobFormStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .panel {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(17rem, 100%), 1fr));
    gap: var(--m-space-4);
  }
  .long {
    grid-column: 1 / -1;
  }
  .head {
    display: flex;
    justify-content: space-between;
    gap: var(--m-space-2);
    align-items: baseline;
  }
  .from {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .code input,
  .number input {
    font-family: var(--m-font-number);
    font-size: var(--m-text-l);
  }
  textarea {
    resize: vertical;
  }
  .kept {
    font-weight: 600;
    overflow-wrap: anywhere;
    white-space: pre-line;
  }
  .note {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    font-size: var(--m-text-s);
  }
  .note.good {
    color: var(--m-pass);
  }
  .note.doubt {
    color: var(--m-marginal);
  }
  .proposal {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
    align-items: center;
    justify-content: space-between;
    padding: var(--m-space-2) var(--m-space-3);
    border-left: var(--m-space-1) solid var(--m-accent);
    background: var(--m-cranking-soft);
    overflow-wrap: anywhere;
  }
  .proposal .label {
    color: var(--m-ink);
  }
  @container (max-width: 34rem) {
    .panel {
      padding: var(--m-space-3);
    }
  }
`;
