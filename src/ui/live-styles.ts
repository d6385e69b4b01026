import { css, type CSSResult } from 'lit';

/**
 * What the live screen parts share: a panel with a coloured top edge, a huge figure with its unit beside it, a state by word and shape, and
 * one sentence that says what to do. The classes `good`, `soon`, `now` and `bad` on the panel carry the meaning.
 */
export const liveStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .panel {
    border-top: var(--m-space-1) solid var(--m-mark);
  }
  .active {
    border-top-color: var(--m-cranking);
  }
  .good {
    border-top-color: var(--m-pass);
  }
  .bad {
    border-top-color: var(--m-fail);
  }
  .top {
    display: flex;
    flex-wrap: wrap;
    justify-content: space-between;
    gap: 0 var(--m-space-4);
    font-size: var(--m-text-l);
  }
  .name {
    font-weight: 700;
  }
  .state {
    display: inline-flex;
    align-items: center;
    gap: var(--m-space-2);
  }
  .active .top .state {
    color: var(--m-cranking);
  }
  .good .top .state {
    color: var(--m-pass);
  }
  .bad .top .state {
    color: var(--m-fail);
  }
  .huge {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0 var(--m-space-3);
    line-height: 1.05;
  }
  .figure {
    font-size: var(--m-text-huge);
    font-weight: 600;
    letter-spacing: -0.01em;
  }
  .figure.five {
    font-size: var(--m-text-huge-5);
  }
  .figure.more {
    font-size: var(--m-text-huge-6);
  }
  .figure.none {
    color: var(--m-quiet);
    font-weight: 400;
  }
  .beside {
    padding-bottom: var(--m-space-2);
    color: var(--m-quiet);
    font-size: var(--m-text-beside);
  }
  .prompt {
    min-height: 1.3em;
    margin-top: var(--m-space-3);
    padding: var(--m-space-2) var(--m-space-3);
    border-left: var(--m-space-1) solid var(--m-mark);
    background: var(--m-sunken);
    font-size: var(--m-text-xl);
    font-weight: 700;
    line-height: 1.3;
  }
  .soon .prompt {
    border-color: var(--m-marginal);
    background: var(--m-marginal-soft);
    color: var(--m-marginal);
  }
  .now .prompt {
    border-color: var(--m-accent);
    background: var(--m-accent);
    color: var(--m-on-solid);
  }
  .good .prompt {
    border-color: var(--m-pass);
    background: var(--m-pass-soft);
    color: var(--m-pass);
  }
  .bad .prompt {
    border-color: var(--m-fail);
    background: var(--m-fail-soft);
    color: var(--m-fail);
  }
  .bad.loud .prompt {
    background: var(--m-fail);
    color: var(--m-on-solid);
  }
  .word-in {
    color: var(--m-pass);
  }
  .word-below,
  .word-above {
    color: var(--m-fail);
  }
  .word-none {
    color: var(--m-stale);
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3);
    align-items: center;
    margin-top: var(--m-space-4);
  }
  .actions .primary {
    min-height: var(--m-key);
  }
  details {
    margin-top: var(--m-space-4);
    border-top: var(--m-stroke-1) solid var(--m-line);
  }
  /* The browser's own slot within details does not pass the box sizing on. */
  details > * {
    box-sizing: border-box;
  }
  summary {
    display: flex;
    align-items: center;
    gap: var(--m-space-2);
    min-height: var(--m-target);
    color: var(--m-accent);
    font-weight: 600;
    cursor: pointer;
    touch-action: manipulation;
    list-style: none;
  }
  summary::-webkit-details-marker {
    display: none;
  }
  details[open] > summary m-icon {
    rotate: 180deg;
  }
  form {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
    max-width: 26rem;
  }
  @media print {
    details,
    .prompt,
    .actions {
      display: none;
    }
    .panel {
      break-inside: avoid;
    }
  }
`;

/** The class that keeps a figure of so many characters within its panel. */
export const figureSize = (shown: string): string =>
  shown.length > 5 ? 'more' : shown.length > 4 ? 'five' : '';
