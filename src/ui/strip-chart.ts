import { html, LitElement, nothing, svg, unsafeCSS, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import uPlot from 'uplot';
import uPlotCss from 'uplot/dist/uPlot.min.css?inline';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { MeasuredWidth } from './measured-width.ts';
import { stripChartStyles } from './strip-chart-look.ts';
import { drawAverages, SERIES_LOOK, shadeCranks, type OverlayLook } from './strip-chart-overlay.ts';
import {
  extentOf,
  readout,
  shifted,
  summarise,
  zoomed,
  type StripColumns,
  type StripCrank,
  type StripKind,
  type StripSeries,
} from './strip-chart-summary.ts';
import { stripTable } from './strip-table.ts';
import { ThemeWatch } from './theme-watch.ts';

interface Range {
  readonly min: number;
  readonly max: number;
}

const NARROW_PX = 600;

/** Each kind's axis: speed at the left, pressures at the right; floors so that a flat trace is not blown up to noise. */
const SCALES: Readonly<Record<StripKind, { side: 1 | 3; least: number }>> = {
  speed: { side: 3, least: 100 },
  rail: { side: 1, least: 1 },
  supply: { side: 1, least: 1 },
};

/** NaN is how typed columns say "no number"; the plot wants null there. */
const withNulls = (column: StripColumns[number]): (number | null)[] =>
  column instanceof Float64Array
    ? Array.from(column, (value) => (Number.isNaN(value) ? null : value))
    : (column as (number | null)[]);

/**
 * `m-strip-chart`: speed and pressures over time, cranks shaded, their averages drawn. Samples come in columns; raise
 * `revision` after appending (the arrays are not compared). Drag, buttons or keys zoom. Owns the plotting library.
 */
@customElement('m-strip-chart')
export class StripChart extends LitElement {
  static override styles = [unsafeCSS(uPlotCss), baseStyles, buttonStyles, stripChartStyles];

  @property({ attribute: false }) series: readonly StripSeries[] = [];
  @property({ attribute: false }) columns: StripColumns = [];
  @property({ attribute: false }) revision = 0;
  @property({ attribute: false }) cranks: readonly StripCrank[] = [];
  /** Follows the last so many seconds while not zoomed; null shows everything. */
  @property({ attribute: false }) followSeconds: number | null = null;
  @property() label = 'Strip chart';
  @state() private _zoom: Range | null = null;
  @state() private _at: number | null = null;
  @state() private _table = false;
  @query('.plot') private _box!: HTMLDivElement;
  #plot: uPlot | null = null;
  readonly #theme = new ThemeWatch(this, () => this.#plot?.redraw(false));
  readonly #width = new MeasuredWidth(this, () => this.#fit());

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated && !this.#plot) this.#build();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#plot?.destroy();
    this.#plot = null;
  }

  protected override firstUpdated(): void {
    this.#build();
  }

  protected override updated(changed: PropertyValues<this> & Map<PropertyKey, unknown>): void {
    if (!this.#plot || !this.isConnected) return;
    if (changed.has('series')) this.#rebuild();
    else if (['revision', 'columns', '_zoom', 'followSeconds'].some((name) => changed.has(name)))
      this.#show();
    else if (changed.has('cranks')) this.#plot.redraw(false);
  }

  get #count(): number {
    return this.columns[0]?.length ?? 0;
  }

  #whole(): Range {
    const seconds = this.columns[0] ?? [];
    const min = seconds[0] ?? 0;
    const max = seconds[seconds.length - 1] ?? 0;
    return max > min ? { min, max } : { min, max: min + 1 };
  }

  #range(): Range {
    const whole = this.#whole();
    if (this._zoom) return this._zoom;
    if (this.followSeconds === null) return whole;
    return { min: Math.max(whole.min, whole.max - this.followSeconds), max: whole.max };
  }

  /** uPlot takes numbers or nulls in arrays of one length; missing columns are filled with nothing. */
  #data(): uPlot.AlignedData {
    const count = this.#count;
    const blank = () => new Array<null>(count).fill(null);
    const rest = this.series.map((_, index) => {
      const column = this.columns[index + 1];
      return column?.length === count ? withNulls(column) : blank();
    });
    return [(this.columns[0] ?? []) as number[], ...rest];
  }

  #show(): void {
    const plot = this.#plot;
    if (!plot) return;
    plot.batch(() => {
      plot.setData(this.#data(), false);
      plot.setScale('x', this.#range());
    });
  }

  #fit(): void {
    if (!this.#plot || this.#width.widthPx === 0) return;
    this.#plot.setSize({ width: this._box.clientWidth, height: this._box.clientHeight });
  }

  #rebuild(): void {
    this.#plot?.destroy();
    this.#build();
  }

  #build(): void {
    const { clientWidth, clientHeight } = this._box;
    const size = { width: Math.max(200, clientWidth), height: Math.max(160, clientHeight) };
    this.#plot = new uPlot({ ...size, ...this.#options() }, this.#data(), this._box);
    this.#show();
  }

  #look(): OverlayLook {
    const pixelRatio = uPlot.pxRatio;
    const font = `600 ${14 * pixelRatio}px ${getComputedStyle(this).fontFamily}`;
    return { colour: (name) => this.#theme.colour(name), pixelRatio, font };
  }

  #options(): Omit<uPlot.Options, 'width' | 'height'> {
    const kinds = [...new Set(this.series.map(({ kind }) => kind))];
    return {
      legend: { show: false },
      padding: [12, 12, 0, 0],
      scales: {
        x: { time: false },
        ...Object.fromEntries(kinds.map((kind) => [kind, this.#scale(kind)])),
      },
      series: [{}, ...this.series.map((one) => this.#line(one))],
      axes: [this.#timeAxis(), ...kinds.map((kind, index) => this.#axis(kind, index === 0))],
      cursor: {
        drag: { x: true, y: false, setScale: false },
        bind: { dblclick: () => () => this.#all() },
      },
      hooks: {
        drawClear: [(plot) => shadeCranks(plot, this.cranks, this.#look())],
        draw: [(plot) => drawAverages(plot, this.cranks, this.#look())],
        setCursor: [(plot) => void (this._at = plot.cursor.idx ?? null)],
        setSelect: [(plot) => this.#selected(plot)],
      },
    };
  }

  #scale(kind: StripKind): uPlot.Scale {
    const { least } = SCALES[kind];
    return { range: (_, __, max) => [0, Math.max(least, (max ?? 0) * 1.12)] };
  }

  #line({ kind, label }: StripSeries): uPlot.Series {
    const { colour, dash, width } = SERIES_LOOK[kind];
    return {
      label,
      scale: kind,
      stroke: () => this.#theme.colour(colour),
      width,
      dash: [...dash],
      points: { show: false },
      spanGaps: false,
    };
  }

  #font(): string {
    return `14px ${getComputedStyle(this).fontFamily}`;
  }

  #timeAxis(): uPlot.Axis {
    return {
      stroke: () => this.#theme.colour('quiet'),
      font: this.#font(),
      grid: { stroke: () => this.#theme.colour('line'), width: 1 },
      ticks: { stroke: () => this.#theme.colour('mark'), width: 1 },
      values: (_, ticks) => ticks.map((tick) => `${tick} s`),
      space: 70,
      size: 36,
    };
  }

  #axis(kind: StripKind, grid: boolean): uPlot.Axis {
    const colour = () => this.#theme.colour(SERIES_LOOK[kind].colour);
    const unit = this.series.find((one) => one.kind === kind)?.unit ?? '';
    const narrow = this._box.clientWidth < NARROW_PX;
    return {
      scale: kind,
      side: SCALES[kind].side,
      stroke: colour,
      font: this.#font(),
      ticks: { stroke: colour, width: 1, size: 4 },
      grid: { show: grid, stroke: () => this.#theme.colour('line'), width: 1 },
      size: narrow ? 40 : 52,
      ...(narrow ? {} : { label: unit, labelSize: 20, labelFont: this.#font() }),
    };
  }

  #selected(plot: uPlot): void {
    const { left, width } = plot.select;
    if (width < 4) return;
    const range = { min: plot.posToVal(left, 'x'), max: plot.posToVal(left + width, 'x') };
    plot.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
    this.#zoomTo(zoomed(range, this.#whole(), (range.min + range.max) / 2, 1));
  }

  #zoomTo(range: Range | null): void {
    this._zoom = range;
  }

  #all(): null {
    this.#zoomTo(null);
    return null;
  }

  #zoomBy(factor: number): void {
    const range = this.#range();
    const cursor = this._at === null ? null : (this.columns[0]?.[this._at] ?? null);
    const inside = cursor !== null && cursor >= range.min && cursor <= range.max;
    this.#zoomTo(zoomed(range, this.#whole(), inside ? cursor : (range.min + range.max) / 2, factor));
  }

  #shiftBy(part: number): void {
    const range = this.#range();
    this.#zoomTo(shifted(range, this.#whole(), part * (range.max - range.min)));
  }

  /** Puts the cursor `steps` samples on; the readouts follow it. */
  #step(steps: number): void {
    const plot = this.#plot;
    const seconds = this.columns[0];
    if (!plot || !seconds || this.#count === 0) return;
    const index = Math.min(this.#count - 1, Math.max(0, (this._at ?? this.#count) + steps));
    const left = plot.valToPos(seconds[index] ?? 0, 'x');
    plot.setCursor({ left, top: plot.bbox.height / 2 / uPlot.pxRatio }, false);
    this._at = index;
  }

  readonly #keyed = (event: KeyboardEvent) => {
    const actions: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => (event.shiftKey ? this.#shiftBy(-0.25) : this.#step(-1)),
      ArrowRight: () => (event.shiftKey ? this.#shiftBy(0.25) : this.#step(1)),
      '+': () => this.#zoomBy(0.5),
      '=': () => this.#zoomBy(0.5),
      '-': () => this.#zoomBy(2),
      Home: () => this.#zoomTo(null),
    };
    const action = actions[event.key];
    if (!action || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    action();
  };

  #readouts() {
    const at = this._at !== null && this._at < this.#count ? this._at : null;
    const seconds = this.columns[0]?.[at ?? this.#count - 1] ?? null;
    return html`<ul class="readouts">
      <li>
        <span class="what">${at === null ? 'latest' : 'at'}</span>
        <strong class="number time">${seconds === null ? '' : `${seconds.toFixed(2)} s`}</strong>
      </li>
      ${this.series.map((one, index) => {
        const column = this.columns[index + 1] ?? [];
        const value =
          at === null ? extentOf(column, Math.max(0, column.length - 200)).last : (column[at] ?? null);
        const { dash, width } = SERIES_LOOK[one.kind];
        return html`<li class=${one.kind}>
          <svg viewBox="0 0 40 12" aria-hidden="true">
            ${svg`<line x2="40" y1="6" y2="6" stroke-width=${width + 1} stroke-dasharray=${dash.join(' ')} />`}
          </svg>
          <span class="what">${one.label}</span>
          <strong class="number">${readout(value, one)}</strong>
        </li>`;
      })}
    </ul>`;
  }

  #tools() {
    const tool = (name: string, act: () => void) =>
      html`<button type="button" @click=${act}>${name}</button>`;
    return html`<div class="tools">
      ${tool('Zoom in', () => this.#zoomBy(0.5))} ${tool('Zoom out', () => this.#zoomBy(2))}
      ${tool('Earlier', () => this.#shiftBy(-0.5))} ${tool('Later', () => this.#shiftBy(0.5))}
      ${this._zoom ? tool('Show all', () => this.#zoomTo(null)) : nothing}
      <button type="button" aria-expanded=${this._table} @click=${() => (this._table = !this._table)}>
        As a table
      </button>
    </div>`;
  }

  override render() {
    const keys = 'Arrow keys move the cursor, plus and minus zoom, Home shows all.';
    return html`${this.#readouts()}
      <div
        class="plot"
        role="img"
        tabindex="0"
        aria-label="${this.label}. ${summarise(this.columns, this.series)} ${keys}"
        @keydown=${this.#keyed}
      >
        ${this.#count === 0 ? html`<p class="none">No samples yet. The trace begins with the first reading.</p>` : nothing}
      </div>
      ${this.#tools()} ${this._table ? stripTable(this, this.#range()) : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-strip-chart': StripChart;
  }
}
