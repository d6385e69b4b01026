import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { VerdictWord } from '../grading/verdict.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { checkRunsStyles } from './check-order-look.ts';
import { sureText, wordLook, type FindingLook } from './finding-look.ts';
import { findingPlate } from './finding-plate.ts';
import './reason-field.ts';

/** One run of a check. `verdict` null: it is not graded yet. `leftOut`: why it does not count. */
export interface CheckRunView {
  readonly id: string;
  /** Date and time as shown. */
  readonly time: string;
  /** The value with unit and uncertainty as shown; empty where there is none yet. */
  readonly value: string;
  readonly verdict: VerdictWord | null;
  readonly confidence: number | null;
  readonly leftOut: string | null;
}

export interface RunNamed {
  readonly runId: string;
}
export interface RunLeftOut extends RunNamed {
  readonly leftOut: boolean;
  readonly reason: string;
}

const UNDER_WAY: FindingLook = { shape: 'edit', kind: 'cranking', words: 'not graded yet' };

/**
 * `m-check-runs`: the runs of one check, each with time, value and verdict. One that does not count stays, with its reason.
 * Says `run-open`, and `run-left-out` with a reason both when it is left out and when it counts again.
 */
@customElement('m-check-runs')
export class CheckRuns extends LitElement {
  static override styles = [baseStyles, buttonStyles, checkRunsStyles];

  @property({ attribute: false }) runs: readonly CheckRunView[] = [];
  /** Title of the check, for names of buttons. */
  @property() check = '';
  @property({ type: Boolean }) fixed = false;
  @state() private _asked = '';
  #focusLater = '';

  protected override updated(changed: PropertyValues) {
    super.updated(changed);
    if (this.#focusLater === '') return;
    this.renderRoot.querySelector<HTMLElement>(this.#focusLater)?.focus();
    this.#focusLater = '';
  }

  #say<T extends RunNamed>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #endAsking(at: number) {
    this._asked = '';
    this.#focusLater = `li:nth-child(${at + 1}) .open`;
  }

  #reason({ id, leftOut }: CheckRunView, at: number) {
    if (this._asked !== id || this.fixed) return nothing;
    const out = leftOut === null;
    return html`<m-reason
      question=${out ? 'Why does this run not count?' : 'Why does it count again?'}
      action-label=${out ? 'Leave it out' : 'Let it count'}
      @reason-kept=${({ detail }: HTMLElementEventMap['reason-kept']) => {
        this.#endAsking(at);
        this.#say<RunLeftOut>('run-left-out', { runId: id, leftOut: out, reason: detail.reason });
      }}
      @reason-dropped=${() => this.#endAsking(at)}
    ></m-reason>`;
  }

  #run(run: CheckRunView, at: number) {
    const { id, time, value, verdict, confidence, leftOut } = run;
    const name = `run ${at + 1} of ${this.check}`;
    const act = leftOut === null ? 'Leave out' : 'Count again';
    return html`<li class=${leftOut === null ? '' : 'out'}>
      <span class="run">Run ${at + 1} <span class="label number">${time}</span></span>
      <span class="value number">${value || '–'}</span>
      <span class="verdict">
        ${findingPlate(verdict === null ? UNDER_WAY : wordLook(verdict))}
        ${confidence === null ? nothing : html`<span class="label number">${sureText(confidence)}</span>`}
      </span>
      <span class="acts">
        <button
          class="open quiet"
          aria-label="Open ${name}"
          @click=${() => this.#say('run-open', { runId: id })}
        >
          Open
        </button>
        ${
          this.fixed
            ? nothing
            : html`<button
                class="quiet"
                aria-label="${act}: ${name}"
                aria-expanded=${this._asked === id}
                @click=${() => (this._asked = this._asked === id ? '' : id)}
              >
                ${act}
              </button>`
        }
      </span>
      ${
        leftOut === null
          ? nothing
          : html`<p class="because"><m-icon shape="lost"></m-icon><span>Does not count: ${leftOut}</span></p>`
      }
      ${this.#reason(run, at)}
    </li>`;
  }

  override render() {
    return html`<ol aria-label="Runs of ${this.check}">
      ${this.runs.map((run, at) => this.#run(run, at))}
    </ol>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-check-runs': CheckRuns;
  }
  interface HTMLElementEventMap {
    'run-open': CustomEvent<RunNamed>;
    'run-left-out': CustomEvent<RunLeftOut>;
  }
}
