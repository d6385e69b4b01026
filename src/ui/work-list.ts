import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { VerdictWord } from '../grading/verdict.ts';
import type { StationId } from '../procedures/station.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './empty-state.ts';
import { wordLook } from './finding-look.ts';
import { findingPlate } from './finding-plate.ts';
import './reason-field.ts';
import './shape-icon.ts';
import './work-form.ts';
import type { WorkCause } from './work-form.ts';
import { workStyles } from './work-look.ts';

/** A part replaced or work done. */
export interface WorkView {
  readonly kind: 'work';
  readonly id: string;
  readonly time: string;
  /** E.g. "replaced". */
  readonly what: string;
  /** Name of the station. */
  readonly station: string;
  readonly part: string;
  /** What it was to put right, in words; empty where none was named. */
  readonly cause: string;
  readonly note: string;
  /** When the fuel path was primed after it; null: not yet. */
  readonly primed: string | null;
  /** Titles of the checks that are to be repeated because of it. */
  readonly repeat: readonly string[];
  /** Why it was withdrawn; null where it stands. */
  readonly withdrawn: string | null;
}

/** A run between works: what was known before and after. */
export interface WorkRunMark {
  readonly kind: 'run';
  readonly id: string;
  readonly time: string;
  readonly title: string;
  readonly value: string;
  readonly word: VerdictWord | null;
}

export interface WorkNamed {
  readonly workId: string;
}
export interface WorkWithdrawn extends WorkNamed {
  readonly reason: string;
}

/**
 * `m-work-list`: works and runs in the order of time, oldest first, with what is still to be primed, and a form for more. Says
 * `work-added` (from the form), `work-primed`, `work-withdrawn`.
 */
@customElement('m-work-list')
export class WorkList extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, workStyles];

  @property({ attribute: false }) items: readonly (WorkView | WorkRunMark)[] = [];
  /** How to prime, from the procedure. */
  @property({ attribute: false }) priming: readonly string[] = [];
  /** What may have been put right, for the form. */
  @property({ attribute: false }) causes: readonly WorkCause[] = [];
  /** The station that the form begins with. */
  @property() station: StationId | '' = '';
  @property({ type: Boolean }) fixed = false;
  @state() private _asked = '';
  @state() private _adding = false;

  #say<T extends WorkNamed>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  /** Opens the form with the focus in its first field; where it is open already, only the focus moves. Nothing in a signed job. */
  async begin(): Promise<void> {
    if (this.fixed) return;
    this._adding = true;
    await this.updateComplete;
    const form = this.renderRoot.querySelector('m-work-form');
    await form?.updateComplete;
    form?.scrollIntoView({ block: 'nearest' });
    form?.focusFirst();
  }

  async #end(selector: string) {
    this._asked = '';
    this._adding = false;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }

  #priming({ id, primed, withdrawn, what, part }: WorkView) {
    if (withdrawn !== null) return nothing;
    if (primed !== null) {
      return html`<p class="primed"><m-icon shape="pass"></m-icon><span>Primed ${primed}</span></p>`;
    }
    return html`<div class="prime">
      <p><m-icon shape="marginal"></m-icon><strong>Prime before anything is run again</strong></p>
      <ol>
        ${this.priming.map((line) => html`<li>${line}</li>`)}
      </ol>
      ${
        this.fixed
          ? nothing
          : html`<button
              aria-label="Primed, after: ${part} ${what}"
              @click=${() => this.#say('work-primed', { workId: id })}
            >
              Primed
            </button>`
      }
    </div>`;
  }

  #withdraw({ id, withdrawn, part, what }: WorkView) {
    if (this.fixed || withdrawn !== null) return nothing;
    if (this._asked !== id) {
      return html`<button
        class="quiet withdraw"
        data-work=${id}
        aria-label="Withdraw: ${part} ${what}"
        @click=${() => (this._asked = id)}
      >
        Withdraw
      </button>`;
    }
    return html`<m-reason
      question="Why is it withdrawn?"
      hint="It stays in the job, struck out, with this reason."
      action-label="Withdraw"
      @reason-kept=${({ detail }: HTMLElementEventMap['reason-kept']) => {
        void this.#end(`[data-work="${id}"]`);
        this.#say<WorkWithdrawn>('work-withdrawn', { workId: id, reason: detail.reason });
      }}
      @reason-dropped=${() => void this.#end(`[data-work="${id}"]`)}
    ></m-reason>`;
  }

  #work(work: WorkView) {
    const { time, what, station, part, cause, note, repeat, withdrawn } = work;
    return html`<li class="work ${withdrawn === null ? '' : 'out'}">
      <span class="time number">${time}</span>
      <div class="body">
        <h3><span class="title">${part} ${what}</span></h3>
        <p class="label">${station}${cause ? html` · to put right: ${cause}` : nothing}</p>
        ${note ? html`<p class="note">${note}</p>` : nothing}
        ${
          withdrawn === null
            ? nothing
            : html`<p class="because"><m-icon shape="lost"></m-icon><span>Withdrawn: ${withdrawn}</span></p>`
        }
        ${
          repeat.length > 0 && withdrawn === null
            ? html`<p class="because">
                <m-icon shape="replay"></m-icon><span>To be repeated: ${repeat.join(', ')}</span>
              </p>`
            : nothing
        }
        ${this.#priming(work)} ${this.#withdraw(work)}
      </div>
    </li>`;
  }

  #run({ time, title, value, word }: WorkRunMark) {
    return html`<li class="run">
      <span class="time number">${time}</span>
      <p class="body">
        <span>${title}</span> <span class="number">${value}</span>
        ${word === null ? nothing : findingPlate(wordLook(word))}
      </p>
    </li>`;
  }

  #append() {
    if (this.fixed) return nothing;
    if (!this._adding) {
      return html`<button class="add" @click=${() => (this._adding = true)}>
        <m-icon shape="plus"></m-icon>Work done
      </button>`;
    }
    return html`<m-work-form
      .causes=${this.causes}
      station=${this.station}
      @work-added=${() => void this.#end('.add')}
      @work-dropped=${() => void this.#end('.add')}
    ></m-work-form>`;
  }

  override render() {
    const none = !this.items.some(({ kind }) => kind === 'work');
    return html`<div class="all">
      ${
        this.items.length === 0
          ? nothing
          : html`<ol class="panel time-line" aria-label="Works and runs in the order of time">
              ${this.items.map((item) => (item.kind === 'work' ? this.#work(item) : this.#run(item)))}
            </ol>`
      }
      ${
        none
          ? html`<p class="label none">
              No work yet. Replace one thing, note it here, prime, and repeat the checks that it touches: so
              the page shows what helped.
            </p>`
          : nothing
      }
      ${this.#append()}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-work-list': WorkList;
  }
  interface HTMLElementEventMap {
    'work-primed': CustomEvent<WorkNamed>;
    'work-withdrawn': CustomEvent<WorkWithdrawn>;
  }
}
