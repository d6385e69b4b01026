import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/model-drawing.ts';
import { modelParts } from '../model-parts.ts';
import { pageStyles } from '../page-styles.ts';

const PARTS = modelParts();

/** Said plainly, so that nobody takes the bench for an engine. */
const LEFT_OUT = [
  'Pressure waves in lines and rail: each volume has one pressure.',
  'The temperature of the fuel along its path: there is one, which the pump warms.',
  'Vapour in the pump: the inlet of the supply pump only gives out where the pull is too strong.',
  'Several injections in one stroke, and the opening of each injector: fuel goes by the turn.',
  'A real controller: its commanded pressures and its habits are simple and invented.',
] as const;

/** `model-page`: what the bench engine is made of, and what it leaves out. */
@customElement('model-page')
export class ModelPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      .left-out {
        display: grid;
        gap: var(--m-space-2);
        max-width: var(--m-measure);
        padding-left: var(--m-space-5);
        list-style: disc;
      }
      .lead {
        max-width: var(--m-measure);
      }
    `,
  ];

  override render() {
    return html`<div class="column">
      <div class="stack">
        <h1>How the bench works</h1>
        <p class="lead quiet">
          The bench engine is worked out from equations, step by step, not played from a tape. All its sizes
          are invented. It is there to practise on: it shows the direction in which a defect moves a check,
          not what your engine should give.
        </p>
      </div>
      <div class="stack">
        <h2>What it holds</h2>
        <m-model-drawing .parts=${PARTS}></m-model-drawing>
      </div>
      <div class="stack">
        <h2>What it leaves out</h2>
        <ul class="left-out">
          ${LEFT_OUT.map((each) => html`<li>${each}</li>`)}
        </ul>
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'model-page': ModelPage;
  }
}
