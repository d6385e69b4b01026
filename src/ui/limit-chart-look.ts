import { css, svg, type CSSResult, type SVGTemplateResult } from 'lit';

/** One hatching a zone, so that a grey print still tells them apart: pass dots, marginal slants, fail crosses. */
export const ZONE_PATTERNS: SVGTemplateResult = svg`<defs>
  <pattern id="hatch-pass" width="14" height="14" patternUnits="userSpaceOnUse">
    <circle class="hatch pass" cx="4" cy="4" r="1" />
  </pattern>
  <pattern id="hatch-marginal" width="10" height="10" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <path class="hatch marginal" d="M0 0V10" />
  </pattern>
  <pattern id="hatch-fail" width="12" height="12" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <path class="hatch fail" d="M0 0V12M0 0H12" />
  </pattern>
  <pattern id="hatch-outside" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
    <path class="hatch outside-line" d="M0 0V8" />
  </pattern>
</defs>`;

/** Colours of the limit chart by meaning; text keeps a halo of the ground so that hatching never cuts it. */
export const limitChartStyles: CSSResult = css`
  svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
    print-color-adjust: exact;
  }
  figcaption {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  .decides {
    font-weight: 700;
  }
  .zone.pass {
    fill: var(--m-pass-soft);
  }
  .zone.marginal {
    fill: var(--m-marginal-soft);
  }
  .zone.fail {
    fill: var(--m-fail-soft);
  }
  .outside {
    fill: var(--m-invalid-soft);
  }
  .hatch {
    fill: none;
    stroke-opacity: 0.35;
  }
  .hatch.pass {
    fill: var(--m-pass);
    fill-opacity: 0.55;
  }
  .hatch.marginal {
    stroke: var(--m-marginal);
    stroke-width: 2;
  }
  .hatch.fail {
    stroke: var(--m-fail);
    stroke-width: 1;
  }
  .hatch.outside-line {
    stroke: var(--m-invalid);
    stroke-width: 1.5;
  }
  text {
    fill: var(--m-ink);
    font-family: var(--m-font-number);
    font-size: var(--m-text-s);
    font-variant-numeric: tabular-nums;
    paint-order: stroke;
    stroke: var(--m-surface);
    stroke-width: 4px;
    stroke-linejoin: round;
  }
  .mid,
  .zone-name {
    text-anchor: middle;
  }
  .end {
    text-anchor: end;
  }
  .zone-name {
    font-size: var(--m-text-l);
    font-weight: 700;
  }
  .zone-name.pass {
    fill: var(--m-pass);
  }
  .zone-name.marginal {
    fill: var(--m-marginal);
  }
  .zone-name.fail {
    fill: var(--m-fail);
  }
  .outside-name {
    fill: var(--m-invalid);
  }
  .axes line,
  .axis {
    fill: none;
    stroke: var(--m-mark);
    stroke-width: 1.5;
  }
  .axes text {
    stroke: none;
  }
  .axis-name {
    fill: var(--m-quiet);
  }
  .boundary {
    fill: none;
    stroke-width: 3;
  }
  .boundary.pass {
    stroke: var(--m-pass);
  }
  .boundary.fail {
    stroke: var(--m-fail);
    stroke-dasharray: 12 4;
  }
  .halo {
    fill: none;
    stroke: var(--m-surface);
    stroke-width: 6;
  }
  .bars {
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 2.5;
  }
  .dot {
    fill: var(--m-ink);
    stroke: var(--m-surface);
    stroke-width: 2;
  }
  .measured text {
    font-weight: 700;
  }
  .earlier .dot {
    fill: var(--m-surface);
    stroke: var(--m-quiet);
    stroke-width: 2;
  }
  .earlier .bars {
    stroke: var(--m-quiet);
    stroke-width: 1;
  }
  .earlier text {
    fill: var(--m-quiet);
    font-weight: 400;
  }
  .distance line {
    stroke: var(--m-ink);
    stroke-width: 3.5;
  }
  .dimension {
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 1;
  }
  .distance text {
    font-size: var(--m-text-m);
    font-weight: 700;
  }
`;
