import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { conclusionStyles } from './conclusion-look.ts';
import {
  conclusionMistakes,
  DECISION_FORMS,
  type ConclusionDraft,
  type DecisionWord,
} from './conclusion-draft.ts';
import { JOB_LOOK, type JobStateWord } from './finding-look.ts';
import { findingPlate } from './finding-plate.ts';
import './reason-field.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** What the evidence suggests; it only stands beside the technician's words. */
export interface SuggestionView {
  /** `not yet`: the evidence does not carry a decision. */
  readonly decision: DecisionWord | 'not yet';
  readonly cause: string;
  readonly sentences: readonly string[];
  readonly watchFor: readonly string[];
}

/** Who signed, when, and which revision of the job that is, as shown. */
export interface SignatureView {
  readonly by: string;
  readonly time: string;
  readonly revision: number;
}

/** What an earlier revision of the job ended in, and why it was opened again. */
export interface EarlierConclusion {
  readonly revision: number;
  readonly decision: DecisionWord;
  readonly cause: string;
  readonly words: string;
  /** Who signed it and when, or that nobody did. */
  readonly closed: string;
  readonly reopened: string;
}

export interface JobSigned {
  readonly by: string;
}
export interface JobReopened {
  readonly reason: string;
}

export const EMPTY_CONCLUSION: ConclusionDraft = { decision: null, words: '', cause: '', watchFor: '' };

/**
 * `m-conclusion`: how a job ends. The suggestion to be read, the technician's words and decision, then the signature; signed, it is read only
 * until it is opened again with a reason. Says `conclusion-typed` at each change, `concluded`, `signed`, `reopened`.
 */
