import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** Jobs as lines in columns; on a narrow screen each is a small card. */
export const jobListStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  .all,
  section {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
  }
  .bar {
    display: grid;
    grid-template-columns: minmax(18rem, 1fr) auto;
    gap: var(--m-space-3);
    align-items: end;
  }
  ul {
    padding: 0;
  }
  li + li {
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  li {
    content-visibility: auto;
    contain-intrinsic-size: auto var(--m-key);
  }
  .job {
    display: grid;
    grid-template-columns: minmax(0, 14rem) minmax(0, 1fr) minmax(0, 11rem) minmax(0, 8rem);
    gap: var(--m-space-4);
    align-items: center;
    min-height: var(--m-key);
    padding: var(--m-space-2) var(--m-space-4);
    color: var(--m-ink);
    text-decoration: none;
  }
  .job:hover {
    background: var(--m-sunken);
  }
  .job:focus-visible {
    outline-offset: calc(-1 * var(--m-stroke-3));
  }
  .who,
  .standing {
    display: grid;
    gap: var(--m-space-1);
    justify-items: start;
    min-width: 0;
    overflow-wrap: anywhere;
  }
  .label {
    font-weight: 400;
  }
  strong {
    font-size: var(--m-text-l);
  }
  .complaint {
    display: -webkit-box;
    overflow: hidden;
    overflow-wrap: anywhere;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }
  .more {
    justify-self: center;
  }
  .nothing {
    overflow-wrap: anywhere;
  }
  .ways {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
  }
  m-empty .ways {
    justify-content: center;
    margin-top: var(--m-space-3);
  }
  h3 {
    font-size: var(--m-text-m);
  }
  @container (max-width: 60rem) {
    .bar {
      grid-template-columns: minmax(0, 1fr);
    }
    .job {
      grid-template-columns: minmax(0, 1fr) auto;
      gap: var(--m-space-2) var(--m-space-3);
      padding: var(--m-space-3);
    }
    .when {
      grid-area: 1 / 2;
    }
    .complaint,
    .standing {
      grid-column: 1 / -1;
    }
    .standing {
      display: flex;
      flex-wrap: wrap;
      gap: var(--m-space-2) var(--m-space-3);
      align-items: center;
    }
  }
  @container (max-width: 30rem) {
    .ways {
      display: grid;
    }
  }
`;
