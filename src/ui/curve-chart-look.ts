import { css, type CSSResult } from 'lit';

/** What the editor's chart has besides the limit chart: points to take hold of, and the point that is tried. */
export const curveChartStyles: CSSResult = css`
  .ground {
    fill: var(--m-surface);
  }
  svg {
    cursor: crosshair;
    user-select: none;
  }
  g:not(.active) > .boundary {
    stroke-opacity: 0.75;
    stroke-width: 2;
  }
  .still {
    stroke: var(--m-surface);
    stroke-width: 1.5;
  }
  .still.pass,
  .pass .knob {
    fill: var(--m-pass);
  }
  .still.fail,
  .fail .knob {
    fill: var(--m-fail);
  }
  .handle {
    cursor: grab;
    outline: none;
    touch-action: none;
  }
  .handle:active {
    cursor: grabbing;
  }
  .reach {
    fill: transparent;
  }
  .knob {
    stroke: var(--m-surface);
    stroke-width: 2.5;
  }
  .ring {
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 2.5;
  }
  .handle:focus-visible .ring {
    stroke: var(--m-focus);
    stroke-width: 4;
  }
  .tag {
    font-weight: 700;
  }
  .tried path {
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 3.5;
  }
  .tried .halo {
    stroke: var(--m-surface);
    stroke-width: 8;
  }
  .how {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  @media print {
    .how,
    .ring,
    .tag {
      display: none;
    }
  }
`;
