import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { unitSymbol } from '../quantities/format.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import {
  bothWays,
  GAUGE_UNITS,
  instrumentWorth,
  inUnit,
  readGauge,
  readInstrument,
  type GaugeInstrument,
  type GaugeQuantity,
  type GaugeRead,
  type GaugeUnit,
  type InstrumentMistakes,
  type InstrumentText,
  type LikelyRange,
  type UnlikelyReading,
  type ValueEntered,
} from './gauge-reading.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

const NEW = 'typed';
const BLANK: InstrumentText = {
  name: '',
  kind: 'dial',
  fullScale: '',
  percent: '1.6',
  digits: '0',
  step: '',
};

/**
 * `m-gauge-entry`: a value read off a gauge, a display or a log, with its unit and the instrument it was read from. What cannot be is
 * refused; what is unlikely is asked about first, with the units in which it would be likely. Events: `value-entered`, canonical unit
 * (kPa or ms), and before it `instrument-typed` where the instrument is none of the known ones.
 */
@customElement('m-gauge-entry')
export class GaugeEntry extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    css`
      form {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-4);
        max-width: var(--m-measure);
      }
      #value {
        min-height: var(--m-key);
        font-size: var(--m-text-xxl);
        font-weight: 600;
      }
      .instrument {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(11rem, 100%), 1fr));
        gap: var(--m-space-3);
      }
      .worth {
        font-size: var(--m-text-l);
      }
      .primary {
        min-height: var(--m-key);
      }
      .ask {
        display: grid;
        gap: var(--m-space-3);
        padding: var(--m-space-3);
        border-left: var(--m-space-1) solid var(--m-marginal);
        background: var(--m-marginal-soft);
      }
      .ask p {
        color: var(--m-marginal);
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .answers {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
      }
    `,
  ];

  @property() label = 'Pressure';
  @property() quantity: GaugeQuantity = 'pressure';
  @property() unit: GaugeUnit = 'kPa';
  /** What is likely meant, canonical unit. */
  @property({ attribute: false }) likely: LikelyRange = { min: 0, max: 300_000 };
  /** Instruments of this workshop; the last choice is always to type another one. */
  @property({ attribute: false }) instruments: readonly GaugeInstrument[] = [];
  @property({ attribute: 'action-label' }) actionLabel = 'Use this value';
  /** What stands in the field; changes as the person types. */
  @property() text = '';
  @state() private _chosen: string | null = null;
  @state() private _typed: InstrumentText = BLANK;
  @state() private _checked = false;
  /** The number and unit that were asked about; a change of either takes the question back. */
  @state() private _asked = '';

  #instrument(): { instrument: GaugeInstrument } | { mistakes: InstrumentMistakes } {
    const chosen = this.#choice();
    const known = this.instruments.find(({ id }) => id === chosen);
    return known ? { instrument: known } : readInstrument(this._typed, this.unit);
  }

  #choice(): string {
    return this._chosen ?? this.instruments[0]?.id ?? NEW;
  }

  #read(confirmed = true): GaugeRead {
    const found = this.#instrument();
    const instrument = 'instrument' in found ? found.instrument : null;
    const { quantity, likely } = this;
    return readGauge(this.text, this.unit, { quantity, likely, instrument, confirmed });
  }

  #typed(): string {
    return `${this.text.trim()} ${unitSymbol(this.unit)}`;
  }

  async #focus(selector: string) {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }

  readonly #submit = (event: Event) => {
    event.preventDefault();
    this.#enter(false);
  };

  #enter(confirmed: boolean) {
    const [read, found] = [this.#read(confirmed), this.#instrument()];
    this._checked = true;
    this._asked = '';
    if ('unlikely' in read) {
      this._asked = this.#typed();
      return void this.#focus('.ask button');
    }
    if ('refusal' in read || 'mistakes' in found) return void this.#focus('[aria-invalid="true"]');
    this._checked = false;
    const { instrument } = found;
    if (!this.instruments.some(({ id }) => id === instrument.id)) this.#say('instrument-typed', instrument);
    this.#say<ValueEntered>('value-entered', {
      value: read.value,
      typed: this.#typed(),
      ...instrumentWorth(read.value, instrument),
      instrument: instrument.name,
    });
  }

  #say<T>(name: 'instrument-typed' | 'value-entered', detail: T) {
    this.dispatchEvent(new CustomEvent<T>(name, { detail, bubbles: true, composed: true }));
  }

  #question({ question, instead }: UnlikelyReading) {
    return html`<div class="ask" role="group" aria-label="An unusual value">
      <p role="alert">${question}</p>
      <div class="answers">
        ${instead.map(
          (unit) =>
            html`<button
              type="button"
              @click=${() => {
                this.unit = unit;
                this.#enter(false);
              }}
            >
              It was ${this.text.trim()} ${unitSymbol(unit)}
            </button>`,
        )}
        <button type="button" @click=${() => this.#enter(true)}>It is ${this.#typed()}</button>
        <button
          type="button"
          @click=${() => {
            this._asked = '';
            void this.#focus('#value');
          }}
        >
          Type it again
        </button>
      </div>
    </div>`;
  }

  #mistake(id: string, words: string | undefined) {
    return html`<p class="mistake" id="wrong-${id}" role="alert">
      ${words && this._checked ? html`<m-icon shape="fail"></m-icon><span>${words}</span>` : nothing}
    </p>`;
  }

  #field(name: Exclude<keyof InstrumentText, 'kind'>, label: string, mistakes: InstrumentMistakes) {
    return html`<div class="field">
      <label class="label" for=${name}>${label}</label>
      <input
        id=${name}
        class=${name === 'name' ? '' : 'number'}
        inputmode=${name === 'name' ? 'text' : 'decimal'}
        autocomplete="off"
        aria-invalid=${this._checked && mistakes[name] ? 'true' : 'false'}
        aria-describedby="wrong-${name}"
        .value=${this._typed[name]}
        @input=${(event: Event) =>
          (this._typed = { ...this._typed, [name]: (event.target as HTMLInputElement).value })}
      />
      ${this.#mistake(name, mistakes[name])}
    </div>`;
  }

  #kind(kind: InstrumentText['kind'], words: string) {
    return html`<label
      ><input
        type="radio"
        name="kind"
        value=${kind}
        .checked=${this._typed.kind === kind}
        @change=${() => (this._typed = { ...this._typed, kind })}
      />${words}</label
    >`;
  }

  #newInstrument() {
    if (this.#choice() !== NEW && this.instruments.some(({ id }) => id === this.#choice())) return nothing;
    const found = this.#instrument();
    const mistakes = 'mistakes' in found ? found.mistakes : {};
    const symbol = unitSymbol(this.unit);
    const dial = this._typed.kind === 'dial';
    return html`<fieldset>
        <legend>It shows by</legend>
        <div class="choices">${this.#kind('dial', 'a needle')} ${this.#kind('display', 'digits')}</div>
      </fieldset>
      <div class="instrument">
        ${this.#field('name', 'Name of the instrument', mistakes)}
        ${this.#field('fullScale', `Full scale, ${symbol}`, mistakes)}
        ${this.#field('percent', dial ? 'Class, % of full scale' : 'Tolerance, % of the reading', mistakes)}
        ${dial ? nothing : this.#field('digits', 'and digits', mistakes)}
        ${this.#field('step', dial ? `One division, ${symbol}` : `Step of the last digit, ${symbol}`, mistakes)}
      </div>`;
  }

  #units() {
    const units: readonly GaugeUnit[] = GAUGE_UNITS[this.quantity];
    if (units.length < 2) return nothing;
    return html`<fieldset>
      <legend>Unit</legend>
      <div class="choices">
        ${units.map(
          (unit) =>
            html`<label
              ><input
                type="radio"
                name="unit"
                value=${unit}
                .checked=${unit === this.unit}
                @change=${() => (this.unit = unit)}
              />${unitSymbol(unit)}</label
            >`,
        )}
      </div>
    </fieldset>`;
  }

  #choices() {
    if (this.instruments.length === 0) return nothing;
    const chosen = this.#choice();
    return html`<div class="field">
      <label class="label" for="instrument">Read from</label>
      <select
        id="instrument"
        @change=${(event: Event) => (this._chosen = (event.target as HTMLSelectElement).value)}
      >
        ${this.instruments.map(({ id, name }) => html`<option value=${id} ?selected=${id === chosen}>${name}</option>`)}
        <option value=${NEW} ?selected=${chosen === NEW}>Another instrument</option>
      </select>
    </div>`;
  }

  /** What the number means and what it is worth, as soon as it can be read. */
  #worth() {
    const [read, found] = [this.#read(), this.#instrument()];
    if (!('value' in read)) return nothing;
    const worth = 'instrument' in found ? instrumentWorth(read.value, found.instrument) : null;
    return html`${bothWays(read.value, this.unit)}${
      worth
        ? html`, ± ${inUnit(worth.tolerance, this.unit)} the instrument, ±
          ${inUnit(worth.halfStep, this.unit)} the reading`
        : nothing
    }`;
  }

  override render() {
    const read = this.#read();
    const refusal = 'refusal' in read ? read.refusal : '';
    const asked = this._asked === this.#typed() ? this.#read(false) : read;
    return html`<form class="panel" novalidate @submit=${this.#submit}>
      <div class="field">
        <label for="value">${this.label}, ${unitSymbol(this.unit)}</label>
        <input
          id="value"
          class="number"
          inputmode="decimal"
          autocomplete="off"
          aria-invalid=${this._checked && refusal ? 'true' : 'false'}
          aria-describedby="wrong-value worth"
          .value=${this.text}
          @input=${(event: Event) => (this.text = (event.target as HTMLInputElement).value)}
        />
        ${this.#mistake('value', refusal)}
      </div>
      ${this.#units()} ${this.#choices()} ${this.#newInstrument()}
      <p class="worth number" id="worth">${this.#worth()}</p>
      ${'unlikely' in asked ? this.#question(asked.unlikely) : nothing}
      <button class="primary">${this.actionLabel}</button>
    </form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-gauge-entry': GaugeEntry;
  }
  interface HTMLElementEventMap {
    'value-entered': CustomEvent<ValueEntered>;
    'instrument-typed': CustomEvent<GaugeInstrument>;
  }
}
