import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';

/** `m-progress`: work that takes longer than half a second. `done` is 0 to 1, or null while its size is unknown. */
@customElement('m-progress')
export class ProgressNote extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .row {
        display: flex;
        justify-content: space-between;
        gap: var(--m-space-3);
        margin-bottom: var(--m-space-1);
      }
      .detail {
        color: var(--m-quiet);
      }
      svg {
        display: block;
        width: 100%;
        height: var(--m-space-3);
        border: var(--m-stroke-1) solid var(--m-mark);
      }
      rect {
        fill: var(--m-accent);
      }
      .unknown rect {
        animation: sweep var(--m-motion-sweep) ease-in-out infinite alternate;
      }
      @keyframes sweep {
        to {
          transform: translateX(75px);
        }
      }
      @media (prefers-reduced-motion: reduce) {
        .unknown rect {
          animation: none;
          opacity: 0.5;
          width: 100px;
        }
      }
    `,
  ];

  @property() label = '';
  @property() detail = '';
  @property({ attribute: false }) done: number | null = null;

  override render() {
    const { done } = this;
    const percent = done === null ? null : Math.round(100 * Math.min(1, Math.max(0, done)));
    const bar = html`<svg viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
      ${svg`<rect width=${percent ?? 25} height="10" />`}
    </svg>`;
    return html`<div class="row">
        <span>${this.label}</span>
        <span class="detail number">${percent === null ? '' : `${percent} %`} ${this.detail}</span>
      </div>
      ${
        percent === null
          ? html`<div class="unknown" role="progressbar" aria-label=${this.label}>${bar}</div>`
          : html`<div
              role="progressbar"
              aria-label=${this.label}
              aria-valuenow=${percent}
              aria-valuemin="0"
              aria-valuemax="100"
            >
              ${bar}
            </div>`
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-progress': ProgressNote;
  }
}
