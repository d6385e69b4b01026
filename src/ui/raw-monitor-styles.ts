import { css, type CSSResult } from 'lit';

/** The look of the monitor: rows of one fixed height; on a narrow screen each row has two lines. */
export const monitorStyles: CSSResult = css`
  :host {
    container-type: inline-size;
    --row: var(--m-monitor-row);
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
    align-items: end;
    margin-bottom: var(--m-space-3);
  }
  .pause {
    min-width: 8.5rem;
  }
  .filter {
    flex: 1 1 14rem;
    min-width: 0;
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-1);
  }
  input {
    box-sizing: border-box;
    width: 100%;
    min-width: 0;
    min-height: var(--m-target);
    padding: 0 var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-1);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 1.0625rem var(--m-font-hex);
  }
  .counts {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--m-space-4);
    align-items: center;
    margin-bottom: var(--m-space-2);
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .mode {
    display: inline-flex;
    gap: var(--m-space-2);
    align-items: center;
    color: var(--m-ink);
    font-weight: 700;
  }
  .running m-icon {
    color: var(--m-pass);
  }
  .paused m-icon {
    color: var(--m-marginal);
  }
  m-problem {
    margin-bottom: var(--m-space-3);
  }
  [role='table'] {
    border: var(--m-stroke-1) solid var(--m-line);
    background: var(--m-surface);
    font-family: var(--m-font-hex);
    font-size: var(--m-text-s);
  }
  .scroll {
    position: relative;
    height: var(--m-monitor-height);
    overflow: hidden auto;
    overflow-anchor: none;
    overscroll-behavior: contain;
    contain: strict;
  }
  .scroll:focus-visible {
    outline-offset: calc(-1 * var(--m-stroke-3));
  }
  .rows {
    position: absolute;
    inset: 0 0 auto 0;
    line-height: var(--row);
    will-change: transform;
  }
  [role='row'] {
    display: grid;
    grid-template-columns: 6rem 5.5rem 4rem 3rem 14.5rem minmax(0, 1fr);
    gap: 0 var(--m-space-4);
    align-items: center;
    padding: 0 var(--m-space-3);
  }
  .bytes [role='row'] {
    grid-template-columns: 6rem minmax(0, 3fr) minmax(0, 1fr);
  }
  .head {
    min-height: var(--m-monitor-row);
    border-bottom: var(--m-stroke-2) solid var(--m-ink);
    color: var(--m-quiet);
    font-family: var(--m-font-text);
    font-weight: 600;
  }
  .rows [role='row'] {
    height: var(--row);
    overflow: hidden;
    line-height: 1.4;
    cursor: default;
  }
  .rows [role='row'].even {
    background: var(--m-sunken);
  }
  [role='cell'] {
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: pre;
  }
  .time,
  .right {
    text-align: right;
  }
  .time {
    color: var(--m-quiet);
  }
  .decoded {
    font-family: var(--m-font-text);
    font-variant-numeric: tabular-nums;
  }
  .text {
    grid-column: span 4;
  }
  .malformed .text,
  .malformed .decoded {
    color: var(--m-marginal);
  }
  .rows .note .text {
    color: var(--m-quiet);
    font-family: var(--m-font-text);
  }
  .rows [role='row'].chosen {
    background: var(--m-cranking-soft);
    box-shadow: inset var(--m-space-1) 0 0 var(--m-accent);
  }
  [role='row'].empty {
    display: block;
    padding: var(--m-space-5);
    color: var(--m-quiet);
    font-family: var(--m-font-text);
    text-align: center;
  }
  .hint {
    margin-top: var(--m-space-2);
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  kbd {
    padding: 0 var(--m-space-1);
    border: var(--m-stroke-1) solid var(--m-mark);
    border-radius: var(--m-radius-1);
    font: inherit;
  }
  @container (max-width: 54rem) {
    .pgn {
      display: none;
    }
    .frames [role='row'] {
      grid-template-columns: 5rem 5rem 2rem 13.5rem minmax(0, 1fr);
      gap: 0 var(--m-space-3);
    }
    .text {
      grid-column: span 3;
    }
  }
  @container (max-width: 40rem) {
    .scroll {
      --row: var(--m-monitor-row-narrow);
    }
    .head {
      position: absolute;
      width: 1px;
      height: 1px;
      min-height: 0;
      overflow: hidden;
      clip-path: inset(50%);
    }
    .pause,
    .copy {
      flex: 1;
    }
    .bar {
      align-items: stretch;
    }
    .filter {
      order: 1;
      flex-basis: 100%;
    }
    .frames [role='row'],
    .bytes [role='row'] {
      grid-template-columns: 5rem minmax(0, 1fr);
      align-content: center;
      padding: 0 var(--m-space-2);
    }
    .from {
      display: none;
    }
    .id {
      grid-area: 1 / 1;
    }
    .data {
      grid-area: 1 / 2;
    }
    .time {
      grid-area: 2 / 1;
      text-align: left;
    }
    .decoded {
      grid-area: 2 / 2;
    }
    .text {
      grid-area: 1 / 1 / 2 / 3;
    }
    .bytes .time {
      grid-area: 1 / 1;
    }
    .bytes .hex {
      grid-area: 1 / 2;
    }
    .bytes .as-text {
      grid-area: 2 / 2;
    }
  }
`;
