import { html, LitElement, nothing, svg, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PathStation } from '../procedures/fuel-path.ts';
import { STATION_IDS, STATIONS, type StationId } from '../procedures/station.ts';
import { baseStyles, panelStyles } from './base-styles.ts';
import { findingPlate } from './finding-plate.ts';
import { STATION_LOOK } from './finding-look.ts';
import { fuelPathStyles } from './fuel-path-look.ts';
import './shape-icon.ts';
import { STATION_SYMBOL } from './station-symbol.ts';

export interface StationOpened {
  readonly id: StationId;
}

const STEP: Readonly<Record<string, (at: number) => number>> = {
  ArrowRight: (at) => at + 1,
  ArrowDown: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  ArrowUp: (at) => at - 1,
  Home: () => 0,
  End: () => STATION_IDS.length - 1,
};

/** Returns to the tank: under nine columns of stations, and beside ten rows of them on a narrow screen. */
const RETURNS = svg`<path d="M650 0V92M750 0V92M850 0V92H50V0" />`;
const RETURNS_UPRIGHT = svg`<path d="M0 650H14M0 850H14M0 950H14V50H0" />`;

/**
 * `m-fuel-path`: the stations from tank to injectors as one line, each with shape, word and colour of what is known, returns thin. Arrow
 * keys go along it; what is known of the chosen station is said below. Click and Enter say `station-opened`.
 */
@customElement('m-fuel-path')
export class FuelPath extends LitElement {
  static override styles = [baseStyles, panelStyles, fuelPathStyles];

  /** What is known; a station that is missing counts as not checked. */
  @property({ attribute: false }) stations: readonly PathStation[] = [];
  /** Which stretch is cleared and where the loss must lie. */
  @property() words = '';
  @property() selected: StationId | '' = '';
  @state() private _focused: StationId | '' = '';

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('selected')) this._focused = this.selected;
  }

  #known(id: StationId): PathStation {
    const found = this.stations.find(({ station }) => station === id);
    return found ?? { station: id, state: 'not checked', checkIds: [], sentence: 'Not checked yet.' };
  }

  #open(id: StationId) {
    this.selected = id;
    const detail: StationOpened = { id };
    this.dispatchEvent(new CustomEvent('station-opened', { detail, bubbles: true, composed: true }));
  }

  readonly #key = (event: KeyboardEvent) => {
    const step = STEP[event.key];
    if (!step) return;
    event.preventDefault();
    const at = STATION_IDS.indexOf(this._focused || 'tank');
    const next = STATION_IDS[Math.min(Math.max(step(at), 0), STATION_IDS.length - 1)] ?? 'tank';
    this._focused = next;
    this.renderRoot.querySelector<HTMLElement>(`[data-station="${next}"]`)?.focus();
  };

  #station(id: StationId, at: number) {
    const { state } = this.#known(id);
    const chosen = this._focused === id;
    // A stretch of line is heavy where the stations at both of its ends are cleared.
    const before = STATION_IDS[id === 'injectors' ? at - 2 : at - 1];
    const led = state === 'cleared' && before !== undefined && this.#known(before).state === 'cleared';
    return html`<li class="station ${id.replaceAll(' ', '-')} ${led ? 'led' : ''}">
      <button
        data-station=${id}
        class=${state.replaceAll(' ', '-')}
        tabindex=${chosen || (this._focused === '' && at === 0) ? 0 : -1}
        aria-current=${chosen ? 'true' : nothing}
        @focus=${() => (this._focused = id)}
        @click=${() => this.#open(id)}
      >
        <svg class="symbol" viewBox="0 0 40 40" aria-hidden="true">${STATION_SYMBOL[id]}</svg>
        <span class="name"
          ><span aria-hidden="true">${STATIONS[id].shortName}</span
          ><span class="unseen">${STATIONS[id].name}: </span></span
        >
        ${findingPlate(STATION_LOOK[state])}
      </button>
    </li>`;
  }

  #sentence() {
    if (this._focused === '') {
      return html`<p class="label">Choose a station to read what is known of it.</p>`;
    }
    return html`<h3>${STATIONS[this._focused].name}</h3>
      <p>${this.#known(this._focused).sentence}</p>`;
  }

  override render() {
    return html`<section class="panel" aria-label="Fuel path">
      <div class="frame">
        <ol class="path" aria-label="Stations from tank to injectors" @keydown=${this.#key}>
          ${STATION_IDS.map((id, at) => this.#station(id, at))}
        </ol>
        <svg class="returns flat" viewBox="0 0 900 100" preserveAspectRatio="none" aria-hidden="true">
          ${RETURNS}
        </svg>
        <svg class="returns upright" viewBox="0 0 20 1000" preserveAspectRatio="none" aria-hidden="true">
          ${RETURNS_UPRIGHT}
        </svg>
        <p class="back label" aria-hidden="true"><m-icon shape="rising"></m-icon>returns</p>
      </div>
      <div class="sentence" role="status">${this.#sentence()}</div>
      ${this.words ? html`<p class="words">${this.words}</p>` : nothing}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-fuel-path': FuelPath;
  }
  interface HTMLElementEventMap {
    'station-opened': CustomEvent<StationOpened>;
  }
}
