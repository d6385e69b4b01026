import { css, type CSSResult } from 'lit';

/** Everything of the strip chart but the canvas: readouts, buttons, table. */
export const stripChartStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .plot {
    position: relative;
    height: var(--m-chart-height);
    border: var(--m-stroke-1) solid var(--m-line);
    background: var(--m-surface);
  }
  .u-select {
    background: var(--m-accent);
    opacity: 0.18;
  }
  .uplot .u-cursor-x {
    border-right: var(--m-stroke-1) dashed var(--m-ink);
  }
  .none {
    position: absolute;
    inset: 0;
    display: grid;
    place-content: center;
    padding: var(--m-space-4);
    color: var(--m-quiet);
    text-align: center;
    pointer-events: none;
  }
  .readouts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-1) var(--m-space-5);
    min-height: var(--m-space-6);
    margin-bottom: var(--m-space-2);
  }
  .readouts li {
    display: inline-flex;
    align-items: baseline;
    gap: var(--m-space-2);
  }
  .readouts .what {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .readouts .speed svg {
    color: var(--m-series-speed);
  }
  .readouts .rail svg {
    color: var(--m-series-rail);
  }
  .readouts .supply svg {
    color: var(--m-series-supply);
  }
  .readouts svg {
    width: 2.5rem;
    height: 0.75rem;
    stroke: currentColor;
  }
  .readouts strong {
    font-size: var(--m-text-l);
    min-width: 6.5em;
  }
  .readouts .time {
    min-width: 4.5em;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
    margin-top: var(--m-space-2);
  }
  .table {
    max-height: var(--m-chart-height);
    margin-top: var(--m-space-3);
    overflow: auto;
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  caption {
    text-align: left;
    font-weight: 700;
  }
  th,
  td {
    padding: var(--m-space-1) var(--m-space-3);
    border-bottom: var(--m-stroke-1) solid var(--m-line);
    text-align: right;
    white-space: nowrap;
  }
  thead th {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  @media print {
    .plot {
      height: auto;
      break-inside: avoid;
    }
    /* The picture was painted for the screen; on paper it shrinks to the column. */
    .plot .uplot,
    .plot .u-wrap,
    .plot canvas {
      width: 100% !important;
      height: auto !important;
    }
    .tools {
      display: none;
    }
  }
`;
