import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';
import {
  chartScale,
  coveredSpeeds,
  labelPlace,
  niceTicks,
  zonesOf,
  type Boundaries,
  type ChartPoint,
  type ChartScale,
  type MeasuredPoint,
  type Zone,
} from './limit-chart-geometry.ts';
import { limitChartStyles, ZONE_PATTERNS } from './limit-chart-look.ts';
import { MeasuredWidth } from './measured-width.ts';

/** The line from the point to the nearest boundary, straight up or down since the distance is a volume. */
export interface ChartDistance {
  readonly boundaryMl: number;
  readonly label: string;
}

const NARROW_PX = 560;

const CLASS = { pass: 'pass', marginal: 'marginal', 'fail low': 'fail', 'fail high': 'fail' } as const;

/**
 * `m-limit-chart`: average speed across, collected volume up; zones tinted, hatched and named; the run with its
 * uncertainty, earlier runs fainter, the distance that decides. Outside the boundaries' speeds it says so.
 */
@customElement('m-limit-chart')
export class LimitChart extends LitElement {
  static override styles = [baseStyles, limitChartStyles];

  @property({ attribute: false }) boundaries: Boundaries | null = null;
  @property({ attribute: false }) point: MeasuredPoint | null = null;
  @property({ attribute: false }) earlier: readonly MeasuredPoint[] = [];
  @property({ attribute: false }) nearest: ChartDistance | null = null;
  /** What the chart is, and what the bars mean, e.g. "Bars: ± 2 standard uncertainties". */
  @property() caption = '';
  readonly #width = new MeasuredWidth(this);

