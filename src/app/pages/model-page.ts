import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';

/** `model-page`: what the bench engine is made of, and what it leaves out. */
@customElement('model-page')
export class ModelPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
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
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'model-page': ModelPage;
  }
}
