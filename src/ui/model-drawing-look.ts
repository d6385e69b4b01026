import { css, unsafeCSS, type CSSResult } from 'lit';
import { MODEL_PART_IDS, MODEL_PLACE, modelClass } from './model-layout.ts';

/** Rules and not style attributes: the page's content security policy refuses those. */
const places: CSSResult = unsafeCSS(
  MODEL_PART_IDS.map((id) => `.${modelClass(id)} { --place: ${MODEL_PLACE[id]}; }`).join('\n'),
);

/** Five kinds of line, told apart by weight and dash as well as colour. */
const lineStyles: CSSResult = css`
  path {
    fill: none;
    stroke: var(--m-mark);
    stroke-width: 3;
    vector-effect: non-scaling-stroke;
  }
  .fuel {
    stroke: var(--m-fuel-edge);
  }
  .pressure {
    stroke: var(--m-fuel-edge);
    stroke-width: 6;
  }
  .return {
    stroke: var(--m-fuel-edge);
    stroke-width: 1.5;
    stroke-dasharray: 6 4;
  }
  .turning {
    stroke: var(--m-ink);
  }
  .signal {
    stroke: var(--m-accent);
    stroke-width: 2;
    stroke-dasharray: 2 4;
  }
`;

/** Four rows of eight on a wide screen, with lines behind them; one column on a narrow one, the panel under its part. */
export const modelDrawingStyles: CSSResult = css`
  ${lineStyles}
  ${places}
  :host {
    container-type: inline-size;
  }
  .frame {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-3);
  }
  .parts {
    display: grid;
    grid-template-columns: repeat(8, minmax(0, 1fr));
    grid-template-rows: repeat(4, 6.5rem);
  }
  .lines {
    grid-area: 1 / 1 / 5 / 9;
    width: 100%;
    height: 100%;
  }
  button {
    z-index: 1;
    grid-area: var(--place);
    align-self: center;
    min-width: 0;
    min-height: var(--m-key);
    margin-inline: var(--m-space-3);
    padding: var(--m-space-1);
    border: var(--m-stroke-2) solid var(--m-mark);
    border-radius: var(--m-radius-2);
    background: var(--m-surface);
    color: var(--m-ink);
    font: 600 var(--m-text-s) / 1.2 var(--m-font-text);
    cursor: pointer;
    touch-action: manipulation;
  }
  button:hover {
    background: var(--m-sunken);
  }
  button[aria-expanded='true'] {
    border: var(--m-stroke-3) solid var(--m-accent);
    background: var(--m-cranking-soft);
  }
  .told {
    grid-area: 5 / 1 / auto / -1;
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: var(--m-space-5);
    margin-top: var(--m-space-3);
    padding: var(--m-space-4);
    border-left: var(--m-space-1) solid var(--m-accent);
    background: var(--m-sunken);
  }
  .words,
  .defects {
    display: grid;
    gap: var(--m-space-3);
    align-content: start;
  }
  h3 {
    font-size: var(--m-text-l);
    line-height: 1.25;
  }
  h4 {
    margin: 0;
    font-size: var(--m-text-m);
  }
  .kind {
    display: block;
  }
  .kind::first-letter {
    text-transform: uppercase;
  }
  .legend {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2) var(--m-space-4);
  }
  .legend li {
    display: flex;
    gap: var(--m-space-2);
    align-items: center;
  }
  .sample {
    width: 2.5rem;
    height: 0.625rem;
  }
  @container (max-width: 60rem) {
    .told {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media screen {
    @container (max-width: 60rem) {
      .parts {
        grid-template-columns: minmax(0, 1fr);
        grid-template-rows: none;
        gap: var(--m-space-3);
      }
      .lines,
      .legend {
        display: none;
      }
      button {
        position: relative;
        grid-area: auto;
        min-height: var(--m-target);
        margin: 0;
        padding: var(--m-space-2) var(--m-space-4);
        font-size: var(--m-text-m);
        text-align: left;
      }
      /* The line to the next part. */
      button:not(:last-of-type)::after {
        content: '';
        position: absolute;
        top: 100%;
        left: var(--m-space-6);
        height: calc(var(--m-space-3) + var(--m-stroke-3));
        border-left: var(--m-stroke-3) solid var(--m-mark);
      }
      /* What turns the engine, and what carries fuel, are chains of their own. */
      .at-combustion::after,
      .at-vessel::after {
        display: none;
      }
      .at-tank,
      .at-rail-sensor {
        margin-top: var(--m-space-4);
      }
      /* What hangs on the rail. */
      .at-injectors,
      .at-relief-valve,
      .at-test-relief-valve {
        margin-left: calc(2 * var(--m-space-6));
      }
      .at-injectors::before,
      .at-relief-valve::before,
      .at-test-relief-valve::before {
        content: '';
        position: absolute;
        top: calc(-1 * var(--m-space-3));
        left: calc(-1 * var(--m-space-6));
        width: var(--m-space-6);
        height: calc(50% + var(--m-space-3) + var(--m-stroke-2));
        border: solid var(--m-mark);
        border-width: 0 0 var(--m-stroke-3) var(--m-stroke-3);
      }
      button.at-injectors::after,
      button.at-relief-valve::after,
      button.at-test-relief-valve::after {
        top: 50%;
        left: calc(-1 * var(--m-space-6));
        height: calc(50% + var(--m-space-3) + var(--m-stroke-3));
      }
      .told {
        grid-area: auto;
        margin: 0;
        padding: var(--m-space-3);
      }
    }
  }
  @media print {
    .panel {
      padding: 0;
      border: 0;
    }
    button {
      margin-inline: var(--m-space-1);
      overflow-wrap: anywhere;
    }
    .parts {
      break-inside: avoid;
    }
  }
`;