  /** Too narrow for the distance to be written beside the point: it stands below the chart. */
  #narrow(): boolean {
    return this.#width.widthPx < NARROW_PX;
  }

  #polygon(scale: ChartScale, { lower, upper }: Zone): string {
    return [...lower, ...[...upper].reverse()].map(([rpm, ml]) => `${scale.x(rpm)},${scale.y(ml)}`).join(' ');
  }

  #zone(scale: ChartScale, zone: Zone) {
    const points = this.#polygon(scale, zone);
    const kind = CLASS[zone.name];
    const [rpm, ml] = labelPlace(zone, scale, this.point?.speedRpm ?? null);
    return {
      area: svg`<polygon class="zone ${kind}" points=${points} />
        <polygon points=${points} fill="url(#hatch-${kind})" />`,
      name: svg`<text class="zone-name ${kind}" x=${scale.x(rpm)} y=${scale.y(ml)} dy="0.35em">${zone.name}</text>`,
    };
  }

  #outside(scale: ChartScale, fromRpm: number, toRpm: number) {
    const x = scale.x(fromRpm);
    const width = scale.x(toRpm) - x;
    if (!(width > 0)) return nothing;
    const height = scale.bottom - scale.top;
    const middle = x + width / 2;
    return svg`<rect class="outside" x=${x} y=${scale.top} width=${width} height=${height} />
      <rect x=${x} y=${scale.top} width=${width} height=${height} fill="url(#hatch-outside)" />
      <text class="outside-name" transform="translate(${middle} ${scale.top + 14}) rotate(90)" dy="0.35em">
        no limits here
      </text>`;
  }

  #axes(scale: ChartScale) {
    const { left, right, top, bottom } = scale;
    const across = niceTicks(scale.minRpm, scale.maxRpm, (right - left) / 80);
    const up = niceTicks(0, scale.maxMl, (bottom - top) / 48);
    return svg`<g class="axes">
      ${across.map((rpm) => {
        const x = scale.x(rpm);
        return svg`<line x1=${x} x2=${x} y1=${bottom} y2=${bottom + 6} /><text x=${x} y=${bottom + 22} class="mid">${rpm}</text>`;
      })}
      ${up.map((ml) => {
        const y = scale.y(ml);
        return svg`<line x1=${left - 6} x2=${left} y1=${y} y2=${y} /><text x=${left - 10} y=${y} dy="0.35em" class="end">${ml}</text>`;
      })}
      <path class="axis" d="M${left} ${top}V${bottom}H${right}" />
      <text class="axis-name mid" x=${(left + right) / 2} y=${bottom + 44}>average cranking speed, rpm</text>
      <text class="axis-name" x="2" y="14">collected volume, mL</text>
    </g>`;
  }

  #lines(scale: ChartScale, { failBelow, passAbove, failAbove }: Boundaries) {
    const line = (curve: readonly ChartPoint[], kind: string) =>
      svg`<polyline class="boundary ${kind}" points=${curve.map(([rpm, ml]) => `${scale.x(rpm)},${scale.y(ml)}`).join(' ')} />`;
    return [line(failBelow, 'fail'), line(passAbove, 'pass'), failAbove ? line(failAbove, 'fail') : nothing];
  }

  #measured(scale: ChartScale, point: MeasuredPoint, kind: 'now' | 'earlier') {
    const [x, y] = [scale.x(point.speedRpm), scale.y(point.volumeMl)];
    const wide = [
      scale.x(point.speedRpm - point.speedHalfWidthRpm),
      scale.x(point.speedRpm + point.speedHalfWidthRpm),
    ];
    const high = [
      scale.y(point.volumeMl + point.volumeHalfWidthMl),
      scale.y(point.volumeMl - point.volumeHalfWidthMl),
    ];
    const bars =
      `M${wide[0]} ${y}H${wide[1]}M${wide[0]} ${y - 6}v12M${wide[1]} ${y - 6}v12` +
      `M${x} ${high[0]}V${high[1]}M${x - 6} ${high[0]}h12M${x - 6} ${high[1]}h12`;
    const start = x < scale.left + 70;
    return svg`<g class="measured ${kind}">
      <path class="halo" d=${bars} /><path class="bars" d=${bars} />
      <circle class="halo" cx=${x} cy=${y} r=${kind === 'now' ? 6 : 5} />
      <circle class="dot" cx=${x} cy=${y} r=${kind === 'now' ? 6 : 5} />
      <text class=${start ? '' : 'end'} x=${x + (start ? 12 : -12)} y=${y - 10}>${point.label}</text>
    </g>`;
  }

  #distance(scale: ChartScale, point: MeasuredPoint, { boundaryMl, label }: ChartDistance) {
    const [x, y, to] = [scale.x(point.speedRpm), scale.y(point.volumeMl), scale.y(boundaryMl)];
    const end = x > scale.right - (this.#narrow() ? 60 : 260);
    const beside = x + (end ? -28 : 28);
    return svg`<g class="distance">
      <path class="dimension" d="M${x} ${y}H${beside}M${x} ${to}H${beside}" />
      <line x1=${beside} x2=${beside} y1=${y} y2=${to} />
      ${this.#narrow() ? nothing : svg`<text class=${end ? 'end' : ''} x=${beside + (end ? -10 : 10)} y=${to} dy=${to > y ? '1.1em' : '-0.5em'}>${label}</text>`}
    </g>`;
  }

  #summary({ from, to }: { from: number; to: number }): string {
    const about = `Limit chart from ${Math.round(from)} to ${Math.round(to)} rpm.`;
    const { point } = this;
    if (!point) return `${about} No run on it yet.`;
    const inside = point.speedRpm >= from && point.speedRpm <= to;
    const where = `${point.label}: ${point.volumeMl.toFixed(0)} mL at ${point.speedRpm.toFixed(1)} rpm`;
    return `${about} ${where}${inside ? '' : ', outside the speeds of this chart'}. ${this.nearest?.label ?? ''}`;
  }

  override render() {
    const { boundaries, point } = this;
    if (!boundaries) return nothing;
    const width = Math.max(280, this.#width.widthPx || 640);
    const height = Math.round(Math.min(520, Math.max(360, width * 0.6)));
    const frame = { left: 58, right: width - 12, top: 28, bottom: height - 56 };
    const scale = chartScale(boundaries, point ? [point, ...this.earlier] : this.earlier, frame);
    const zones = zonesOf(boundaries, scale.maxMl).map((zone) => this.#zone(scale, zone));
    const covered = coveredSpeeds(boundaries);
    return html`<figure>
      <svg viewBox="0 0 ${width} ${height}" role="img" aria-label=${this.#summary(covered)}>
        ${ZONE_PATTERNS} ${zones.map((zone) => zone.area)} ${this.#outside(scale, scale.minRpm, covered.from)}
        ${this.#outside(scale, covered.to, scale.maxRpm)} ${this.#lines(scale, boundaries)}
        ${zones.map((zone) => zone.name)} ${this.#axes(scale)}
        ${this.earlier.map((earlier) => this.#measured(scale, earlier, 'earlier'))}
        ${point && this.nearest ? this.#distance(scale, point, this.nearest) : nothing}
        ${point ? this.#measured(scale, point, 'now') : nothing}
      </svg>
      ${this.nearest && this.#narrow() ? html`<p class="decides">${this.nearest.label}</p>` : nothing}
      ${this.caption ? html`<figcaption>${this.caption}</figcaption>` : nothing}
    </figure>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-limit-chart': LimitChart;
  }
}
