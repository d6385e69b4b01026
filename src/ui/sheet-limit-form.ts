import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { PRINTED_UNITS, printedSymbol, type PrintedUnit } from '../limits/printed-unit.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './curve-editor.ts';
import {
  bothWays,
  curvesInUnit,
  inUnit,
  VOLUME_UNITS,
  type FieldProblem,
  type LimitDraft,
  type SpeedChartDraft,
  type VolumeUnit,
  type WindowDraft,
} from './sheet-draft.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** A check of the procedure that a limit can be for. */
export interface CheckChoice {
  readonly id: string;
  readonly title: string;
}

/** `m-sheet-limit`: one limit of a sheet: a speed chart with its curve editor, or a window. Says `limit-changed`, `limit-removed`. */
@customElement('m-sheet-limit')
export class SheetLimitForm extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    css`
      .panel {
        display: grid;
        gap: var(--m-space-4);
      }
      .head {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--m-space-3);
        align-items: center;
      }
      h3 {
        font-size: var(--m-text-l);
        overflow-wrap: anywhere;
      }
      .fields {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(16rem, 100%), 1fr));
        gap: var(--m-space-4);
      }
      .wide {
        grid-column: 1 / -1;
      }
      :host {
        container-type: inline-size;
      }
      @container (max-width: 34rem) {
        .panel {
          padding: var(--m-space-3);
        }
      }
    `,
  ];

  @property({ attribute: false }) limit: LimitDraft | null = null;
  @property({ attribute: false }) checks: readonly CheckChoice[] = [];
  /** Fields named without the limit's place: "min", "check", "curves". */
  @property({ attribute: false }) problems: readonly FieldProblem[] = [];
  @property({ type: Number }) number = 1;
  /** Begin with the place for pasted columns open. */
  @property({ type: Boolean }) pasting = false;

  #change(limit: LimitDraft) {
    this.limit = limit;
    this.dispatchEvent(
      new CustomEvent<LimitDraft>('limit-changed', { detail: limit, bubbles: true, composed: true }),
    );
  }

  /** The amounts stay what they are: numbers typed in the old unit are converted, and both stand on the screen. */
  #unit(limit: LimitDraft, unit: PrintedUnit) {
    if (limit.kind === 'window') {
      const [min, max] = [inUnit(limit.min, limit.unit, unit), inUnit(limit.max, limit.unit, unit)];
      this.#change({ ...limit, unit, min, max });
      return;
    }
    const volume: VolumeUnit | undefined = VOLUME_UNITS.find((each) => each === unit);
    if (volume)
      this.#change({ ...limit, unit: volume, curves: curvesInUnit(limit.curves, limit.unit, volume) });
  }

  #said(field: string) {
    const words = this.problems.filter((each) => each.field === field).map((each) => each.words);
    return html`<div id="says-${field}">
      ${words.map((each) => html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${each}</span></p>`)}
    </div>`;
  }

  #input(
    field: string,
    label: string,
    {
      value,
      set,
      hint = '',
      kind = 'number',
    }: { value: string; set: (text: string) => void; hint?: string; kind?: string },
  ) {
    const wrong = this.problems.some((each) => each.field === field);
    return html`<div class="field">
      <label class="label" for=${field}>${label}</label>
      <input
        id=${field}
        class=${kind}
        inputmode=${kind === 'number' ? 'decimal' : 'text'}
        autocomplete="off"
        aria-invalid=${wrong ? 'true' : 'false'}
        aria-describedby="says-${field}"
        .value=${value}
        @input=${(event: Event) => set((event.target as HTMLInputElement).value)}
      />${hint ? html`<p class="hint number">${hint}</p>` : nothing}${this.#said(field)}
    </div>`;
  }

  #check(limit: LimitDraft) {
    const known = this.checks.some(({ id }) => id === limit.check);
    const wrong = this.problems.some(({ field }) => field === 'check');
    const pick = (event: Event) => {
      const check = (event.target as HTMLSelectElement).value;
      this.#change({
        ...limit,
        check,
        title: this.checks.find(({ id }) => id === check)?.title ?? limit.title,
      });
    };
    return html`<div class="field">
      <label class="label" for="check">Check</label>
      <select
        id="check"
        aria-invalid=${wrong ? 'true' : 'false'}
        aria-describedby="says-check"
        @change=${pick}
      >
        <option value="" ?selected=${limit.check === ''}>Choose a check</option>
        ${!known && limit.check !== '' ? html`<option value=${limit.check} selected>${limit.title || limit.check}</option>` : nothing}
        ${this.checks.map(({ id, title }) => html`<option value=${id} ?selected=${id === limit.check}>${title}</option>`)}
      </select>
      ${this.#said('check')}
    </div>`;
  }

  #units(limit: LimitDraft) {
    const units: readonly PrintedUnit[] = limit.kind === 'speed chart' ? VOLUME_UNITS : PRINTED_UNITS;
    return html`<div class="field">
      <label class="label" for="unit">Unit as printed</label>
      <select
        id="unit"
        @change=${(event: Event) => this.#unit(limit, (event.target as HTMLSelectElement).value as PrintedUnit)}
      >
        ${units.map((unit) => html`<option value=${unit} ?selected=${unit === limit.unit}>${printedSymbol(unit)}</option>`)}
      </select>
    </div>`;
  }

  #window(limit: WindowDraft) {
    const set = (field: keyof WindowDraft) => (text: string) => this.#change({ ...limit, [field]: text });
    const unit = printedSymbol(limit.unit);
    return html`<div class="fields">
      ${this.#check(limit)} ${this.#units(limit)}
      ${this.#input('min', `Lowest allowed, ${unit}`, { value: limit.min, set: set('min'), hint: bothWays(limit.min, limit.unit) })}
      ${this.#input('max', `Highest allowed, ${unit}`, { value: limit.max, set: set('max'), hint: bothWays(limit.max, limit.unit) })}
      ${this.#input('durationSeconds', 'Collected over, s', { value: limit.durationSeconds, set: set('durationSeconds'), hint: 'Empty where no time is given.' })}
      <div class="wide">
        ${this.#input('operatingPoint', 'Where it holds', { value: limit.operatingPoint, set: set('operatingPoint'), kind: 'text', hint: 'As printed, e.g. at high idle, or at a raised rail pressure.' })}
      </div>
    </div>`;
  }

  #average(limit: SpeedChartDraft) {
    const pick = (event: Event) => {
      const samples = (event.target as HTMLSelectElement).value === 'samples';
      this.#change({ ...limit, speedAverage: samples ? 'samples' : 'time-weighted' });
    };
    return html`<div class="field">
      <label class="label" for="average">Average speed of the chart</label>
      <select id="average" @change=${pick}>
        <option value="time-weighted" ?selected=${limit.speedAverage === 'time-weighted'}>Over time</option>
        <option value="samples" ?selected=${limit.speedAverage === 'samples'}>
          Of the samples, as a spreadsheet gives
        </option>
      </select>
    </div>`;
  }

  #chart(limit: SpeedChartDraft) {
    const set = (field: keyof SpeedChartDraft) => (text: string) => this.#change({ ...limit, [field]: text });
    return html`<div class="fields">
        ${this.#check(limit)} ${this.#units(limit)}
        ${this.#input('cranks', 'Cranks', { value: limit.cranks, set: set('cranks') })}
        ${this.#input('crankSeconds', 'Time of one crank, s', { value: limit.crankSeconds, set: set('crankSeconds') })}
        ${this.#average(limit)}
      </div>
      ${this.#said('curves')}
      <m-curve-editor
        .draft=${limit.curves}
        .unit=${limit.unit}
        ?pasting=${this.pasting}
        @curves-changed=${(event: HTMLElementEventMap['curves-changed']) => this.#change({ ...limit, curves: event.detail.draft })}
      ></m-curve-editor>`;
  }

  override render() {
    const { limit } = this;
    if (!limit) return nothing;
    const kind = limit.kind === 'window' ? 'Window' : 'Speed chart';
    const name = limit.title || 'which check?';
    return html`<section class="panel" aria-labelledby="name">
      <div class="head">
        <h3 id="name">${kind}: ${name}</h3>
        <button
          class="danger"
          aria-label="Remove limit ${this.number}: ${name}"
          @click=${() => this.dispatchEvent(new CustomEvent('limit-removed', { bubbles: true, composed: true }))}
        >
          <m-icon shape="cross"></m-icon>Remove
        </button>
      </div>
      ${limit.kind === 'window' ? this.#window(limit) : this.#chart(limit)}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-sheet-limit': SheetLimitForm;
  }
  interface HTMLElementEventMap {
    'limit-changed': CustomEvent<LimitDraft>;
    'limit-removed': CustomEvent<void>;
  }
}
