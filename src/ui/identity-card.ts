import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './shape-icon.ts';

export const IDENTITY_FIELDS = ['vin', 'make', 'model', 'engineSerial', 'unitNumber', 'software'] as const;
export type IdentityField = (typeof IDENTITY_FIELDS)[number];

/** What one controller says of a field. */
export interface IdentityChoice {
  readonly value: string;
  /** The controller's name, e.g. "Engine (00)". */
  readonly from: string;
}

/** One field. `value` empty: not known yet. More than one choice and no value: the person has to choose. */
export interface IdentityEntry {
  readonly field: IdentityField;
  readonly value: string;
  readonly origin: 'bus' | 'typed' | null;
  /** Which controller said it; empty when typed. */
  readonly from: string;
  readonly choices: readonly IdentityChoice[];
  /** What is to be said of the value, e.g. of a VIN's check digit; empty when there is nothing. */
  readonly note: string;
  readonly noteTone: 'good' | 'doubt';
}

export interface IdentityChange {
  readonly field: IdentityField;
  readonly value: string;
  readonly origin: 'bus' | 'typed';
}

const LABELS: Readonly<Record<IdentityField, string>> = {
  vin: 'VIN',
  make: 'Make',
  model: 'Model',
  engineSerial: 'Engine serial number',
  unitNumber: 'Unit number',
  software: 'Software',
};

/**
 * `m-identity`: what vehicle and engine this is, each field with where it comes from. Typed or chosen values are said as
 * `identity-changed`. Where controllers disagree nothing is taken until the person has chosen.
 */
