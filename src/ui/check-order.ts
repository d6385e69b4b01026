import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CheckFinding } from '../procedures/finding.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { checkOrderStyles } from './check-order-look.ts';
import './check-runs.ts';
import type { CheckRunView } from './check-runs.ts';
import './empty-state.ts';
import { checkLook, sureText } from './finding-look.ts';
import { findingPlate } from './finding-plate.ts';
import './reason-field.ts';

export type { CheckRunView };

/** One check of the procedure: its finding, and what the screen says besides. */
export interface CheckRow extends Omit<CheckFinding, 'causes'> {
  readonly title: string;
  /** What it is for, one sentence. */
  readonly purpose: string;
  /** The value that counts, with its unit and uncertainty as shown; empty where there is none. */
  readonly value: string;
  /** Ids of the checks that it asks for and that are neither done nor left out. */
  readonly asksFor: readonly string[];
  readonly runList: readonly CheckRunView[];
}

export interface CheckNamed {
  readonly checkId: string;
}
export interface CheckSkipped extends CheckNamed {
  readonly reason: string;
}

/**
 * `m-check-order`: the checks of the procedure in order, each with its state, last verdict, value, runs, and what it asks for first.
 * The next one is set off. Says `check-start` (also for a repeat), `check-skip` with a reason, `check-unskip`, and of its runs
 * `run-open` and `run-left-out`.
 */
@customElement('m-check-order')
export class CheckOrder extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, checkOrderStyles];

  @property({ attribute: false }) checks: readonly CheckRow[] = [];
  /** Id of the check to do next; empty where there is none. */
  @property({ attribute: 'next-id' }) nextId = '';
  /** A signed job: everything can be read and opened, nothing changed. */
  @property({ type: Boolean }) fixed = false;
  /** Check whose leaving out is being asked about. */
  @state() private _asked = '';
  #focusLater = '';

  protected override updated(changed: PropertyValues) {
    super.updated(changed);
    if (this.#focusLater === '') return;
    this.renderRoot.querySelector<HTMLElement>(this.#focusLater)?.focus();
    this.#focusLater = '';
  }

  #say<T extends CheckNamed>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #endAsking(checkId: string) {
    this._asked = '';
    this.#focusLater = `[data-check="${checkId}"] .title`;
  }

  #start(row: CheckRow) {
    if (row.asksFor.length > 0) return;
    const open = row.runList.find(({ verdict, leftOut }) => verdict === null && leftOut === null);
    if (open) {
      const detail = { runId: open.id };
      this.dispatchEvent(new CustomEvent('run-open', { detail, bubbles: true, composed: true }));
    } else this.#say('check-start', { checkId: row.checkId });
  }

  #named(checkId: string): string {
    const at = this.checks.findIndex((each) => each.checkId === checkId);
    return at < 0 ? checkId : `${at + 1} ${this.checks[at]!.title}`;
  }

  #asks({ checkId, asksFor }: CheckRow) {
    if (asksFor.length === 0) return nothing;
    const names = asksFor.map((id) => this.#named(id)).join(', ');
    const words = `Asks first for ${names}. Do it, or leave it out with a reason.`;
    return html`<p class="asks" id="asks-${checkId}">
      <m-icon shape="resting"></m-icon><span>${words}</span>
    </p>`;
  }

  #actions(row: CheckRow) {
    const { checkId, title, skipped, asksFor, runList } = row;
    if (this.fixed) return nothing;
    if (skipped !== null) {
      return html`<button
        aria-label="Take in again: ${title}"
        @click=${() => this.#say('check-unskip', { checkId })}
      >
        Take in again
      </button>`;
    }
    const open = runList.some(({ verdict, leftOut }) => verdict === null && leftOut === null);
    const word = open ? 'Go on' : runList.length > 0 ? 'Repeat' : 'Start';
    return html`<button
        class=${checkId === this.nextId ? 'primary' : ''}
        aria-label="${word}: ${title}"
        aria-disabled=${asksFor.length > 0}
        aria-describedby=${asksFor.length > 0 ? `asks-${checkId}` : nothing}
        @click=${() => this.#start(row)}
      >
        ${word}
      </button>
      <button
        class="quiet"
        aria-label="Leave out: ${title}"
        aria-expanded=${this._asked === checkId}
        @click=${() => (this._asked = this._asked === checkId ? '' : checkId)}
      >
        Leave out
      </button>`;
  }

  #reason({ checkId }: CheckRow) {
    if (this._asked !== checkId || this.fixed) return nothing;
    return html`<m-reason
      question="Why is this check left out?"
      action-label="Leave it out"
      @reason-kept=${({ detail }: HTMLElementEventMap['reason-kept']) => {
        this.#endAsking(checkId);
        this.#say<CheckSkipped>('check-skip', { checkId, reason: detail.reason });
      }}
      @reason-dropped=${() => this.#endAsking(checkId)}
    ></m-reason>`;
  }

  #facts({ value, confidence, runs, runsNeeded, word }: CheckRow) {
    if (word === null) {
      return html`<p class="facts label">
        ${runsNeeded === 1 ? 'One run' : `${runsNeeded} runs with one verdict`}
      </p>`;
    }
    return html`<p class="facts">
      ${value ? html`<strong class="number">${value}</strong>` : nothing}
      ${confidence === null ? nothing : html`<span class="number">${sureText(confidence)}</span>`}
      <span class="label">${runs} of ${runsNeeded} ${runsNeeded === 1 ? 'run' : 'runs'}</span>
    </p>`;
  }

  #row(row: CheckRow, at: number) {
    const { checkId, title, purpose, skipped, repeatBecause, runList } = row;
    const next = checkId === this.nextId;
    return html`<li
      class="check ${next ? 'next' : ''} ${skipped === null ? '' : 'out'}"
      data-check=${checkId}
      aria-current=${next ? 'step' : nothing}
    >
      <span class="place number" aria-hidden="true">${at + 1}</span>
      <div class="what">
        ${next ? html`<p class="flag"><m-icon shape="play"></m-icon>Next</p>` : nothing}
        <h3 class="title" tabindex="-1"><span class="unseen">${at + 1} </span>${title}</h3>
        ${next ? html`<p class="purpose">${purpose}</p>` : nothing}
        ${skipped === null ? nothing : html`<p class="because">Left out: ${skipped}</p>`}
        ${repeatBecause === null || skipped !== null ? nothing : html`<p class="because">${repeatBecause}</p>`}
        ${this.#asks(row)}
      </div>
      <div class="result">
        ${findingPlate(checkLook(row))} ${skipped === null ? this.#facts(row) : nothing}
      </div>
      <div class="actions">${this.#actions(row)}</div>
      ${this.#reason(row)}
      ${
        runList.length === 0
          ? nothing
          : html`<m-check-runs .runs=${runList} .check=${title} ?fixed=${this.fixed}></m-check-runs>`
      }
    </li>`;
  }

  override render() {
    if (this.checks.length === 0) {
      return html`<m-empty
        drawing="log"
        heading="No checks"
        text="A job carries a copy of a procedure: the checks in order, from the tank to the injectors. This one has none."
      ></m-empty>`;
    }
    return html`<ol class="panel" aria-label="Checks in order">
      ${this.checks.map((row, at) => this.#row(row, at))}
    </ol>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-check-order': CheckOrder;
  }
  interface HTMLElementEventMap {
    'check-start': CustomEvent<CheckNamed>;
    'check-skip': CustomEvent<CheckSkipped>;
    'check-unskip': CustomEvent<CheckNamed>;
  }
}
