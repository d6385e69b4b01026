import { css, type CSSResult } from 'lit';

/** Typed codes and those of the bus beside each other where there is room. */
export const typedCodesStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .both {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(26rem, 100%), 1fr));
    gap: var(--m-space-4);
  }
  .panel {
    display: grid;
    gap: var(--m-space-3);
    align-content: start;
    min-width: 0;
  }
  h3 {
    font-size: var(--m-text-l);
    line-height: 1.2;
  }
  ol li {
    display: grid;
    grid-template-columns: 7rem 5rem minmax(0, 1fr) auto;
    gap: var(--m-space-1) var(--m-space-2);
    align-items: end;
    padding-bottom: var(--m-space-2);
  }
  .says {
    grid-column: 1 / -1;
  }
  .more {
    justify-self: start;
  }
  .code {
    display: grid;
    grid-template-columns: minmax(11rem, max-content) minmax(0, 1fr);
    gap: 0 var(--m-space-3);
    padding-block: var(--m-space-2);
    border-top: var(--m-stroke-1) solid var(--m-line);
    overflow-wrap: anywhere;
  }
  .code .number {
    font-weight: 600;
  }
  .code m-icon {
    width: 0.8em;
    height: 0.8em;
    vertical-align: 0;
  }
  @container (max-width: 34rem) {
    .panel {
      padding: var(--m-space-3);
    }
    ol li {
      grid-template-columns: minmax(0, 1fr) minmax(0, 0.7fr) auto;
    }
    ol li .note {
      grid-column: 1 / -1;
    }
    ol li button {
      grid-area: 1 / 3;
    }
    .code {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
