import { css, type CSSResult } from 'lit';

/** The run screen: instruments on the left, the task at hand on the right; one column where it is narrow. */
export const runPageStyles: CSSResult = css`
  .run {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
    padding: var(--m-space-3) var(--m-space-4) var(--m-space-7);
    max-width: 110rem;
    margin: 0 auto;
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2) var(--m-space-5);
    justify-content: space-between;
    align-items: center;
  }
  .bar h1 {
    font-size: var(--m-text-l);
  }
  .note {
    display: flex;
    gap: var(--m-space-2);
    align-items: center;
  }
  .board {
    display: grid;
    gap: var(--m-space-4);
    grid-template-columns: minmax(0, 1.55fr) minmax(22rem, 1fr);
    align-items: start;
  }
  .board.alone {
    grid-template-columns: minmax(0, 48rem);
  }
  .board.alone .left {
    display: none;
  }
  .board.read {
    grid-template-columns: minmax(0, 1fr) minmax(36rem, 1fr);
  }
  .left {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
    min-width: 0;
  }
  @media (max-width: 62rem) {
    .board,
    .board.read {
      grid-template-columns: minmax(0, 1fr);
    }
    .task {
      order: -1;
    }
  }
  @media print {
    .run {
      padding: 0;
    }
    .board,
    .board.read {
      display: flex;
      flex-direction: column;
      align-items: stretch;
    }
    .task {
      order: -1;
    }
  }
`;
