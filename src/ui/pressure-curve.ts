import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { formatNumber } from '../quantities/format.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { figureSize, liveStyles } from './live-styles.ts';
import { MeasuredWidth } from './measured-width.ts';
import { curvePath, curveScale, sampled, type CurvePoint, type CurveScale } from './pressure-curve-scale.ts';
import { pressureCurveStyles } from './pressure-curve-look.ts';
import { readNumber } from './read-number.ts';
import './shape-icon.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import { tableStyles } from './table-styles.ts';

/** A build or decay as it is to be shown: pressures in the person's unit, times in seconds on the axis of the trace. */
export interface PressureCurveView {
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  readonly points: readonly CurvePoint[];
  readonly fromPressure: number;
  readonly toPressure: number;
  /** Where the crossings were found (for a build from the crank: where the crank began). */
  readonly fromSeconds: number | null;
  readonly toSeconds: number | null;
  /** Points of the fitted curve; empty where nothing was fitted. */
  readonly fitted: readonly CurvePoint[];
  /** The time between the two; null while it is waited for. */
  readonly spanSeconds: number | null;
  readonly ratePerSecond: number | null;
  readonly tauSeconds: number | null;
  /** What is waited for or happens, e.g. "Waiting for the crank." or "Rising: 18 of 30 MPa". */
  readonly words: string;
}

export interface StretchChosen {
  readonly startMs: number;
  readonly endMs: number;
  readonly reason: string;
}

export const NO_CURVE: PressureCurveView = {
  label: 'Rail pressure',
  unit: 'MPa',
  digits: 1,
  points: [],
  fromPressure: 0,
  toPressure: 0,
  fromSeconds: null,
  toSeconds: null,
  fitted: [],
  spanSeconds: null,
  ratePerSecond: null,
  tauSeconds: null,
  words: 'Waiting for the crank.',
};

const TABLE_ROWS = 20;
const HEIGHT = 320;

interface Mistakes {
  readonly start: string;
  readonly end: string;
  readonly reason: string;
}
const NONE: Mistakes = { start: '', end: '', reason: '' };

/**
 * `m-pressure-curve`: a pressure build or decay: the time huge, the trace with its two pressures, the crossings found, the fit over it, and
 * a table for those who cannot see it. Event: `stretch-chosen` with a reason, ms on the axis of the trace.
 */
