import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { readNumber } from './read-number.ts';
import './shape-icon.ts';

/** What was typed: the number, and the text as the person wrote it. */
export interface NumberEntry {
  readonly value: number;
  readonly text: string;
}

const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0'] as const;

/**
 * `m-number-pad`: a field and a glove-size keypad that are the same thing. Point or comma. Enter says `number-entered`;
 * what is not a number between `min` and `max` is refused with a reason.
 */
@customElement('m-number-pad')
export class NumberPad extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      .pad {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
        max-width: 24rem;
      }
      label {
        font-weight: 600;
      }
      .field {
        display: flex;
        align-items: baseline;
        gap: var(--m-space-2);
        padding: 0 var(--m-space-3);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
      }
      .field:focus-within {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: var(--m-focus-gap);
      }
      .wrong .field {
        border-color: var(--m-fail);
      }
      input {
        flex: 1;
        width: 100%;
        min-width: 0;
        min-height: var(--m-key);
        border: 0;
        outline: none;
        background: transparent;
        color: var(--m-ink);
        font-size: var(--m-text-xxl);
        font-weight: 600;
        text-align: right;
      }
      .unit {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .hint {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      .error {
        display: flex;
        align-items: center;
        gap: var(--m-space-2);
        color: var(--m-fail);
        font-weight: 600;
      }
      .keys {
        display: grid;
        grid-template-columns: repeat(3, 1fr);
        gap: var(--m-space-2);
      }
      .keys button {
        min-height: var(--m-key);
        font: 500 var(--m-text-xl) / 1 var(--m-font-number);
      }
      .primary {
        min-height: var(--m-key);
      }
    `,
  ];

  @property() label = '';
  @property() unit = '';
  /** The text in the field. Changes as the person types. */
  @property() text = '';
  @property({ type: Number }) min: number | null = null;
  @property({ type: Number }) max: number | null = null;
  @property() hint = '';
  /** A reason from outside why the last entry does not do. */
  @property() error = '';
  @property({ attribute: 'action-label' }) actionLabel = 'Enter';
  @state() private _refusal = '';
  @query('input') private _field!: HTMLInputElement;

  #type(text: string) {
    this.text = text;
    this._refusal = '';
  }

  #press(key: string) {
    const { selectionStart, selectionEnd, value } = this._field;
    const from = selectionStart ?? value.length;
    const to = selectionEnd ?? value.length;
    const cut = key === '' && from === to ? Math.max(0, from - 1) : from;
    this.#type(value.slice(0, cut) + key + value.slice(to));
    const caret = cut + key.length;
    void this.updateComplete.then(() => this._field.setSelectionRange(caret, caret));
  }

  #enter() {
    const read = readNumber(this.text, { min: this.min, max: this.max, unit: this.unit });
    if ('refusal' in read) {
      this._refusal = read.refusal;
      this._field.focus();
      return;
    }
    const detail: NumberEntry = { value: read.value, text: this.text.trim() };
    this.dispatchEvent(new CustomEvent('number-entered', { detail, bubbles: true, composed: true }));
  }

  readonly #keyed = (event: KeyboardEvent) => {
    if (event.key === 'Enter') this.#enter();
    else if (event.key === 'Escape') this.#type('');
    else return;
    event.preventDefault();
  };

  #hint(): string {
    if (this.hint) return this.hint;
    if (this.min !== null && this.max !== null) return `${this.min} to ${this.max} ${this.unit}`;
    return '';
  }

  #keys() {
    return html`<div class="keys" role="group" aria-label="Keypad">
      ${KEYS.map(
        (key) =>
          html`<button
            type="button"
            aria-label=${key === '.' ? 'point' : key}
            @click=${() => this.#press(key)}
          >
            ${key}
          </button>`,
      )}
      <button type="button" aria-label="Delete the last digit" @click=${() => this.#press('')}>
        <m-icon shape="erase"></m-icon>
      </button>
    </div>`;
  }

  override render() {
    const error = this._refusal || this.error;
    return html`<div class="pad ${error ? 'wrong' : ''}">
      <label for="field">${this.label}</label>
      <div class="field">
        <input
          id="field"
          class="number"
          inputmode="none"
          autocomplete="off"
          aria-describedby="hint error"
          aria-invalid=${error ? 'true' : 'false'}
          .value=${this.text}
          @input=${(event: Event) => this.#type((event.target as HTMLInputElement).value)}
          @keydown=${this.#keyed}
        />
        <span class="unit">${this.unit}</span>
      </div>
      <p class="hint" id="hint">${this.#hint()}</p>
      <p class="error" id="error" role="alert">
        ${error ? html`<m-icon shape="fail"></m-icon><span>${error}</span>` : nothing}
      </p>
      ${this.#keys()}
      <button type="button" class="primary" @click=${() => this.#enter()}>${this.actionLabel}</button>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-number-pad': NumberPad;
  }
  interface HTMLElementEventMap {
    'number-entered': CustomEvent<NumberEntry>;
  }
}