@customElement('m-identity')
export class IdentityCard extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel {
        padding-block: 0;
      }
      .field {
        display: grid;
        grid-template-columns: 11rem minmax(0, 1fr) auto;
        gap: var(--m-space-1) var(--m-space-4);
        align-items: center;
        padding: var(--m-space-2) 0;
      }
      .field + .field {
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      .value {
        font-size: var(--m-text-l);
        font-weight: 600;
        line-height: 1.25;
        overflow-wrap: anywhere;
      }
      .vin .value,
      .engineSerial .value {
        font-family: var(--m-font-hex);
        letter-spacing: 0.03em;
      }
      .field .unknown {
        color: var(--m-quiet);
        font-weight: 400;
        font-family: inherit;
        letter-spacing: normal;
      }
      .origin,
      .note {
        display: flex;
        gap: var(--m-space-2);
        align-items: start;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      p > m-icon {
        margin-top: 0.15em;
      }
      .note.good m-icon {
        color: var(--m-pass);
      }
      .note.doubt {
        color: var(--m-marginal);
      }
      form,
      .choose {
        grid-column: 1 / -1;
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
        padding-bottom: var(--m-space-2);
      }
      input {
        flex: 1 1 16rem;
        min-width: 0;
        min-height: var(--m-target);
        padding: 0 var(--m-space-3);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
        color: var(--m-ink);
        font: 600 var(--m-text-l) / 1.2 var(--m-font-hex);
      }
      .choose p {
        display: flex;
        flex: 1 1 100%;
        gap: var(--m-space-2);
        align-items: start;
        color: var(--m-unsure);
        font-weight: 600;
      }
      .choose p m-icon {
        margin: 0;
        font-size: var(--m-text-l);
      }
      .choose button {
        flex: 1 1 16rem;
        display: grid;
        justify-content: start;
        justify-items: start;
        gap: 0;
        text-align: left;
        overflow-wrap: anywhere;
      }
      .choose button span {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        font-weight: 400;
      }
      @container (max-width: 34rem) {
        .field {
          grid-template-columns: minmax(0, 1fr) auto;
        }
        .field > .label {
          grid-column: 1;
        }
        .field > .told {
          grid-column: 1 / -1;
        }
        .field > .change {
          grid-area: 1 / 2;
        }
      }
    `,
  ];

  @property({ attribute: false }) entries: readonly IdentityEntry[] = [];
  /** Only shows: where there is no run yet that a change could go into. */
  @property({ type: Boolean }) fixed = false;
  @state() private _editing: IdentityField | null = null;
  @query('input') private _input!: HTMLInputElement | null;

  #say(detail: IdentityChange) {
    this._editing = null;
    this.dispatchEvent(new CustomEvent('identity-changed', { detail, bubbles: true, composed: true }));
  }

  async #edit(field: IdentityField) {
    this._editing = field;
    await this.updateComplete;
    this._input?.select();
  }

  async #leave(field: IdentityField) {
    this._editing = null;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`.${field} .change`)?.focus();
  }

  #save(event: Event, field: IdentityField) {
    event.preventDefault();
    const value = this._input?.value.trim() ?? '';
    this.#say({
      field,
      value: field === 'vin' ? value.toUpperCase().replaceAll(' ', '') : value,
      origin: 'typed',
    });
    void this.#leave(field);
  }

  #form({ field, value }: IdentityEntry) {
    return html`<form @submit=${(event: Event) => this.#save(event, field)}>
      <input
        aria-label=${LABELS[field]}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck="false"
        .value=${value}
        @keydown=${(event: KeyboardEvent) => event.key === 'Escape' && void this.#leave(field)}
      />
      <button class="primary" type="submit">Keep</button>
      <button type="button" @click=${() => void this.#leave(field)}>Cancel</button>
    </form>`;
  }

  #choices({ field, choices }: IdentityEntry) {
    return html`<div class="choose" role="group" aria-label="Choose: ${LABELS[field]}">
      <p><m-icon shape="unsure"></m-icon><span>The controllers say different things. Choose one:</span></p>
      ${choices.map(
        ({ value, from }) =>
          html`<button @click=${() => this.#say({ field, value, origin: 'bus' })}>
            ${value} <span>${from}</span>
          </button>`,
      )}
    </div>`;
  }

  #origin({ origin, from, choices }: IdentityEntry) {
    if (origin === null) return nothing;
    const words = origin === 'typed' ? 'typed' : from ? `from the bus, ${from}` : 'from the bus';
    const others = choices.length > 1 ? `; ${choices.length} controllers differ` : '';
    return html`<p class="origin">
      <m-icon shape=${origin === 'typed' ? 'edit' : 'live'}></m-icon><span>${words}${others}</span>
    </p>`;
  }

  #note({ note, noteTone }: IdentityEntry) {
    if (!note) return nothing;
    return html`<p class="note ${noteTone}">
      <m-icon shape=${noteTone === 'good' ? 'pass' : 'marginal'}></m-icon><span>${note}</span>
    </p>`;
  }

  #change({ field, value }: IdentityEntry) {
    const editing = this._editing === field;
    return html`<button
      class="change quiet"
      aria-expanded=${editing}
      aria-label="${value ? 'Change' : 'Type'}: ${LABELS[field]}"
      @click=${() => void (editing ? this.#leave(field) : this.#edit(field))}
    >
      <m-icon shape="edit"></m-icon>${value ? 'Change' : 'Type'}
    </button>`;
  }

  #field(entry: IdentityEntry) {
    const { field, value, choices } = entry;
    const open = choices.length > 1 && value === '';
    const editing = this._editing === field;
    return html`<div class="field ${field}">
      <p class="label">${LABELS[field]}</p>
      <div class="told">
        <p class="value ${value ? '' : 'unknown'}">${value || (open ? 'not decided' : 'not known yet')}</p>
        ${this.#origin(entry)} ${this.#note(entry)}
      </div>
      ${this.fixed ? nothing : this.#change(entry)}
      ${(open && !this.fixed) || (editing && choices.length > 1) ? this.#choices(entry) : nothing}${editing ? this.#form(entry) : nothing}
    </div>`;
  }

  override render() {
    return html`<div class="panel">${this.entries.map((entry) => this.#field(entry))}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-identity': IdentityCard;
  }
  interface HTMLElementEventMap {
    'identity-changed': CustomEvent<IdentityChange>;
  }
}