@customElement('m-pressure-curve')
export class PressureCurve extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    tableStyles,
    liveStyles,
    pressureCurveStyles,
  ];

  @property({ attribute: false }) view: PressureCurveView = NO_CURVE;
  /** Lets a person choose another stretch, with a reason. */
  @property({ type: Boolean, attribute: 'can-choose' }) canChoose = false;
  @state() private _mistakes: Mistakes = NONE;
  readonly #width = new MeasuredWidth(this);

  #shown(value: number | null): string {
    return formatNumber(value, { decimals: this.view.digits });
  }

  #field(id: keyof Mistakes): HTMLInputElement | null {
    return this.renderRoot.querySelector<HTMLInputElement>(`#${id}`);
  }

  readonly #choose = (event: Event) => {
    event.preventDefault();
    const read = this.#readStretch();
    this._mistakes = 'mistakes' in read ? read.mistakes : NONE;
    if ('mistakes' in read) return void this.#focusMistake();
    this.dispatchEvent(
      new CustomEvent('stretch-chosen', { detail: read.chosen, bubbles: true, composed: true }),
    );
  };

  /** The form as a stretch, or what is wrong with each field. */
  #readStretch(): { chosen: StretchChosen } | { mistakes: Mistakes } {
    const scale = curveScale(this.view.points, []);
    const range = { min: scale?.fromSeconds ?? 0, max: scale?.toSeconds ?? 0, unit: 's' };
    const text = (id: keyof Mistakes) => this.#field(id)?.value ?? '';
    const [start, end] = [readNumber(text('start'), range), readNumber(text('end'), range)];
    const reason = text('reason').trim();
    const mistakes = {
      start: 'refusal' in start ? start.refusal : '',
      end: 'refusal' in end ? end.refusal : '',
      reason: reason ? '' : 'Say why, for the report.',
    };
    if ('refusal' in start || 'refusal' in end) return { mistakes };
    if (end.value <= start.value)
      return { mistakes: { ...mistakes, end: 'The end must come after the start.' } };
    if (!reason) return { mistakes };
    return { chosen: { startMs: start.value * 1000, endMs: end.value * 1000, reason } };
  }

  async #focusMistake() {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }

  #summary(): string {
    const { label, unit, spanSeconds, fromPressure, toPressure } = this.view;
    const levels = `from ${this.#shown(fromPressure)} to ${this.#shown(toPressure)} ${unit}`;
    return `${label} over time, ${levels}: ${spanSeconds === null ? this.view.words : `${spanSeconds.toFixed(2)} s`}`;
  }

  #drawing(scale: CurveScale) {
    const { view } = this;
    const width = Math.max(280, (this.#width.widthPx || 640) - 32);
    const frame = { left: 52, right: width - 10, top: 22, bottom: HEIGHT - 48 };
    const span = scale.toSeconds - scale.fromSeconds;
    const x = (at: number) => frame.left + ((at - scale.fromSeconds) / span) * (frame.right - frame.left);
    const y = (value: number) => frame.bottom - (Math.max(0, value) / scale.top) * (frame.bottom - frame.top);
    const { fromSeconds: from, toSeconds: to } = view;
    return html`<svg viewBox="0 0 ${width} ${HEIGHT}" role="img" aria-label=${this.#summary()}>
      ${from !== null && to !== null ? svg`<rect class="between" x=${x(from)} y=${frame.top} width=${Math.max(0, x(to) - x(from))} height=${frame.bottom - frame.top} />` : nothing}
      ${scale.pressureTicks.map((tick) => svg`<line class="grid" x1=${frame.left} x2=${frame.right} y1=${y(tick)} y2=${y(tick)} /><text class="end" x=${frame.left - 8} y=${y(tick)} dy="0.35em">${tick}</text>`)}
      ${scale.timeTicks.map((tick) => svg`<line class="axis" x1=${x(tick)} x2=${x(tick)} y1=${frame.bottom} y2=${frame.bottom + 6} /><text class="mid" x=${x(tick)} y=${frame.bottom + 22}>${tick}</text>`)}
      <path class="axis" d="M${frame.left} ${frame.top}V${frame.bottom}H${frame.right}" />
      <text x="2" y="14">${view.label}, ${view.unit}</text>
      <text class="mid" x=${(frame.left + frame.right) / 2} y=${HEIGHT - 6}>time, s</text>
      <path class="trace" d=${curvePath(view.points, x, y)} />
      <path class="fit" d=${curvePath(view.fitted, x, y)} />
      ${this.#levels(frame, y)} ${this.#crossing(from, view.fromPressure, { x, y })}
      ${this.#crossing(to, view.toPressure, { x, y })}
    </svg>`;
  }

  #levels(frame: { left: number; right: number }, y: (value: number) => number) {
    const { fromPressure, toPressure, unit } = this.view;
    return [fromPressure, toPressure].map(
      (
        level,
        at,
      ) => svg`<line class="level" x1=${frame.left} x2=${frame.right} y1=${y(level)} y2=${y(level)} />
        <text class="end" x=${frame.right} y=${y(level) - 6}>${at === 0 ? 'from' : 'to'} ${this.#shown(level)} ${unit}</text>`,
    );
  }

  #crossing(
    at: number | null,
    pressure: number,
    { x, y }: { x: (seconds: number) => number; y: (pressure: number) => number },
  ) {
    return at === null ? nothing : svg`<circle class="crossing" cx=${x(at)} cy=${y(pressure)} r="7" />`;
  }

  #besides() {
    const { ratePerSecond, tauSeconds, unit } = this.view;
    if (ratePerSecond === null && tauSeconds === null) return nothing;
    return html`<p class="besides number">
      ${ratePerSecond === null ? nothing : html`<span>${`rate ${this.#shown(ratePerSecond)} ${unit}/s`}</span>`}
      ${tauSeconds === null ? nothing : html`<span>time constant ${tauSeconds.toFixed(1)} s</span>`}
    </p>`;
  }

  #table() {
    const { view } = this;
    if (view.points.length === 0) return nothing;
    return html`<details>
      <summary><m-icon shape="more"></m-icon>The trace as a table</summary>
      <div class="rows" tabindex="0" role="region" aria-label="${view.label} as a table">
        <table>
          <thead>
            <tr>
              <th scope="col">time, s</th>
              <th scope="col">${view.label}, ${view.unit}</th>
            </tr>
          </thead>
          <tbody class="number">
            ${sampled(view.points, TABLE_ROWS).map(
              ([at, value]) =>
                html`<tr>
                  <th scope="row">${at.toFixed(2)}</th>
                  <td>${this.#shown(value)}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
    </details>`;
  }

  #input(id: keyof Mistakes, label: string, value: number | null) {
    const mistake = this._mistakes[id];
    return html`<div class="field">
      <label class="label" for=${id}>${label}</label>
      <input
        id=${id}
        class=${id === 'reason' ? '' : 'number'}
        autocomplete="off"
        inputmode=${id === 'reason' ? 'text' : 'decimal'}
        aria-invalid=${mistake ? 'true' : 'false'}
        aria-describedby="wrong-${id}"
        value=${value === null ? '' : value.toFixed(2)}
      />
      <p class="mistake" id="wrong-${id}" role="alert">
        ${mistake ? html`<m-icon shape="fail"></m-icon><span>${mistake}</span>` : nothing}
      </p>
    </div>`;
  }

  #choosing() {
    if (!this.canChoose || this.view.points.length === 0) return nothing;
    return html`<details>
      <summary><m-icon shape="more"></m-icon>Choose another stretch</summary>
      <form novalidate @submit=${this.#choose}>
        ${this.#input('start', 'Start, s', this.view.fromSeconds)}
        ${this.#input('end', 'End, s', this.view.toSeconds)} ${this.#input('reason', 'Why', null)}
        <button>Use this stretch</button>
      </form>
    </details>`;
  }

  override render() {
    const { view } = this;
    const scale = curveScale(view.points, [view.fromPressure, view.toPressure]);
    const shown = view.spanSeconds === null ? '– –' : view.spanSeconds.toFixed(view.spanSeconds < 10 ? 2 : 1);
    const found = view.spanSeconds !== null;
    return html`<section class="panel ${found ? 'good' : 'active'}" aria-label=${view.label}>
      <p class="top">
        <span class="name">${view.label}</span>
        <span class="state"
          ><m-icon shape=${found ? 'pass' : 'waiting'}></m-icon>${found ? 'time found' : 'waiting'}</span
        >
      </p>
      <p class="huge">
        <span class="figure number ${figureSize(shown)} ${found ? '' : 'none'}">${shown}</span
        ><span class="beside">s</span>
      </p>
      ${this.#besides()}
      <p class="prompt" role="status">${view.words}</p>
      ${scale ? this.#drawing(scale) : nothing} ${this.#table()} ${this.#choosing()}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-pressure-curve': PressureCurve;
  }
  interface HTMLElementEventMap {
    'stretch-chosen': CustomEvent<StretchChosen>;
  }
}
