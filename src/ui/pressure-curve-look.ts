import { css, type CSSResult } from 'lit';

/** Colours and dashes of the pressure curve: the trace is whole, the fit dotted, the two pressures dashed. */
export const pressureCurveStyles: CSSResult = css`
  svg {
    display: block;
    width: 100%;
    height: auto;
    margin-top: var(--m-space-3);
  }
  svg text {
    fill: var(--m-ink);
    font-family: var(--m-font-number);
    font-size: var(--m-text-s);
    paint-order: stroke;
    stroke: var(--m-surface);
    stroke-width: 4px;
  }
  .mid {
    text-anchor: middle;
  }
  .end {
    text-anchor: end;
  }
  .axis,
  .grid {
    fill: none;
    stroke: var(--m-mark);
  }
  .grid {
    stroke: var(--m-line);
  }
  .between {
    fill: var(--m-cranking-soft);
  }
  .level {
    stroke: var(--m-ink);
    stroke-width: 2;
    stroke-dasharray: 10 5;
  }
  .trace {
    fill: none;
    stroke: var(--m-series-rail);
    stroke-width: 3;
    stroke-linejoin: round;
  }
  .fit {
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 2;
    stroke-dasharray: 2 5;
    stroke-linecap: round;
  }
  .crossing {
    fill: var(--m-surface);
    stroke: var(--m-ink);
    stroke-width: 3;
  }
  .besides {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--m-space-5);
    font-size: var(--m-text-l);
  }
  .rows {
    max-height: 20rem;
    overflow: auto;
  }
`;
