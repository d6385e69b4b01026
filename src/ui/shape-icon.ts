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
  serial: svg`<path d="M6 10h12v6a4 4 0 0 1-4 4h-4a4 4 0 0 1-4-4zM8.5 10V3h7v7M12 20v3.4" class="line thin" /><path d="M11 6.4v.1M13 6.4v.1" class="line thin" />`,
  radio: svg`<circle cx="5" cy="19" r="3" class="fill" /><path d="M5 11.4a7.6 7.6 0 0 1 7.6 7.6M5 4a15 15 0 0 1 15 15" class="line" />`,
  network: svg`<path d="M8.6 2h6.8v5.6H8.6zM2 16.4h6.8V22H2zM15.2 16.4H22V22h-6.8zM12 7.6V12M5.4 16.4V12h13.2v4.4" class="line thin" />`,
  file: svg`<path d="M4.6 2h9.6l5.2 5.2V22H4.6zM14 2v5.4h5.4M8.4 12.4h7.2M8.4 16.8h7.2" class="line thin" />`,
  replay: svg`<path d="M3.4 12a8.8 8.8 0 1 0 3-6.6" class="line thin" /><path d="M2.4 1.6v7.2h7.2zM10 8.4l6.4 3.6-6.4 3.6z" class="fill" />`,
  keyboard: svg`<path d="M1.4 5h21.2v14H1.4zM5.2 9v.1M9.6 9v.1M14.2 9v.1M18.6 9v.1M5.2 12.6v.1M18.6 12.6v.1M8.6 15.4h6.8" class="line thin" />`,
  bench: svg`<path d="M1.4 21h21.2M3.4 21v-9.6h9.2V21M5.4 11.4V6.6h5.2v4.8M12.6 15h3.2M17 17h4.4v4" class="line thin" /><path d="M19.2 8.4c1.4 2 2 3 2 4a2 2 0 0 1-4 0c0-1 .6-2 2-4z" class="fill" />`,
  pause: svg`<path d="M5 3h5v18H5zM14 3h5v18h-5z" class="fill" />`,
  play: svg`<path d="M5 2.4 21.4 12 5 21.6z" class="fill" />`,
  copy: svg`<path d="M8 8h13v14H8zM4.6 16H3V2h13v1.8" class="line thin" />`,
  edit: svg`<path d="M3 21l1.4-5.8L16 3.6l4.4 4.4L8.8 19.6zM13 6.6l4.4 4.4" class="line thin" />`,
  plus: svg`<path d="M12 3v18M3 12h18" class="line" />`,
  cross: svg`<path d="M4.6 4.6l14.8 14.8M19.4 4.6 4.6 19.4" class="line" />`,
  engine: svg`<path d="M6 9.4h2.6V6h6.8v3.4h2.4l2.6 2.6H23v6.4h-2.6L18 20.8H9L6 17.6zM1.4 10v8M1.4 14H6M8.6 3h6.8" class="line thin" />`,
  shield: svg`<path d="M12 1.8 21 5v6.6c0 5.2-3.6 8.6-9 10.8-5.4-2.2-9-5.6-9-10.8V5z" class="line" />`,
  more: svg`<path d="M4 8l8 8 8-8" class="line" />`,
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
