import { css, type CSSResult } from 'lit';

/** The bench on which a picture is read: the picture wide, what is asked beside it, below it on a phone. */
export const traceStyles: CSSResult = css`
  .bench {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
    align-items: start;
  }
  @media (min-width: 60rem) {
    .bench {
      grid-template-columns: minmax(0, 1fr) minmax(20rem, 24rem);
    }
  }
  .asks,
  .block {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
  }
  .asks {
    gap: var(--m-space-4);
  }
  /* On a phone the picture stays in view while a number is typed for a place on it. */
  @media (max-width: 40rem) {
    m-picture-board {
      position: sticky;
      top: 0;
      z-index: 1;
      padding-bottom: var(--m-space-2);
      background: var(--m-ground);
    }
    input[type='text'] {
      scroll-margin: 62vh 0 var(--m-space-4);
    }
  }
  .asks h3 {
    font-size: var(--m-text-l);
    line-height: 1.25;
  }
  .quiet-text {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .steps {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-1) var(--m-space-4);
    border-bottom: var(--m-stroke-1) solid var(--m-line);
  }
  .steps button {
    min-width: 0;
    padding: var(--m-space-1);
    border: 0;
    border-bottom: var(--m-stroke-3) solid transparent;
    border-radius: 0;
    background: transparent;
    color: var(--m-quiet);
  }
  .steps button[aria-current='step'] {
    border-bottom-color: var(--m-accent);
    color: var(--m-ink);
  }
  .steps .count {
    color: var(--m-accent);
  }
  .choice {
    display: grid;
    grid-auto-flow: column;
    grid-auto-columns: minmax(0, 1fr);
  }
  .choice button {
    min-width: 0;
    padding: var(--m-space-1) var(--m-space-2);
    border-radius: 0;
    border-left-width: 0;
    line-height: 1.15;
  }
  .choice button:first-child {
    border-left-width: var(--m-stroke-2);
    border-radius: var(--m-radius-2) 0 0 var(--m-radius-2);
  }
  .choice button:last-child {
    border-radius: 0 var(--m-radius-2) var(--m-radius-2) 0;
  }
  .choice button[aria-pressed='true'] {
    background: var(--m-accent);
    border-color: var(--m-accent);
    color: var(--m-on-solid);
  }
  .choice button:focus-visible {
    position: relative;
    z-index: 1;
  }
  .rows {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
  }
  .rows li {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: var(--m-space-1) var(--m-space-2);
    align-items: center;
    padding: var(--m-space-2) 0;
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  .rows li.held {
    background: var(--m-cranking-soft);
  }
  .mark {
    display: grid;
    grid-template-columns: 4.5rem minmax(0, 1fr) auto;
    gap: var(--m-space-2);
    align-items: baseline;
    font-weight: 600;
  }
  input[type='text'] {
    width: 100%;
    min-width: 0;
    min-height: var(--m-target);
    padding: 0 var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-1);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 600 var(--m-text-l) / 1.2 var(--m-font-number);
    text-align: right;
  }
  .tick {
    display: flex;
    gap: var(--m-space-3);
    align-items: center;
    min-height: var(--m-target);
    font-weight: 600;
  }
  .tick input {
    width: 1.5rem;
    height: 1.5rem;
    accent-color: var(--m-accent);
  }
  .refusal {
    grid-column: 1 / -1;
    color: var(--m-fail);
    font-size: var(--m-text-s);
  }
  .off {
    grid-column: 1 / -1;
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .facts {
    padding: var(--m-space-2) var(--m-space-3);
    border-left: var(--m-space-1) solid var(--m-accent);
    background: var(--m-surface);
  }
  .facts strong {
    display: block;
    font-size: var(--m-text-l);
  }
  .sample {
    display: block;
    width: 2.5rem;
    height: 0.5rem;
    margin: 0 auto var(--m-space-1);
    overflow: visible;
  }
  .sample path {
    fill: none;
    stroke: currentColor;
    stroke-width: 3;
  }
  .pick {
    justify-content: flex-start;
    border-color: transparent;
    background: transparent;
    text-align: left;
  }
  details summary {
    display: flex;
    align-items: center;
    min-height: var(--m-target);
    font-weight: 600;
    cursor: pointer;
  }
  .list {
    max-height: 20rem;
    overflow-y: auto;
  }
`;
