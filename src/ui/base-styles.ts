import { css, type CSSResult } from 'lit';

/** What every element starts from: box sizing, type, the one focus ring, text for screen readers only. */
export const baseStyles: CSSResult = css`
  :host {
    display: block;
    box-sizing: border-box;
    color: var(--m-ink);
    font: var(--m-text-m) / 1.45 var(--m-font-text);
  }
  :host([hidden]) {
    display: none;
  }
  *,
  *::before,
  *::after {
    box-sizing: inherit;
  }
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd,
  figure {
    margin: 0;
    padding: 0;
  }
  ul,
  ol {
    list-style: none;
  }
  .number {
    font-family: var(--m-font-number);
    font-variant-numeric: tabular-nums lining-nums;
    font-feature-settings: 'tnum' 1;
  }
  .label {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    font-weight: 600;
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  :focus-visible {
    outline: var(--m-stroke-3) solid var(--m-focus);
    outline-offset: var(--m-focus-gap);
  }
`;

/** Buttons: primary (one a screen), quiet, danger. All gloves-size; what is off says why, so it stays focusable. */
export const buttonStyles: CSSResult = css`
  button {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: var(--m-space-2);
    min-width: var(--m-target);
    min-height: var(--m-target);
    padding: var(--m-space-2) var(--m-space-4);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-2);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 600 var(--m-text-m) / 1.2 var(--m-font-text);
    cursor: pointer;
    touch-action: manipulation;
  }
  button:hover {
    background: var(--m-sunken);
  }
  button:active {
    background: var(--m-cranking-soft);
  }
  button.primary {
    border-color: var(--m-accent);
    background: var(--m-accent);
    color: var(--m-on-solid);
    font-size: var(--m-text-l);
  }
  button.primary:hover,
  button.primary:active {
    border-color: var(--m-accent-strong);
    background: var(--m-accent-strong);
  }
  button.danger {
    border-color: var(--m-fail);
    color: var(--m-fail);
  }
  button.danger:hover {
    background: var(--m-fail-soft);
  }
  button.quiet {
    border-color: transparent;
    background: transparent;
    color: var(--m-accent);
  }
  button.quiet:hover {
    background: var(--m-sunken);
  }
  button[aria-disabled='true'],
  button[aria-disabled='true']:hover,
  button:disabled {
    border-color: var(--m-mark);
    border-style: dashed;
    background: transparent;
    color: var(--m-quiet);
    cursor: not-allowed;
  }
  @media print {
    button {
      display: none;
    }
  }
`;

/** A plate that things stand on, and the graduated edge that marks a live measurement: our own hand. */
export const panelStyles: CSSResult = css`
  .panel {
    border: var(--m-stroke-1) solid var(--m-line);
    border-radius: var(--m-radius-1);
    background: var(--m-surface);
    padding: var(--m-space-4);
  }
  .graduated {
    position: relative;
    padding-left: calc(var(--m-space-4) + var(--m-scale-width));
  }
  .graduated::before {
    content: '';
    position: absolute;
    inset: var(--m-space-2) auto var(--m-space-2) 0;
    width: var(--m-scale-width);
    color: var(--m-mark);
    background:
      repeating-linear-gradient(
          to top,
          currentColor 0 var(--m-stroke-2),
          transparent var(--m-stroke-2) calc(var(--m-scale-step) * 5)
        )
        left / 100% 100% no-repeat,
      repeating-linear-gradient(
          to top,
          currentColor 0 var(--m-stroke-1),
          transparent var(--m-stroke-1) var(--m-scale-step)
        )
        left / 55% 100% no-repeat;
  }
`;
