import { css, type CSSResult } from 'lit';
import { findingStyles } from './finding-plate.ts';

/** Nine stations on the width of a page. */
const compact: CSSResult = css`
  button {
    margin: 0;
  }
  .frame {
    --symbol: 2.75rem;
  }
  .name {
    font-size: var(--m-text-s);
    letter-spacing: -0.02em;
  }
  .state {
    grid-template-columns: auto;
    justify-items: center;
    padding: var(--m-space-1);
    text-align: center;
    letter-spacing: -0.02em;
  }
`;

/** Nine stations in a row with the relief valve hung under the rail; on a narrow screen all ten below each other. */
export const fuelPathStyles: CSSResult = css`
  ${findingStyles}
  :host {
    container-type: inline-size;
  }
  .panel {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
  }
  .frame {
    position: relative;
    display: grid;
    isolation: isolate; /* lines lie behind the symbols, above the ground */
    --symbol: 3.25rem;
  }
  .path {
    display: grid;
    grid-template-columns: repeat(9, minmax(0, 1fr));
    gap: var(--m-space-5) 0;
    padding-bottom: var(--m-space-5);
  }
  .station {
    position: relative;
    display: grid;
    min-width: 0;
  }
  .station.relief-valve {
    grid-area: 2 / 8;
  }
  .station.injectors {
    grid-area: 1 / 9;
  }
  /* The line from the station before to this one, at the height of the symbols. */
  .station:not(.tank)::before {
    content: '';
    position: absolute;
    z-index: 0;
    top: calc(var(--m-space-2) + var(--symbol) / 2 - var(--m-stroke-1));
    right: 50%;
    width: 100%;
    border-top: var(--m-stroke-2) solid var(--m-mark);
  }
  .station.led:not(.tank)::before {
    margin-top: calc(-1 * var(--m-stroke-2));
    border-top: var(--m-space-2) solid var(--m-pass);
  }
  .station.relief-valve::before {
    top: calc(-1 * var(--m-space-5));
    right: 50%;
    width: 0;
    height: var(--m-space-7);
    border-top: 0 !important;
    border-left: var(--m-stroke-2) solid var(--m-mark);
  }
  button {
    position: relative;
    z-index: 1;
    display: grid;
    gap: var(--m-space-1);
    justify-items: center;
    align-content: start;
    min-height: var(--m-key);
    margin-inline: var(--m-space-1);
    padding: var(--m-space-2) 0;
    border: var(--m-stroke-2) solid transparent;
    border-radius: var(--m-radius-2);
    background: transparent;
    color: var(--m-ink);
    font: inherit;
    cursor: pointer;
    touch-action: manipulation;
  }
  button:hover .name {
    text-decoration: underline;
  }
  button[aria-current] {
    border-color: var(--m-accent);
  }
  .relief-valve button {
    background: var(--m-surface);
  }
  .symbol {
    width: var(--symbol);
    height: var(--symbol);
    padding: var(--m-space-1);
    border: var(--m-stroke-2) solid transparent;
    border-radius: var(--m-radius-2);
    background: var(--m-surface);
    fill: none;
    stroke: var(--m-ink);
    stroke-width: 2.4;
    stroke-linejoin: round;
  }
  .symbol .fine {
    stroke-width: 1.6;
  }
  .symbol .dashes {
    stroke-width: 1.8;
    stroke-dasharray: 4 3;
  }
  .symbol .solid {
    fill: var(--m-ink);
    stroke: none;
  }
  .fails .symbol {
    border: var(--m-stroke-3) solid var(--m-fail);
  }
  .suspect .symbol {
    border: var(--m-stroke-3) dashed var(--m-marginal);
  }
  .name {
    font-weight: 700;
  }
  .state {
    grid-template-columns: auto auto;
    padding-inline: var(--m-space-2);
    font-size: var(--m-text-s);
    line-height: 1.25;
    text-align: left;
  }
  .returns {
    position: absolute;
    fill: none;
    stroke: var(--m-mark);
  }
  .returns path {
    vector-effect: non-scaling-stroke;
    stroke-width: 1.25;
    stroke-dasharray: 5 4;
  }
  .returns.flat {
    inset: 50% 0 0;
    width: 100%;
    height: 50%;
  }
  .returns.upright {
    display: none;
  }
  .back {
    position: absolute;
    bottom: var(--m-space-5);
    left: calc(100% / 18 + var(--m-space-2));
    display: flex;
    gap: var(--m-space-2);
    align-items: center;
  }
  .back m-icon {
    width: 0.7em;
    height: 0.7em;
  }
  .sentence {
    min-height: var(--m-key);
    padding: var(--m-space-2) var(--m-space-4);
    background: var(--m-sunken);
  }
  h3 {
    font-size: var(--m-text-m);
  }
  .words {
    max-width: var(--m-measure);
    padding-left: var(--m-space-4);
    border-left: var(--m-space-1) solid var(--m-accent);
    font-size: var(--m-text-l);
    font-weight: 600;
    line-height: 1.3;
  }
  @container (min-width: 40rem) and (max-width: 62rem) {
    ${compact}
  }
  @media screen {
    @container (max-width: 40rem) {
      .path {
        grid-template-columns: minmax(0, 1fr);
        grid-auto-rows: 1fr;
        gap: 0;
        padding: 0 var(--m-space-5) 0 0;
      }
      .station,
      .station.relief-valve,
      .station.injectors {
        grid-area: auto;
      }
      .frame {
        --symbol: 2.75rem;
      }
      button {
        grid-template-columns: auto minmax(5.5rem, 1fr) minmax(0, auto);
        gap: var(--m-space-2);
        justify-items: start;
        align-items: center;
        align-content: center;
        margin: 0;
        padding: var(--m-space-2);
      }
      .station:not(.tank)::before,
      .station.relief-valve::before {
        inset: -50% auto auto calc(var(--m-space-2) + var(--symbol) / 2);
        width: 0;
        height: 100%;
        border: 0;
        border-left: var(--m-stroke-2) solid var(--m-mark);
      }
      .station.led:not(.tank)::before {
        margin: 0 0 0 calc(-1 * var(--m-stroke-2));
        border: 0;
        border-left: var(--m-space-2) solid var(--m-pass);
      }
      .relief-valve button {
        margin-left: var(--m-space-6);
      }
      .station.relief-valve::before {
        top: 50%;
        width: var(--m-space-4);
        height: 0;
        border-left: 0;
        border-bottom: var(--m-stroke-2) solid var(--m-mark);
      }
      .station.injectors::before {
        top: -150%;
        height: 200%;
      }
      .returns.flat,
      .back {
        display: none;
      }
      .returns.upright {
        display: block;
        inset: 0 0 0 auto;
        width: var(--m-space-5);
        height: 100%;
      }
    }
  }
  @media print {
    ${compact}
    .panel {
      padding: 0;
      border: 0;
    }
    button[aria-current] {
      border-color: transparent;
    }
    .sentence {
      display: none;
    }
    .words {
      border-color: var(--m-ink);
      font-size: var(--m-text-m);
    }
    .frame {
      break-inside: avoid;
      --symbol: 2rem;
    }
    .state {
      padding-block: 0;
      font-size: 0.6875rem;
    }
    .path {
      row-gap: var(--m-space-3);
    }
  }
`;
