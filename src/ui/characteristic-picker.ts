import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { readUuid } from './read-uuid.ts';
import './shape-icon.ts';

/** One characteristic of a device. `name` empty: none known. */
export interface CharacteristicView {
  readonly uuid: string;
  readonly name: string;
  readonly notifies: boolean;
  readonly writable: boolean;
}

export interface ServiceView {
  readonly uuid: string;
  readonly name: string;
  readonly characteristics: readonly CharacteristicView[];
}

/** `write` null: the device is only listened to, which does for a bridge that sends by itself. */
export interface CharacteristicsPicked {
  readonly service: string;
  readonly notify: string;
  readonly write: string | null;
}

export interface ServiceTyped {
  readonly uuid: string;
}

type Role = 'notify' | 'write';

/** A UUID is told apart by its first group in Bluetooth's own range, and by all of it elsewhere. */
const shortUuid = (uuid: string): string =>
  uuid.endsWith('-0000-1000-8000-00805f9b34fb') ? uuid.slice(0, 8).replace(/^0000/, '').toUpperCase() : uuid;

/**
 * `m-characteristic-picker`: for a Bluetooth bridge that no profile fits. The person says where data comes from and where
 * commands go (`characteristics-picked`), or types the UUID of a service that the browser must be told of first (`service-typed`).
 */
