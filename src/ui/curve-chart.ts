import { html, LitElement, nothing, svg, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CurvePoint } from '../limits/boundary-curve.ts';
import { baseStyles } from './base-styles.ts';
import { curveChartStyles } from './curve-chart-look.ts';
import { chartSteps, editorScale, pointAt } from './curve-chart-scale.ts';
import { CURVE_NAMES, type CurveDraft, type CurveName, type CurvePlace } from './curve-edit.ts';
import { CURVE_WORDS, drawnCurves, drawnLine, readablePoints, readCurves } from './curve-reading.ts';
import { labelPlace, niceTicks, zonesOf, type ChartScale, type Zone } from './limit-chart-geometry.ts';
import { limitChartStyles, ZONE_PATTERNS } from './limit-chart-look.ts';
import { MeasuredWidth } from './measured-width.ts';

/** A point was dragged or nudged to here. All moves of one drag carry the same gesture. */
export interface PointMoved extends CurvePlace {
  readonly speed: number;
  readonly volume: number;
  readonly gesture: string;
}

/** A place of the drawing was clicked beside every point. */
export interface PlaceClicked {
  readonly speed: number;
  readonly volume: number;
}

const ZONE_KIND = { pass: 'pass', marginal: 'marginal', 'fail low': 'fail', 'fail high': 'fail' } as const;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
const WALK: Readonly<Record<string, number>> = { PageUp: -1, PageDown: 1, Home: -Infinity, End: Infinity };

/**
 * `m-curve-chart`: the chart of `m-curve-editor`. Points of the chosen boundary are dragged, or moved by arrow keys (Shift: ten steps);
 * Page Up and Page Down go from point to point, Delete removes. Says `point-moved`, `point-chosen`, `point-removed`, `place-clicked`.
 */
@customElement('m-curve-chart')
export class CurveChartElement extends LitElement {
  static override styles = [baseStyles, limitChartStyles, curveChartStyles];

  @property({ attribute: false }) draft: CurveDraft | null = null;
  /** The boundary that is being edited. */
  @property({ attribute: false }) active: CurveName = 'failBelow';
  /** The row whose point has the ring and the tab stop. */
  @property({ type: Number }) chosen = 0;
  @property({ attribute: false }) tried: CurvePoint | null = null;
  @property() unit = 'mL';
  readonly #width = new MeasuredWidth(this);
  #scale: ChartScale | null = null;
  #drag: { readonly place: CurvePlace; readonly gesture: string } | null = null;
  #drags = 0;

  #say(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  /** While a point is dragged the axes stand still: else it would run away from the finger. */
  #scaleNow(draft: CurveDraft): ChartScale {
    const width = Math.max(280, this.#width.widthPx || 560);
    const height = Math.round(Math.min(520, Math.max(340, width * 0.68)));
    const frame = { left: 56, right: width - 14, top: 30, bottom: height - 54 };
    if (this.#drag && this.#scale?.right === frame.right) return this.#scale;
    const points = CURVE_NAMES.flatMap((name) => readablePoints(draft[name]).map(({ point }) => point));
    return editorScale(this.tried ? [...points, this.tried] : points, frame);
  }

  #at(event: PointerEvent): CurvePoint | null {
    const box = this.renderRoot.querySelector('svg')?.getBoundingClientRect();
    const scale = this.#scale;
    if (!box || !scale || box.width === 0) return null;
    const factor = (scale.right + 14) / box.width;
    return pointAt(scale, (event.clientX - box.left) * factor, (event.clientY - box.top) * factor);
  }

