import { css, html, LitElement, svg, type SVGTemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';
import { enlargedStretch, heldMl, meniscusPath, vesselMarks, type VesselMark } from './vessel-marks.ts';

/** A stretch of glass: where its bore is, and where mL lie on it. */
interface Glass {
  readonly left: number;
  readonly right: number;
  readonly y: (ml: number) => number;
  readonly climb: number;
  readonly numberX: number;
}

const WIDTH = 340;
const HEIGHT = 520;
/** The whole vessel: its bore from full to empty. */
const FULL_Y = 46;
const EMPTY_Y = 484;
const WHOLE = { left: 54, right: 116, numberX: 47, climb: 5 };
/** The enlarged stretch. */
const LENS = { x: 158, y: 30, width: 178, height: 440 };
const MARK_LENGTH = { major: 0.5, mid: 0.34, minor: 0.2 } as const;

/**
 * `m-vessel`: a graduated cylinder drawn so that a person reads it as one reads glass: at the bottom of the curve, against
 * the marks. The number itself is never written, neither on screen nor for a screen reader: reading it is the lesson.
 */
@customElement('m-vessel')
export class VesselDrawing extends LitElement {
  static override styles = [
    baseStyles,
    css`
      figure {
        max-width: 28rem;
        margin: 0 auto;
      }
      svg {
        display: block;
        width: 100%;
        height: auto;
      }
      .glass {
        fill: var(--m-glass);
      }
      .wall,
      .rim {
        fill: none;
        stroke: var(--m-mark);
        stroke-width: 2.5;
        stroke-linejoin: round;
      }
      .fuel {
        fill: var(--m-fuel);
      }
      .skin {
        fill: none;
        stroke: var(--m-fuel-edge);
        stroke-width: 3;
      }
      .whole .skin {
        stroke-width: 2;
      }
      .mark {
        stroke: var(--m-ink);
        stroke-width: 1;
      }
      .lens .mark {
        stroke-width: 1.5;
      }
      .mark.major {
        stroke-width: 1.8;
      }
      .lens .mark.major {
        stroke-width: 2.6;
      }
      text {
        fill: var(--m-ink);
        font-family: var(--m-font-number);
        font-size: 13px;
        text-anchor: end;
      }
      .lens text {
        font-size: 22px;
        font-weight: 600;
      }
      .frame {
        fill: none;
        stroke: var(--m-accent);
        stroke-width: 2.5;
      }
      .lead {
        fill: var(--m-accent);
        fill-opacity: 0.1;
        stroke: var(--m-accent);
        stroke-width: 1;
      }
      .guide {
        stroke: var(--m-accent);
        stroke-width: 1.6;
        stroke-dasharray: 2 5;
      }
      figcaption {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        text-align: center;
      }
    `,
  ];

  @property({ type: Number, attribute: 'capacity-ml' }) capacityMl = 500;
  @property({ type: Number, attribute: 'graduation-ml' }) graduationMl = 5;
  @property({ attribute: false }) levelMl = 0;
  /** A dotted line from the bottom of the curve to the marks, for a first reading. */
  @property({ type: Boolean }) guide = false;

  #marks(glass: Glass, marks: readonly VesselMark[]) {
    return marks.map(({ ml, rank }) => {
      const y = glass.y(ml);
      const to = glass.left + (glass.right - glass.left) * MARK_LENGTH[rank];
      return svg`<line class="mark ${rank}" x1=${glass.left} x2=${to} y1=${y} y2=${y} />
        ${rank === 'major' ? svg`<text x=${glass.numberX} y=${y} dy="0.36em">${ml}</text>` : ''}`;
    });
  }

  #liquid(glass: Glass, level: number, bottomY: number): SVGTemplateResult | '' {
    if (level <= 0) return '';
    const skin = { left: glass.left, right: glass.right, levelY: glass.y(level), climb: glass.climb };
    const path = meniscusPath(skin);
    return svg`<path class="fuel" d="${path}V${bottomY}H${skin.left}z" /><path class="skin" d=${path} />`;
  }

  #whole(level: number, marks: readonly VesselMark[]) {
    const { left, right } = WHOLE;
    const perMl = (EMPTY_Y - FULL_Y) / this.capacityMl;
    const glass: Glass = { ...WHOLE, y: (ml) => EMPTY_Y - ml * perMl };
    return svg`<g class="whole">
      <path class="glass" d="M${left} 14H${right}V${EMPTY_Y + 8}H${left}z" />
      ${this.#liquid(glass, level, EMPTY_Y + 8)}
      ${this.#marks(glass, marks)}
      <path class="wall" d="M${left - 8} 10q8 0 8 10V${EMPTY_Y + 8}H${right}V20q0-10 8-10" />
      <path class="rim" d="M${left - 14} ${HEIGHT - 10}l8-18h${right - left + 12}l8 18z" />
    </g>`;
  }

  #lens(level: number, marks: readonly VesselMark[]) {
    const { fromMl, toMl } = enlargedStretch(level, this.capacityMl, this.graduationMl);
    const perMl = LENS.height / (toMl - fromMl);
    const bottomY = LENS.y + LENS.height;
    const glass: Glass = {
      left: LENS.x + 58,
      right: LENS.x + LENS.width - 8,
      numberX: LENS.x + 50,
      climb: Math.min(24, perMl * this.graduationMl * 0.8),
      y: (ml) => bottomY - (ml - fromMl) * perMl,
    };
    const inside = marks.filter(({ ml }) => ml >= fromMl && ml <= toMl);
    const guideY = glass.y(level);
    return svg`<g class="lens" clip-path="url(#lens)">
      <rect class="glass" x=${LENS.x} y=${LENS.y} width=${LENS.width} height=${LENS.height} />
      ${this.#liquid(glass, level, bottomY)}
      ${this.#marks(glass, inside)}
      <path class="wall" d="M${glass.left} ${LENS.y}v${LENS.height}M${glass.right} ${LENS.y}v${LENS.height}" />
      ${this.guide ? svg`<line class="guide" x1=${glass.left} x2=${glass.right} y1=${guideY} y2=${guideY} />` : ''}
    </g>
    ${this.#lead(fromMl, toMl)}`;
  }

  /** Shows which stretch of the whole is enlarged. */
  #lead(fromMl: number, toMl: number) {
    const y = (ml: number) => EMPTY_Y - (ml / this.capacityMl) * (EMPTY_Y - FULL_Y);
    const { x, y: top, width, height } = LENS;
    const edge = WHOLE.right + 4;
    return svg`<path class="lead" d="M${edge} ${y(toMl)}L${x} ${top}V${top + height}L${edge} ${y(fromMl)}z" />
      <rect class="frame" x=${x} y=${top} width=${width} height=${height} rx="4" />`;
  }

  override render() {
    const { capacityMl, graduationMl } = this;
    const level = heldMl(this.levelMl, capacityMl);
    const marks = vesselMarks(capacityMl, graduationMl);
    const name =
      `Drawing of a ${capacityMl} mL vessel with a mark every ${graduationMl} mL. ` +
      'Read the level at the bottom of the curve.';
    return html`<figure>
      <svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${name}>
        ${svg`<clipPath id="lens">
          <rect x=${LENS.x} y=${LENS.y} width=${LENS.width} height=${LENS.height} rx="4" />
        </clipPath>`}
        ${this.#whole(level, marks)} ${this.#lens(level, marks)}
      </svg>
      <figcaption>
        ${capacityMl} mL, a mark every ${graduationMl} mL. Read at the bottom of the curve.
      </figcaption>
    </figure>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-vessel': VesselDrawing;
  }
}
