import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import { BIT_RATES } from '../../wire/found-bridge.ts';
import { SERIAL_SPEEDS } from '../../wire/search-speeds.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { DEFAULT_SETTINGS, type Settings } from '../settings.ts';

/** `settings-page`: units, appearance, sounds. Every change holds at once and is kept. */
@customElement('settings-page')
export class SettingsPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .column {
        max-width: var(--m-measure);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  readonly #settings = new Bound<Settings>(this, () => this.services.settings.state$, DEFAULT_SETTINGS);

  override render() {
    const { pressureUnit, supplyUnit, appearance, sounds } = this.#settings.value;
    return html`<div class="column">
      <h1>Settings</h1>
      <section class="card">
        <h2>Units</h2>
        ${this.#choice('Rail pressure', 'pressureUnit', pressureUnit, ['bar', 'MPa', 'psi'])}
        ${this.#choice('Supply pressure', 'supplyUnit', supplyUnit, ['kPa', 'bar', 'psi'])}
      </section>
      ${this.#bridge()}
      <section class="card">
        <h2>Appearance</h2>
        ${this.#choice('Colours', 'appearance', appearance, ['system', 'light', 'dark'])}
      </section>
      <section class="card">
        <h2>Sounds</h2>
        <p class="quiet">A beep at 3, 2 and 1 s before the end of a crank, a long one at it.</p>
        <div class="row">
          <button aria-pressed=${sounds} @click=${() => this.#change({ sounds: !sounds })}>
            ${sounds ? 'Sounds are on' : 'Sounds are off'}
          </button>
          <button class="quiet" aria-disabled=${!sounds} @click=${() => this.services.sounds.play('1')}>
            Try
          </button>
        </div>
      </section>
      <section class="card">
        <h2>Storage</h2>
        <p class="quiet">
          Runs and recordings are kept in this browser only. Ask it to keep them even when space runs short.
        </p>
        <div class="row">
          <button @click=${() => this.services.capabilities.askToKeep()}>Ask the browser to keep them</button>
        </div>
      </section>
    </div>`;
  }

  #bridge() {
    const { listenOnly, trySilentMode, fixedBaudRate, fixedBitRate } = this.#settings.value;
    return html`<section class="card">
      <h2>Bridge</h2>
      <p class="quiet">
        Serial speed and bit rate are found by listening. Fix them only for a bridge that the search does not
        find.
      </p>
      ${this.#numberChoice('Serial speed', 'fixedBaudRate', fixedBaudRate, [SERIAL_SPEEDS, 'baud'])}
      ${this.#numberChoice('CAN bit rate', 'fixedBitRate', fixedBitRate, [BIT_RATES, 'bit/s'])}
      ${this.#switch('Listen only', 'listenOnly', listenOnly)}
      <p class="quiet">
        Recommended. Switched off, the bridge takes part in the bus: it acknowledges every frame that it
        hears.
      </p>
      ${this.#switch('Also try the silent mode M1', 'trySilentMode', trySilentMode)}
      <p class="quiet">
        For bridges without the listen-only command. Their documentation says that M1 makes them silent before
        they are opened; Meniscus cannot check it from outside.
      </p>
    </section>`;
  }

  #numberChoice(
    label: string,
    key: 'fixedBaudRate' | 'fixedBitRate',
    now: number | null,
    [values, unit]: readonly [readonly number[], string],
  ) {
    return html`<label class="field"
      >${label}
      <select
        @change=${(event: Event) => this.#change({ [key]: Number((event.target as HTMLSelectElement).value) || null })}
      >
        <option value="" ?selected=${now === null}>Find it</option>
        ${values.map(
          (value) =>
            html`<option value=${value} ?selected=${value === now}>
              ${value.toLocaleString('en')} ${unit}
            </option>`,
        )}
      </select>
    </label>`;
  }

  #switch(label: string, key: 'listenOnly' | 'trySilentMode', on: boolean) {
    return html`<label class="row"
      ><input
        type="checkbox"
        .checked=${on}
        @change=${(event: Event) => this.#change({ [key]: (event.target as HTMLInputElement).checked })}
      />
      ${label}</label
    >`;
  }

  #choice<K extends keyof Settings>(label: string, key: K, now: Settings[K], values: readonly Settings[K][]) {
    return html`<label class="field"
      >${label}
      <select
        @change=${(event: Event) => this.#change({ [key]: (event.target as HTMLSelectElement).value } as Partial<Settings>)}
      >
        ${values.map((value) => html`<option value=${String(value)} ?selected=${value === now}>${value}</option>`)}
      </select>
    </label>`;
  }

  #change(part: Partial<Settings>): void {
    void this.services.settings.change(part);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'settings-page': SettingsPage;
  }
}
