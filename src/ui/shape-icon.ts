import { css, html, LitElement, svg, type SVGTemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';

/**
 * Our own drawings on a 24 × 24 field. Each differs from the others in outline alone, so it is told apart without colour:
 * pass disc, marginal triangle, fail octagon, unsure diamond, not valid dashed square.
 */
const SHAPES = {
  pass: svg`<circle cx="12" cy="12" r="11" class="fill" /><path d="M6.2 12.4l4 4 7.6-8.4" class="cut" />`,
  marginal: svg`<path d="M12 1.6 23.2 21.6H.8z" class="fill" /><path d="M12 9.6v3.2M12 18v.1" class="cut" />`,
  fail: svg`<path d="M7.4 1h9.2L23 7.4v9.2L16.6 23H7.4L1 16.6V7.4z" class="fill" /><path d="M7.8 7.8l8.4 8.4M16.2 7.8l-8.4 8.4" class="cut" />`,
  unsure: svg`<path d="M12 .8 23.2 12 12 23.2.8 12z" class="fill" /><path d="M9.2 9.6a2.9 2.9 0 1 1 4.4 2.6c-1 .6-1.6 1.2-1.6 2.2M12 18.2v.1" class="cut thin" />`,
  invalid: svg`<path d="M3 3h18v18H3z" class="line dashed" /><path d="M7 12h10" class="line" />`,
  cranking: svg`<path d="M20.5 12a8.5 8.5 0 1 1-3-6.5" class="line" /><path d="M21.6 1.6v6.6h-6.6z" class="fill" />`,
  resting: svg`<path d="M6 2h12M6 22h12M7.5 2c0 6 9 7 9 10s-9 4-9 10M16.5 2c0 6-9 7-9 10s9 4 9 10" class="line" />`,
  live: svg`<circle cx="12" cy="12" r="8" class="fill" />`,
  waiting: svg`<circle cx="12" cy="12" r="8" class="line dotted" />`,
  stale: svg`<circle cx="12" cy="12" r="8" class="line" /><path d="M12 4a8 8 0 0 0 0 16z" class="fill" />`,
  lost: svg`<circle cx="12" cy="12" r="9" class="line" /><path d="M5.6 18.4 18.4 5.6" class="line" />`,
  none: svg`<path d="M4 12h16" class="line" />`,
  opening: svg`<circle cx="12" cy="12" r="8" class="line dashed" /><circle cx="12" cy="12" r="3" class="fill" />`,
  ended: svg`<path d="M5 5h14v14H5z" class="fill" />`,
  info: svg`<circle cx="12" cy="12" r="10" class="line" /><path d="M12 11.6v5M12 7v.1" class="line thin" />`,
  rising: svg`<path d="M12 4 20 18H4z" class="fill" />`,
  falling: svg`<path d="M12 20 4 6h16z" class="fill" />`,
  steady: svg`<path d="M3 9h18M3 15h18" class="line" />`,
  erase: svg`<path d="M8 4h14v16H8L1.5 12zM11.5 8.5l7 7M18.5 8.5l-7 7" class="line thin" />`,
} as const satisfies Record<string, SVGTemplateResult>;

export type IconShape = keyof typeof SHAPES;
export const ICON_SHAPES = Object.keys(SHAPES) as readonly IconShape[];

/** `m-icon`: one of our shapes in the colour of the text around it. `label` empty means decoration. */
@customElement('m-icon')
export class ShapeIcon extends LitElement {
  static override styles = [
    css`
      :host {
        display: inline-block;
        width: 1.15em;
        height: 1.15em;
        flex: none;
        color: inherit;
        vertical-align: -0.2em;
      }
      svg {
        display: block;
        width: 100%;
        height: 100%;
        overflow: visible;
      }
      .fill {
        fill: currentColor;
      }
      .line,
      .cut {
        fill: none;
        stroke: currentColor;
        stroke-width: 2.6;
        stroke-linecap: square;
      }
      .cut {
        stroke: var(--m-surface);
        stroke-width: 3;
      }
      .thin {
        stroke-width: 2.2;
      }
      .dashed {
        stroke-dasharray: 3 3.4;
        stroke-linecap: butt;
      }
      .dotted {
        stroke-dasharray: 0.1 4.9;
        stroke-linecap: round;
      }
      @media print {
        .fill {
          print-color-adjust: exact;
        }
      }
    `,
  ];

  @property() shape: IconShape = 'info';
  @property() label = '';

  override render() {
    const drawing = SHAPES[this.shape];
    return this.label
      ? html`<svg viewBox="0 0 24 24" role="img" aria-label=${this.label}>${drawing}</svg>`
      : html`<svg viewBox="0 0 24 24" aria-hidden="true">${drawing}</svg>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-icon': ShapeIcon;
  }
}
