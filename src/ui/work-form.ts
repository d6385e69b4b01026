import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { STATION_IDS, STATIONS, type StationId } from '../procedures/station.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';
import { workStyles } from './work-look.ts';

/** What can be done at a station. The same words as in the jobs folder, which this folder may not import. */
export const WORK_WORDS = ['replaced', 'repaired', 'cleaned', 'adjusted', 'other'] as const;
export type WorkWord = (typeof WORK_WORDS)[number];

/** Something that work may have put right. */
export interface WorkCause {
  readonly id: string;
  readonly station: StationId;
  readonly text: string;
}

export interface WorkAdded {
  readonly station: StationId;
  readonly what: WorkWord;
  readonly part: string;
  readonly cause: string | null;
  readonly note: string;
}

/** `m-work-form`: one part replaced or work done. Says `work-added` when station and part are there, or `work-dropped` (button, Escape). */
@customElement('m-work-form')
export class WorkForm extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, workStyles];

  @property({ attribute: false }) causes: readonly WorkCause[] = [];
  @property() station: StationId | '' = '';
  @state() private _what: WorkWord = 'replaced';
  @state() private _all = false;
  @query('#part') private _part!: HTMLInputElement;
  @query('#station') private _station!: HTMLSelectElement;

  protected override firstUpdated() {
    this.focusFirst();
  }

  /** The focus in the first field. */
  focusFirst(): void {
    this.renderRoot.querySelector<HTMLElement>('input')?.focus();
  }

  #drop() {
    this.dispatchEvent(new CustomEvent('work-dropped', { bubbles: true, composed: true }));
  }

  #append() {
    const part = this._part.value.trim();
    const { station } = this;
    this._all = true;
    if (station === '' || part === '') {
      (station === '' ? this._station : this._part).focus();
      return;
    }
    const text = (id: string) =>
      this.renderRoot.querySelector<HTMLInputElement>(`#${id}`)?.value.trim() ?? '';
    const detail: WorkAdded = {
      station,
      what: this._what,
      part,
      cause: text('cause') || null,
      note: text('note'),
    };
    this.dispatchEvent(new CustomEvent('work-added', { detail, bubbles: true, composed: true }));
  }

  #missing(id: string, missing: boolean, words: string) {
    return html`<div id="says-${id}">
      ${
        this._all && missing
          ? html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${words}</span></p>`
          : nothing
      }
    </div>`;
  }

  #stations() {
    return html`<div class="field">
      <label class="label" for="station">Where</label>
      <select
        id="station"
        aria-invalid=${this._all && this.station === ''}
        aria-describedby="says-station"
        .value=${this.station}
        @change=${(event: Event) => (this.station = (event.target as HTMLSelectElement).value as StationId | '')}
      >
        <option value="">Choose a station</option>
        ${STATION_IDS.map((id) => html`<option value=${id} ?selected=${id === this.station}>${STATIONS[id].name}</option>`)}
      </select>
      ${this.#missing('station', this.station === '', 'Choose where it was done: it decides what is repeated.')}
    </div>`;
  }

  #part() {
    return html`<div class="field">
      <label class="label" for="part">Part or work, with its number</label>
      <input
        id="part"
        autocomplete="off"
        maxlength="200"
        aria-invalid=${this._all && this._part?.value.trim() === ''}
        aria-describedby="says-part"
        @input=${() => this.requestUpdate()}
      />
      ${this.#missing('part', (this._part?.value ?? '').trim() === '', 'Type what it was, e.g. the part and its number.')}
    </div>`;
  }

  #cause() {
    const here = this.causes.filter(({ station }) => station === this.station);
    if (here.length === 0) return nothing;
    return html`<div class="field">
      <label class="label" for="cause">What it was to put right</label>
      <select id="cause">
        <option value="">Not named</option>
        ${here.map(({ id, text }) => html`<option value=${id}>${text}</option>`)}
      </select>
    </div>`;
  }

  override render() {
    return html`<section
      class="panel form"
      aria-label="Work done"
      @keydown=${(event: KeyboardEvent) => {
        if (event.key === 'Escape') this.#drop();
      }}
    >
      <fieldset>
        <legend>What was done</legend>
        <div class="choices">
          ${WORK_WORDS.map(
            (what) =>
              html`<label
                ><input
                  type="radio"
                  name="what"
                  .checked=${this._what === what}
                  @change=${() => (this._what = what)}
                /><span>${what}</span></label
              >`,
          )}
        </div>
      </fieldset>
      ${this.#stations()} ${this.#part()} ${this.#cause()}
      <div class="field">
        <label class="label" for="note">Note</label>
        <textarea id="note" rows="2" maxlength="2000"></textarea>
      </div>
      <div class="actions">
        <button class="primary" @click=${() => this.#append()}>Add the work</button>
        <button class="quiet" @click=${() => this.#drop()}>Cancel</button>
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-work-form': WorkForm;
  }
  interface HTMLElementEventMap {
    'work-added': CustomEvent<WorkAdded>;
    'work-dropped': CustomEvent<void>;
  }
}
