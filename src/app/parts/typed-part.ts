import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { fromPrinted, printedSymbol, type PrintedUnit } from '../../limits/printed-unit.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { readNumber } from '../../ui/read-number.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import { pageStyles } from '../page-styles.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';

const PRESSURES: readonly PrintedUnit[] = ['kPa', 'bar', 'psi', 'MPa', 'inHg'];
const TIMES: readonly PrintedUnit[] = ['s', 'ms'];
/** Beyond this a common-rail engine has no pressure, and nobody waits so long: then the unit is another. */
const MOST = { pressure: 300_000, time: 600_000 } as const;

/** `typed-part`: a value read off the technician's own instrument, with what that is worth. */
@customElement('typed-part')
export class TypedPart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      form {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 10rem), 1fr));
        align-items: end;
      }
      .wide {
        grid-column: 1 / -1;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) checked!: JudgedCheck;
  @property({ type: Boolean }) open = false;
  @state() private refusal = '';

  override render() {
    const { value } = this.shown.view.values;
    return html`<details class="card" ?open=${this.open}>
      <summary>Type what an instrument showed</summary>
      <form @submit=${this.#submit}>
        <label class="field"
          ><span class="label">Value</span>
          <input
            class="number"
            name="value"
            type="text"
            inputmode="decimal"
            aria-invalid=${this.refusal !== ''}
          />
        </label>
        <label class="field"
          ><span class="label">Unit</span>
          <select name="unit">
            ${this.#units().map((unit) => html`<option value=${unit}>${printedSymbol(unit)}</option>`)}
          </select>
        </label>
        <label class="field"
          ><span class="label">Tolerance ±, same unit</span>
          <input name="tolerance" type="text" inputmode="decimal" value="0" />
        </label>
        <label class="field"
          ><span class="label">One step of its scale, same unit</span>
          <input name="step" type="text" inputmode="decimal" value="0" />
        </label>
        <label class="field wide"
          ><span class="label">Which instrument</span>
          <input name="instrument" type="text" maxlength="120" placeholder="Gauge 0 to 16 bar, class 1.6" />
        </label>
        ${this.refusal ? html`<p class="mistake wide">${this.refusal}</p>` : nothing}
        <div class="row wide">
          <button class="primary">Grade it</button>
          ${value ? html`<span class="quiet">Typed before: ${value.typed}</span>` : nothing}
        </div>
      </form>
    </details>`;
  }

  #units(): readonly PrintedUnit[] {
    return this.#isTime() ? TIMES : PRESSURES;
  }

  #isTime(): boolean {
    return this.checked.kind === 'pressure build' || this.checked.kind === 'pressure decay';
  }

  readonly #submit = (event: SubmitEvent) => {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const text = (name: string) => String(data.get(name) ?? '').trim();
    const unit = this.#units().find((each) => each === text('unit')) ?? this.#units()[0]!;
    const range = { max: null, unit: printedSymbol(unit) };
    const value = readNumber(text('value'), { ...range, min: this.#isTime() ? 0 : null });
    const tolerance = readNumber(text('tolerance') || '0', { ...range, min: 0 });
    const step = readNumber(text('step') || '0', { ...range, min: 0 });
    for (const read of [value, tolerance, step])
      if ('refusal' in read) return void (this.refusal = read.refusal);
    const kept = (read: typeof value) => fromPrinted('value' in read ? read.value : 0, unit);
    const most = this.#isTime() ? MOST.time : MOST.pressure;
    if (Math.abs(kept(value)) > most)
      return void (this.refusal = `${text('value')} ${printedSymbol(unit)} cannot be: check the number and the unit.`);
    this.refusal = '';
    this.desk.enterValue({
      value: kept(value),
      typed: `${text('value')} ${printedSymbol(unit)}`,
      tolerance: kept(tolerance),
      halfStep: kept(step) / 2,
      instrument: text('instrument'),
    });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'typed-part': TypedPart;
  }
}
