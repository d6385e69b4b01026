import { css, type CSSResult } from 'lit';

/** The sheet form: panels below each other, fields in columns where there is room. */
export const sheetFormStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .form,
  .limits,
  .panel {
    display: grid;
    gap: var(--m-space-4);
    min-width: 0;
  }
  .panel > button {
    justify-self: start;
  }
  h2 {
    font-size: var(--m-text-l);
    line-height: 1.2;
  }
  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(15rem, 100%), 1fr));
    gap: var(--m-space-4);
  }
  .wide {
    grid-column: 1 / -1;
  }
  .range {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 14rem)) auto;
    gap: var(--m-space-1) var(--m-space-3);
    align-items: start;
    padding: var(--m-space-2) 0 var(--m-space-3);
    border-bottom: var(--m-stroke-1) solid var(--m-line);
  }
  .range button {
    justify-self: start;
    margin-top: calc(var(--m-text-s) * 1.45 + var(--m-space-1));
  }
  .covers {
    grid-column: 1 / -1;
    color: var(--m-quiet);
  }
  .covers::first-letter {
    text-transform: uppercase;
  }
  .all {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-3);
    padding: var(--m-space-3) var(--m-space-4);
    border-left: var(--m-space-1) solid var(--m-accent);
    background: var(--m-sunken);
    font-weight: 600;
    overflow-wrap: anywhere;
  }
  .all m-icon {
    margin-top: 0.15em;
    color: var(--m-accent);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
    align-items: center;
  }
  @container (max-width: 34rem) {
    .range {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    }
    .range button {
      grid-area: 1 / 2;
      justify-self: end;
    }
    .row button {
      flex: 1 1 100%;
    }
    .panel {
      padding: var(--m-space-3);
    }
  }
`;
