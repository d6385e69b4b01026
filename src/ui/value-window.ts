import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatNumber } from '../quantities/format.ts';
import { baseStyles } from './base-styles.ts';
import { rangeWords } from './held-words.ts';
import { limitChartStyles, ZONE_PATTERNS } from './limit-chart-look.ts';
import { MeasuredWidth } from './measured-width.ts';
import {
  windowScale,
  windowWords,
  type WindowMark,
  type WindowScale,
  type WindowZone,
} from './window-scale.ts';

const CLASS = { pass: 'pass', 'fail low': 'fail', 'fail high': 'fail' } as const;
const BAND = { top: 52, bottom: 104 };
const ROW_PX = 28;
/** A letter of a zone's name at the size it is drawn. */
const LETTER_PX = 8;

/**
 * `m-value-window`: a value against its window, drawn as a scale: fail low, pass, fail high, each tinted, hatched and named; the value with
 * its uncertainty; earlier runs each in a row below. All numbers in the unit that is shown.
 */
@customElement('m-value-window')
export class ValueWindow extends LitElement {
  static override styles = [
    baseStyles,
    limitChartStyles,
    css`
      .zone-name {
        font-size: var(--m-text-m);
      }
      .limit {
        stroke: var(--m-ink);
        stroke-width: 3;
      }
      .now-text {
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .pointer {
        fill: var(--m-ink);
        stroke: var(--m-surface);
        stroke-width: 2;
      }
      .stem {
        stroke: var(--m-ink);
        stroke-width: 2.5;
      }
    `,
  ];

  @property({ type: Number }) min: number | null = null;
  @property({ type: Number }) max: number | null = null;
  @property() unit = '';
  /** Decimals of the numbers on the scale. */
  @property({ type: Number }) digits = 0;
  @property({ attribute: false }) value: WindowMark | null = null;
  @property({ attribute: false }) earlier: readonly WindowMark[] = [];
  /** What is measured, e.g. "Supply pressure". */
  @property() label = 'Value';
  /** What the bars mean, e.g. "Bars: ± 2 standard uncertainties". */
  @property() caption = '';
  readonly #width = new MeasuredWidth(this);

  #shown(value: number): string {
    return formatNumber(value, { decimals: this.digits });
  }

  #range(): string {
    const text = (end: number | null) => (end === null ? null : this.#shown(end));
    return rangeWords(text(this.min), text(this.max), this.unit);
  }

  #zone(zone: WindowZone, x: (value: number) => number) {
    const [left, width] = [x(zone.from), x(zone.to) - x(zone.from)];
    const kind = CLASS[zone.name];
    const height = BAND.bottom - BAND.top;
    return svg`<rect class="zone ${kind}" x=${left} y=${BAND.top} width=${width} height=${height} />
      <rect x=${left} y=${BAND.top} width=${width} height=${height} fill="url(#hatch-${kind})" />`;
  }

  /** Drawn last, with its halo: the mark never strikes the word out. */
  #name(zone: WindowZone, x: (value: number) => number) {
    const [left, width] = [x(zone.from), x(zone.to) - x(zone.from)];
    if (width < zone.name.length * LETTER_PX) return nothing;
    return svg`<text class="zone-name ${CLASS[zone.name]}" x=${left + width / 2} y=${BAND.top + 18} dy="0.35em">${zone.name}</text>`;
  }

  /** Where a text is tied to its place, so that it never leaves the drawing. */
  #tie(x: number, width: number): string {
    return x < width * 0.2 ? '' : x > width * 0.8 ? 'end' : 'mid';
  }

  #limit(end: number | null, x: (value: number) => number, width: number) {
    if (end === null) return nothing;
    const at = x(end);
    return svg`<line class="limit" x1=${at} x2=${at} y1=${BAND.top - 4} y2=${BAND.bottom + 6} />
      <text class=${this.#tie(at, width)} x=${at} y=${BAND.bottom + 22}>${this.#shown(end)}</text>`;
  }

  #bar(mark: WindowMark, x: (value: number) => number, y: number) {
    if (!(mark.halfWidth > 0)) return nothing;
    const [left, right] = [x(mark.value - mark.halfWidth), x(mark.value + mark.halfWidth)];
    const path = `M${left} ${y}H${right}M${left} ${y - 7}v14M${right} ${y - 7}v14`;
    return svg`<path class="halo" d=${path} /><path class="bars" d=${path} />`;
  }

  #now(mark: WindowMark, x: (value: number) => number, width: number) {
    const at = x(mark.value);
    return svg`<g class="measured now">
      <line class="stem" x1=${at} x2=${at} y1=${BAND.top - 10} y2=${BAND.bottom} />
      ${this.#bar(mark, x, BAND.bottom - 12)}
      <path class="pointer" d="M${at - 10} ${BAND.top - 22}h20l-10 18z" />
      <text class="now-text ${this.#tie(at, width)}" x=${at} y="20">${mark.label} ${this.#shown(mark.value)} ${this.unit}</text>
    </g>`;
  }

  #before(mark: WindowMark, row: number, x: (value: number) => number) {
    const at = x(mark.value);
    const y = BAND.bottom + 48 + row * ROW_PX;
    const left = at > (x(Infinity) * 2) / 3;
    return svg`<g class="measured earlier">
      ${this.#bar(mark, x, y)}<circle class="dot" cx=${at} cy=${y} r="6" />
      <text class=${left ? 'end' : ''} x=${at + (left ? -1 : 1) * 14} y=${y} dy="-0.5em">${mark.label} ${this.#shown(mark.value)}</text>
    </g>`;
  }

  #summary(): string {
    const { value } = this;
    const about = `${this.label}: asked ${this.#range()}.`;
    if (!value) return `${about} No value yet.`;
    const bar = value.halfWidth > 0 ? ` ± ${this.#shown(value.halfWidth)}` : '';
    const word = windowWords(value.value, this);
    return `${about} ${value.label} ${this.#shown(value.value)}${bar} ${this.unit}: ${word}.`;
  }

  #drawing(scale: WindowScale) {
    const width = Math.max(280, this.#width.widthPx || 640);
    const height = BAND.bottom + 32 + this.earlier.length * ROW_PX + (this.earlier.length > 0 ? 8 : 0);
    const x = (value: number) => 12 + scale.at(value) * (width - 24);
    return html`<svg viewBox="0 0 ${width} ${height}" role="img" aria-label=${this.#summary()}>
      ${ZONE_PATTERNS} ${scale.zones.map((zone) => this.#zone(zone, x))} ${this.#limit(this.min, x, width)}
      ${this.#limit(this.max, x, width)} ${this.earlier.map((mark, row) => this.#before(mark, row, x))}
      ${this.value ? this.#now(this.value, x, width) : nothing}
      ${scale.zones.map((zone) => this.#name(zone, x))}
    </svg>`;
  }

  override render() {
    const scale = windowScale(this, this.value ? [this.value, ...this.earlier] : this.earlier);
    if (!scale) return nothing;
    return html`<figure>
      ${this.#drawing(scale)}
      <figcaption>Asked: ${this.#range()}${this.caption ? `. ${this.caption}` : ''}</figcaption>
    </figure>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-value-window': ValueWindow;
  }
}