@customElement('m-conclusion')
export class JobConclusion extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, conclusionStyles];

  @property({ attribute: false }) suggestion: SuggestionView | null = null;
  /** What stands, or what was typed so far. */
  @property({ attribute: false }) draft: ConclusionDraft = EMPTY_CONCLUSION;
  @property() state: JobStateWord = 'open';
  @property({ attribute: false }) signature: SignatureView | null = null;
  /** The technician of the job, proposed as the signature. */
  @property() technician = '';
  /** What each marginal result means under full load and what it does not. */
  @property({ attribute: false }) caveats: readonly string[] = [];
  /** Something was measured or done after it was concluded. */
  @property({ type: Boolean }) outdated = false;
  @property({ attribute: false }) earlier: readonly EarlierConclusion[] = [];
  @state() private _all = false;
  @state() private _unsigned = false;
  @state() private _asked = false;

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('state')) this._all = this._unsigned = this._asked = false;
  }

  /** The focus in what comes next: the first decision, or the signature. */
  focusFirst(): void {
    const field = this.renderRoot.querySelector<HTMLElement>('input');
    field?.scrollIntoView({ block: 'center' });
    field?.focus({ preventScroll: true });
  }

  #say<T>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #change(change: Partial<ConclusionDraft>) {
    this.draft = { ...this.draft, ...change };
    this.#say('conclusion-typed', this.draft);
  }

  async #conclude() {
    this._all = true;
    await this.updateComplete;
    const { decision, words, cause, watchFor } = this.draft;
    if (Object.keys(conclusionMistakes(this.draft)).length > 0) {
      this.renderRoot.querySelector<HTMLElement>('[aria-invalid="true"], [data-wrong] input')?.focus();
      return;
    }
    const kept = { words: words.trim(), cause: cause.trim() };
    this.#say('concluded', {
      decision,
      ...kept,
      watchFor: decision === 'run on and watch' ? watchFor.trim() : '',
    });
  }

  #sign() {
    const input = this.renderRoot.querySelector<HTMLInputElement>('#by');
    const by = input?.value.trim() ?? '';
    this._unsigned = by === '';
    if (by === '') input?.focus();
    else this.#say<JobSigned>('signed', { by });
  }

  #mistake(part: keyof ConclusionDraft) {
    const words = this._all ? conclusionMistakes(this.draft)[part] : undefined;
    return html`<div id="says-${part}">
      ${words ? html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${words}</span></p>` : nothing}
    </div>`;
  }

  #area(part: 'words' | 'cause' | 'watchFor', label: string, hint: string) {
    const wrong = this._all && conclusionMistakes(this.draft)[part] !== undefined;
    return html`<div class="field">
      <label class="label" for=${part}>${label}</label>
      <textarea
        id=${part}
        rows=${part === 'cause' ? 1 : 3}
        maxlength="4000"
        aria-invalid=${wrong}
        aria-describedby="hint-${part} says-${part}"
        .value=${this.draft[part]}
        @input=${(event: Event) => this.#change({ [part]: (event.target as HTMLTextAreaElement).value })}
      ></textarea>
      <p class="hint" id="hint-${part}">${hint}</p>
      ${this.#mistake(part)}
    </div>`;
  }

  #suggestion() {
    const { suggestion } = this;
    if (!suggestion) return nothing;
    const { decision, cause, sentences, watchFor } = suggestion;
    return html`<section class="panel suggestion" aria-labelledby="suggestion">
      <p class="label">What the findings suggest</p>
      <h3 id="suggestion">
        ${decision === 'not yet' ? 'Nothing is certain enough to decide yet' : DECISION_FORMS[decision].title}
      </h3>
      ${cause ? html`<p><span class="label">Likeliest cause:</span> ${cause}</p>` : nothing}
      <ul class="said">
        ${[...sentences, ...watchFor.map((words) => `Watch for: ${words}`)].map((words) => html`<li>${words}</li>`)}
      </ul>
      ${this.caveats.map((words) => this.#caveat(words))}
    </section>`;
  }

  #caveat(words: string) {
    return html`<p class="caveat"><m-icon shape="marginal"></m-icon><span>${words}</span></p>`;
  }

  #choice(decision: DecisionWord) {
    const { title, means } = DECISION_FORMS[decision];
    return html`<label class="choice">
      <input
        type="radio"
        name="decision"
        .checked=${this.draft.decision === decision}
        @change=${() => this.#change({ decision })}
      />
      <span><strong>${title}</strong><small>${means}</small></span>
    </label>`;
  }

  #form() {
    const decisions = Object.keys(DECISION_FORMS) as DecisionWord[];
    const wrong = this._all && this.draft.decision === null;
    return html`<section class="panel" aria-label="Conclusion">
      <fieldset ?data-wrong=${wrong} aria-describedby="says-decision">
        <legend>Decision</legend>
        <div class="three">${decisions.map((decision) => this.#choice(decision))}</div>
        ${this.#mistake('decision')}
      </fieldset>
      ${
        this.draft.decision === 'run on and watch'
          ? this.#area('watchFor', 'What to watch for', 'So that the driver knows when to come back.')
          : nothing
      }
      ${this.#area('cause', 'Cause', 'Empty where it was not found.')}
      ${this.#area('words', 'In your words', 'What was found, how, and why this decision. It stands on the page for the owner.')}
      <button class="primary" @click=${() => void this.#conclude()}>Conclude</button>
    </section>`;
  }

  #kept() {
    const { decision, words, cause, watchFor } = this.draft;
    const rows: readonly (readonly [string, string])[] = [
      ['Cause', cause || 'not found'],
      ['Watch for', watchFor],
      ['In words', words],
    ];
    return html`<section class="panel kept" aria-label="Conclusion">
      <p>${findingPlate(JOB_LOOK[this.state])}</p>
      <h3>${decision ? DECISION_FORMS[decision].title : ''}</h3>
      <dl>
        ${rows
          .filter(([, text]) => text !== '')
          .map(
            ([name, text]) =>
              html`<dt>${name}</dt>
                <dd>${text}</dd>`,
          )}
      </dl>
      ${
        this.outdated
          ? this.#caveat(
              'Something was measured or done after this was written. Reopen it if it no longer holds.',
            )
          : nothing
      }
      ${this.state === 'signed' ? this.#signature() : this.#signing()} ${this.#reopen()}
    </section>`;
  }

  #signing() {
    return html`<div class="sign">
      <div class="field">
        <label class="label" for="by">Signed by</label>
        <input
          id="by"
          autocomplete="name"
          maxlength="200"
          aria-invalid=${this._unsigned}
          aria-describedby="says-by"
          .value=${this.technician}
          @keydown=${(event: KeyboardEvent) => {
            if (event.key === 'Enter' && !event.isComposing) this.#sign();
          }}
        />
        <div id="says-by">
          ${
            this._unsigned
              ? html`<p class="mistake">
                  <m-icon shape="fail"></m-icon><span>Type your name to sign.</span>
                </p>`
              : html`<p class="hint">A signed job can be read, printed and handed over, but not changed.</p>`
          }
        </div>
      </div>
      <button class="primary" @click=${() => this.#sign()}>Sign</button>
    </div>`;
  }

  #signature() {
    const { signature } = this;
    if (!signature) return nothing;
    return html`<p class="signature">
      <m-icon shape="shield"></m-icon
      ><span
        >Signed by <strong>${signature.by}</strong>, ${signature.time}, revision ${signature.revision}.</span
      >
    </p>`;
  }

  #reopen() {
    if (!this._asked) {
      return html`<button class="reopen" @click=${() => (this._asked = true)}>Reopen</button>`;
    }
    return html`<m-reason
      question="Why is the job opened again?"
      hint="It becomes a new revision. What was concluded and signed before is kept."
      action-label="Reopen"
      @reason-kept=${({ detail }: HTMLElementEventMap['reason-kept']) => {
        this._asked = false;
        this.#say<JobReopened>('reopened', { reason: detail.reason });
      }}
      @reason-dropped=${() => (this._asked = false)}
    ></m-reason>`;
  }

  #before() {
    if (this.earlier.length === 0) return nothing;
    return html`<section class="panel" aria-labelledby="before">
      <h3 id="before">Concluded before</h3>
      <dl>
        ${this.earlier.map(
          ({ revision, decision, cause, words, closed, reopened }) =>
            html`<dt>Revision ${revision}</dt>
              <dd>
                <strong>${DECISION_FORMS[decision].title}</strong
                >${cause ? `: ${cause}` : ''}<br />${words}<br />${closed}. ${reopened}
              </dd>`,
        )}
      </dl>
    </section>`;
  }

  override render() {
    return html`<div class="all">
      ${this.#suggestion()} ${this.state === 'open' ? this.#form() : this.#kept()} ${this.#before()}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-conclusion': JobConclusion;
  }
  interface HTMLElementEventMap {
    'conclusion-typed': CustomEvent<ConclusionDraft>;
    concluded: CustomEvent<ConclusionDraft & { readonly decision: DecisionWord }>;
    signed: CustomEvent<JobSigned>;
    reopened: CustomEvent<JobReopened>;
  }
}