  #down(event: PointerEvent, place: CurvePlace) {
    if (event.button !== 0) return;
    const handle = event.currentTarget as SVGElement;
    handle.setPointerCapture(event.pointerId);
    this.#drags += 1;
    this.#drag = { place, gesture: `drag ${this.#drags}` };
    this.#say('point-chosen', place);
  }

  #move(event: PointerEvent) {
    const at = this.#drag && this.#at(event);
    if (!this.#drag || !at) return;
    const { place, gesture } = this.#drag;
    this.#say('point-moved', { ...place, speed: at[0], volume: at[1], gesture } satisfies PointMoved);
  }

  readonly #up = () => {
    this.#drag = null;
    this.requestUpdate();
  };

  /** A tap beside the points; a stroke that scrolls the page ends as `pointercancel` and is none. */
  #tap(event: PointerEvent) {
    if (event.button !== 0 || (event.target as Element).closest('.handle')) return;
    const at = this.#at(event);
    if (at) this.#say('place-clicked', { speed: at[0], volume: at[1] } satisfies PlaceClicked);
  }

  #key(event: KeyboardEvent, place: CurvePlace, point: CurvePoint) {
    const arrow = ARROWS[event.key];
    const walk = WALK[event.key];
    if (arrow && this.#scale) {
      const steps = chartSteps(this.#scale);
      const times = event.shiftKey ? 10 : 1;
      const speed = point[0] + arrow[0] * steps.speed * times;
      const volume = point[1] + arrow[1] * steps.volume * times;
      this.#say('point-moved', { ...place, speed, volume, gesture: 'keys' } satisfies PointMoved);
    } else if (walk !== undefined) this.#walk(place, walk);
    else if (event.key === 'Delete') this.#say('point-removed', place);
    else return;
    event.preventDefault();
  }

  #walk({ curve, index }: CurvePlace, by: number) {
    const indexes = readablePoints(this.draft?.[curve] ?? []).map((each) => each.index);
    const to = Math.min(Math.max(indexes.indexOf(index) + by, 0), indexes.length - 1);
    this.#say('point-chosen', { curve, index: indexes[to] ?? index });
    this.#focusChosen = true;
  }

  #focusChosen = false;

  protected override updated(changed: PropertyValues<this>) {
    if (!this.#focusChosen || !changed.has('chosen')) return;
    this.#focusChosen = false;
    this.renderRoot.querySelector<SVGElement>('.handle[tabindex="0"]')?.focus();
  }

  #zone(scale: ChartScale, zone: Zone) {
    const points = [...zone.lower, ...zone.upper.toReversed()]
      .map(([rpm, ml]) => `${scale.x(rpm)},${scale.y(ml)}`)
      .join(' ');
    const kind = ZONE_KIND[zone.name];
    const [rpm, ml] = labelPlace(zone, scale, this.tried?.[0] ?? null);
    return {
      area: svg`<polygon class="zone ${kind}" points=${points} /><polygon points=${points} fill="url(#hatch-${kind})" />`,
      name: svg`<text class="zone-name ${kind}" x=${scale.x(rpm)} y=${scale.y(ml)} dy="0.35em">${zone.name}</text>`,
    };
  }

  #line(scale: ChartScale, draft: CurveDraft, curve: CurveName) {
    const points = readablePoints(draft[curve]).map(({ point }) => point);
    const line = drawnLine(points, draft.join);
    const kind = curve === 'passAbove' ? 'pass' : 'fail';
    const path = line.map(([rpm, ml]) => `${scale.x(rpm)},${scale.y(ml)}`).join(' ');
    const still =
      curve === this.active
        ? nothing
        : points.map(
            ([rpm, ml]) => svg`<circle class="still ${kind}" cx=${scale.x(rpm)} cy=${scale.y(ml)} r="4" />`,
          );
    return svg`<g class=${curve === this.active ? 'active' : ''}><polyline class="boundary ${kind}" points=${path} />${still}</g>`;
  }

  #handle(scale: ChartScale, index: number, point: CurvePoint) {
    const place: CurvePlace = { curve: this.active, index };
    const on = index === this.chosen;
    const [x, y] = [scale.x(point[0]), scale.y(point[1])];
    const name = `${CURVE_WORDS[this.active]}, point ${index + 1}: ${point[0]} rpm, ${point[1]} ${this.unit}`;
    return svg`<g class="handle ${on ? 'on' : ''} ${this.active === 'passAbove' ? 'pass' : 'fail'}" role="button"
        tabindex=${on ? '0' : '-1'} aria-label=${name} aria-describedby="how"
        @pointerdown=${(event: PointerEvent) => this.#down(event, place)}
        @pointermove=${(event: PointerEvent) => this.#move(event)}
        @pointerup=${this.#up} @pointercancel=${this.#up} @lostpointercapture=${this.#up}
        @focus=${() => !on && this.#say('point-chosen', place)}
        @keydown=${(event: KeyboardEvent) => this.#key(event, place, point)}>
      <circle class="reach" cx=${x} cy=${y} r="26" />
      ${on ? svg`<circle class="ring" cx=${x} cy=${y} r="14" />` : nothing}
      ${this.active === 'passAbove' ? svg`<circle class="knob" cx=${x} cy=${y} r="8" />` : svg`<rect class="knob" x=${x - 7} y=${y - 7} width="14" height="14" />`}
      ${on ? this.#tag(scale, x, y, point) : nothing}
    </g>`;
  }

  /** The chosen point's numbers, on the side where there is room. */
  #tag(scale: ChartScale, x: number, y: number, [rpm, ml]: CurvePoint) {
    const left = x > (scale.left + scale.right) / 2;
    const up = y - 24 < scale.top ? 34 : -20;
    return svg`<text class="tag ${left ? 'end' : ''}" x=${x + (left ? -14 : 14)} y=${y + up}>${rpm} rpm, ${ml} ${this.unit}</text>`;
  }

  #axes(scale: ChartScale) {
    const { left, right, top, bottom } = scale;
    return svg`<g class="axes">
      ${niceTicks(scale.minRpm, scale.maxRpm, (right - left) / 70).map((rpm) => svg`<line x1=${scale.x(rpm)} x2=${scale.x(rpm)} y1=${bottom} y2=${bottom + 6} /><text x=${scale.x(rpm)} y=${bottom + 22} class="mid">${rpm}</text>`)}
      ${niceTicks(0, scale.maxMl, (bottom - top) / 48).map((ml) => svg`<line x1=${left - 6} x2=${left} y1=${scale.y(ml)} y2=${scale.y(ml)} /><text x=${left - 10} y=${scale.y(ml)} dy="0.35em" class="end">${ml}</text>`)}
      <path class="axis" d="M${left} ${top}V${bottom}H${right}" />
      <text class="axis-name mid" x=${(left + right) / 2} y=${bottom + 44}>average cranking speed, rpm</text>
      <text class="axis-name" x="2" y="14">collected volume, ${this.unit}</text>
    </g>`;
  }

  #tried(scale: ChartScale, [rpm, ml]: CurvePoint) {
    const [x, y] = [scale.x(rpm), scale.y(ml)];
    return svg`<g class="tried"><path class="halo" d="M${x - 9} ${y - 9}l18 18M${x + 9} ${y - 9}l-18 18" /><path d="M${x - 9} ${y - 9}l18 18M${x + 9} ${y - 9}l-18 18" /></g>`;
  }

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const scale = (this.#scale = this.#scaleNow(draft));
    const { chart } = readCurves(draft, this.unit);
    const zones = chart
      ? zonesOf(drawnCurves(chart), scale.maxMl).map((zone) => this.#zone(scale, zone))
      : [];
    const { left, top, right, bottom } = scale;
    return html`<figure>
      <svg
        viewBox="0 0 ${right + 14} ${bottom + 54}"
        role="group"
        aria-label="Chart of the boundaries"
        @pointerup=${(event: PointerEvent) => this.#tap(event)}
      >
        ${ZONE_PATTERNS}
        <rect class="ground" x=${left} y=${top} width=${right - left} height=${bottom - top}></rect>
        ${zones.map(({ area }) => area)} ${CURVE_NAMES.map((curve) => this.#line(scale, draft, curve))}
        ${zones.map(({ name }) => name)} ${this.#axes(scale)}
        ${this.tried ? this.#tried(scale, this.tried) : nothing}
        ${readablePoints(draft[this.active]).map(({ index, point }) => this.#handle(scale, index, point))}
      </svg>
      ${chart ? nothing : html`<figcaption>The zones are drawn when the boundaries are without mistakes.</figcaption>`}
      <p id="how" class="how">
        Drag a point, or move it with the arrow keys. Page Up and Page Down go to the next point.
      </p>
    </figure>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-curve-chart': CurveChartElement;
  }
  interface HTMLElementEventMap {
    'point-moved': CustomEvent<PointMoved>;
    'point-chosen': CustomEvent<CurvePlace>;
    'point-removed': CustomEvent<CurvePlace>;
    'place-clicked': CustomEvent<PlaceClicked>;
  }
}
