import { css, type CSSResult } from 'lit';

/** One sentence large, the button, then the causes as rows that open. */
export const whatNextStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .panel {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
    border-left: var(--m-space-1) solid var(--m-accent);
  }
  h2 {
    max-width: var(--m-measure);
    font-size: var(--m-text-l);
    line-height: 1.25;
  }
  h3 {
    margin-bottom: var(--m-space-2);
    font-size: var(--m-text-m);
  }
  .why {
    max-width: var(--m-measure);
  }
  .panel > button {
    justify-self: start;
  }
  li {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  ol {
    margin-bottom: var(--m-space-2);
    border-bottom: var(--m-stroke-1) solid var(--m-line);
  }
  summary {
    display: grid;
    grid-template-columns: var(--m-space-6) minmax(0, 1fr) auto;
    gap: var(--m-space-2);
    align-items: center;
    min-height: var(--m-target);
    padding: var(--m-space-1) var(--m-space-2);
    cursor: pointer;
  }
  summary::-webkit-details-marker {
    display: none;
  }
  summary:hover {
    background: var(--m-sunken);
  }
  summary m-icon {
    color: var(--m-accent);
  }
  details[open] summary m-icon {
    transform: rotate(180deg);
  }
  .rank {
    color: var(--m-quiet);
    font-size: var(--m-text-l);
    font-weight: 600;
    text-align: center;
  }
  .cause {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--m-space-3);
    align-items: baseline;
  }
  .text {
    font-weight: 600;
    overflow-wrap: anywhere;
  }
  dl {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: var(--m-space-1) var(--m-space-4);
    padding: 0 var(--m-space-2) var(--m-space-3) calc(var(--m-space-6) + var(--m-space-4));
  }
  dt {
    color: var(--m-quiet);
  }
  .defers {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  @container (max-width: 34rem) {
    .panel {
      padding: var(--m-space-3);
    }
    .panel > button {
      justify-self: stretch;
    }
    dl {
      grid-template-columns: minmax(0, 1fr);
      padding-left: var(--m-space-2);
    }
    dd {
      margin-bottom: var(--m-space-2);
    }
  }
`;
