import { css, html, LitElement, svg, type SVGTemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';

/** Line drawings of what is missing, 160 × 120. */
const DRAWINGS = {
  vessel: svg`<path d="M58 8h44M62 8v92q0 10 10 10h16q10 0 10-10V8M48 112h64" />
    <path d="M62 30h10M62 44h18M62 58h10M62 72h18M62 86h10" class="thin" /><path d="M62 60q18 12 36 0" class="strong" />`,
  trace: svg`<path d="M14 8v98h134" /><path d="M14 34h6M14 58h6M14 82h6M48 106v-6M82 106v-6M116 106v-6" class="thin" />
    <path d="M18 96h14l6-46q4-6 8 0t8 0 8 0 8 0l6 46h14l6-48q4-6 8 0t8 0 8 0l5 48h7" class="strong" />`,
  log: svg`<path d="M44 8h52l22 22v82H44zM96 8v22h22" /><path d="M56 46h50M56 60h50M56 74h50M56 88h30" class="thin" />
    <path d="M24 60h-14m8-8 8 8-8 8" class="strong" />`,
  plug: svg`<path d="M8 60h40M48 40h22a20 20 0 0 1 0 40H48zM112 60h40M112 40H98v40h14z" /><path d="M90 52H78M90 68H78" class="strong" />`,
  bench: svg`<path d="M10 92h140M24 92v20M136 92v20" /><path d="M34 92V48h44v44M42 48V34h28v14" />
    <path d="M78 62h22q8 0 8 8v4M98 92V76h22v16" class="thin" /><path d="M98 84q11 6 22 0" class="strong" />`,
} as const satisfies Record<string, SVGTemplateResult>;

export type EmptyDrawing = keyof typeof DRAWINGS;

/** `m-empty`: an empty state that teaches: what belongs here and how it gets here. Slot: the action. */
@customElement('m-empty')
export class EmptyState extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .empty {
        display: grid;
        justify-items: center;
        gap: var(--m-space-3);
        padding: var(--m-space-6) var(--m-space-4);
        border: var(--m-stroke-2) dashed var(--m-line);
        border-radius: var(--m-radius-1);
        text-align: center;
      }
      svg {
        width: 10rem;
        height: 7.5rem;
        fill: none;
        stroke: var(--m-mark);
        stroke-width: 2.5;
        stroke-linejoin: round;
      }
      .thin {
        stroke-width: 1.5;
      }
      .strong {
        stroke: var(--m-accent);
        stroke-width: 4;
      }
      h2 {
        font-size: var(--m-text-l);
        line-height: 1.2;
      }
      p {
        max-width: 34rem;
        color: var(--m-quiet);
      }
    `,
  ];

  @property() drawing: EmptyDrawing = 'trace';
  @property() heading = '';
  @property() text = '';

  override render() {
    return html`<div class="empty">
      <svg viewBox="0 0 160 120" aria-hidden="true">${DRAWINGS[this.drawing]}</svg>
      <h2>${this.heading}</h2>
      <p>${this.text}</p>
      <slot></slot>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-empty': EmptyState;
  }
}