@customElement('m-characteristic-picker')
export class CharacteristicPicker extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel + .panel {
        margin-top: var(--m-space-4);
      }
      .panel {
        max-width: var(--m-measure);
      }
      h2 {
        margin-bottom: var(--m-space-1);
        font-size: var(--m-text-l);
        line-height: 1.2;
      }
      .quiet-text {
        color: var(--m-quiet);
      }
      fieldset {
        min-width: 0;
        margin: var(--m-space-4) 0 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0 0 var(--m-space-2);
        font-weight: 700;
      }
      label.option {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 0 var(--m-space-4);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        cursor: pointer;
      }
      label.option + label.option {
        border-top: 0;
      }
      label.option:hover {
        background: var(--m-sunken);
      }
      label.option:has(:checked) {
        background: var(--m-cranking-soft);
      }
      label.option:focus-within {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: calc(-1 * var(--m-stroke-3));
      }
      input[type='radio'] {
        grid-row: 1 / span 2;
        width: var(--m-space-5);
        height: var(--m-space-5);
        margin: 0;
        accent-color: var(--m-accent);
        outline: none;
      }
      .uuid {
        font-family: var(--m-font-hex);
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .of {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        overflow-wrap: anywhere;
      }
      .actions,
      form {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: center;
        margin-top: var(--m-space-4);
      }
      form label {
        flex: 1 1 100%;
        margin-bottom: calc(-1 * var(--m-space-2));
      }
      form input {
        flex: 1 1 18rem;
        min-width: 0;
        min-height: var(--m-target);
        padding: 0 var(--m-space-3);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
        color: var(--m-ink);
        font: var(--m-text-m) var(--m-font-hex);
      }
      form input[aria-invalid='true'] {
        border-color: var(--m-fail);
      }
      .error {
        flex: 1 1 100%;
        display: flex;
        gap: var(--m-space-2);
        align-items: start;
        color: var(--m-fail);
        font-weight: 600;
      }
    `,
  ];

  @property({ attribute: false }) services: readonly ServiceView[] = [];
  @state() private _notify = '';
  @state() private _write = '';
  @state() private _refusal = '';
  @query('form input') private _uuid!: HTMLInputElement;

  /** Where only one can notify or be written there is nothing to choose. */
  protected override willUpdate(changed: PropertyValues<this>) {
    if (!changed.has('services')) return;
    const only = (role: Role) => {
      const found = this.#options(role);
      return found.length === 1 && found[0] ? found[0].key : '';
    };
    this._notify = only('notify');
    this._write = only('write');
  }

  #options(role: Role) {
    return this.services.flatMap((service) =>
      service.characteristics
        .filter(({ notifies, writable }) => (role === 'notify' ? notifies : writable))
        .map((characteristic) => ({
          key: `${service.uuid}/${characteristic.uuid}`,
          service,
          characteristic,
        })),
    );
  }

  #pick() {
    const notify = this.#options('notify').find(({ key }) => key === this._notify);
    if (!notify) return;
    const write = this.#options('write').find(({ key }) => key === this._write);
    const detail: CharacteristicsPicked = {
      service: notify.service.uuid,
      notify: notify.characteristic.uuid,
      write: write?.characteristic.uuid ?? null,
    };
    this.dispatchEvent(new CustomEvent('characteristics-picked', { detail, bubbles: true, composed: true }));
  }

  readonly #typed = (event: Event) => {
    event.preventDefault();
    const read = readUuid(this._uuid.value);
    this._refusal = 'refusal' in read ? read.refusal : '';
    if ('refusal' in read) {
      this._uuid.focus();
      return;
    }
    const detail: ServiceTyped = { uuid: read.uuid };
    this.dispatchEvent(new CustomEvent('service-typed', { detail, bubbles: true, composed: true }));
  };

  #choose(role: Role, key: string) {
    if (role === 'write') {
      this._write = key;
      return;
    }
    this._notify = key;
    const sameService = this.#options('write').filter((each) => sharesService(each.key, key));
    if (!sameService.some((each) => each.key === this._write)) this._write = sameService[0]?.key ?? '';
  }

  #option(role: Role, option: { key: string; title: unknown; of: string }) {
    const chosen = role === 'notify' ? this._notify : this._write;
    return html`<label class="option">
      <input
        type="radio"
        name=${role}
        .checked=${chosen === option.key}
        @change=${() => this.#choose(role, option.key)}
      />
      <span class="uuid">${option.title}</span><span class="of">${option.of}</span>
    </label>`;
  }

  #group(role: Role) {
    const options = this.#options(role)
      .filter(({ key }) => role === 'notify' || sharesService(key, this._notify))
      .map(({ key, service, characteristic }) => ({
        key,
        title: shortUuid(characteristic.uuid),
        of: `${characteristic.name ? `${characteristic.name}, ` : ''}in ${service.name || shortUuid(service.uuid)}`,
      }));
    return html`<fieldset>
      <legend>${role === 'notify' ? 'Data comes from' : 'Commands go to'}</legend>
      ${options.map((option) => this.#option(role, option))}
      ${
        role === 'write'
          ? this.#option(role, { key: '', title: 'Nowhere', of: 'the bridge sends by itself' })
          : nothing
      }
    </fieldset>`;
  }

  #found() {
    if (this.#options('notify').length === 0)
      return html`<p class="quiet-text">
        No characteristic that notifies was found in the services the browser was told of. If the bridge’s
        papers name another service, type it below.
      </p>`;
    return html`${this.#group('notify')}${this._notify === '' ? nothing : this.#group('write')}
      <div class="actions">
        <button class="primary" aria-disabled=${this._notify === ''} @click=${() => this.#pick()}>
          Use these
        </button>
        ${this._notify === '' ? html`<p class="quiet-text">Choose where data comes from.</p>` : nothing}
      </div>`;
  }

  override render() {
    return html`<section class="panel" aria-labelledby="found">
        <h2 id="found">Characteristics</h2>
        <p class="quiet-text">
          No known profile fits this bridge. Its papers say which characteristic sends (notify) and which
          takes commands (write).
        </p>
        ${this.#found()}
      </section>
      <section class="panel" aria-labelledby="other">
        <h2 id="other">Another service</h2>
        <form @submit=${this.#typed}>
          <label for="uuid" class="label">Service UUID, 4, 8 or 32 digits</label>
          <input
            id="uuid"
            autocomplete="off"
            spellcheck="false"
            placeholder="FFE0"
            aria-invalid=${this._refusal ? 'true' : 'false'}
            aria-describedby="refusal"
          />
          <button type="submit">Search with it</button>
          <p class="error" id="refusal" role="alert">
            ${this._refusal ? html`<m-icon shape="fail"></m-icon><span>${this._refusal}</span>` : nothing}
          </p>
        </form>
      </section>`;
  }
}

const sharesService = (one: string, other: string): boolean => one.split('/')[0] === other.split('/')[0];

declare global {
  interface HTMLElementTagNameMap {
    'm-characteristic-picker': CharacteristicPicker;
  }
  interface HTMLElementEventMap {
    'characteristics-picked': CustomEvent<CharacteristicsPicked>;
    'service-typed': CustomEvent<ServiceTyped>;
  }
}
