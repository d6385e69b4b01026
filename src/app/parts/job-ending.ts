import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { DECISIONS, type Decision } from '../../jobs/job-entry.ts';
import type { ConclusionEntry } from '../../jobs/job-values.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/shape-icon.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import { dayAndTime } from '../job-rows.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';

const MEANS: Readonly<Record<Decision, string>> = {
  'repair now': 'Something was found that will not hold.',
  'run on and watch': 'It may go on; what to look for is written down.',
  'look elsewhere': 'The loss is not where this job looked.',
};

/** `job-ending`: what the evidence suggests, the technician's own conclusion, the signature, and opening again. Event: `job-entry`. */
@customElement('job-ending')
export class JobEnding extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      form {
        display: grid;
        gap: var(--m-space-3);
      }
      textarea {
        resize: vertical;
      }
      .words {
        font-size: var(--m-text-l);
        white-space: pre-line;
      }
    `,
  ];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  @state() private refusal = '';

  override render() {
    const { values } = this.view;
    return html`<section class="stack" aria-labelledby="ending">
      <h2 id="ending">Conclusion</h2>
      <div class="card">
        ${values.state === 'signed' ? nothing : this.#suggestion()}
        ${values.conclusion ? this.#concluded(values.conclusion) : this.#form()}
      </div>
    </section>`;
  }

  #suggestion() {
    const { decision, sentences, watchFor } = this.view.suggested;
    return html`<div class="stack screen-only" role="status">
      <p><strong>The evidence suggests: ${decision}.</strong></p>
      <ul class="plain stack">
        ${sentences.map((each) => html`<li>${each}</li>`)}
      </ul>
      ${watchFor.length > 0 ? html`<p class="quiet">Watch for: ${watchFor.join(' ')}</p>` : nothing}
    </div>`;
  }

  #form() {
    const { suggested } = this.view;
    return html`<form @submit=${this.#conclude}>
      <fieldset>
        <legend>Decision</legend>
        <div class="choices">
          ${DECISIONS.map(
            (decision) =>
              html`<label
                ><input
                  type="radio"
                  name="decision"
                  value=${decision}
                  ?checked=${decision === suggested.decision}
                /><span
                  ><strong>${decision}</strong> <span class="hint">${MEANS[decision]}</span></span
                ></label
              >`,
          )}
        </div>
      </fieldset>
      <label class="field"
        ><span class="label">Where the loss comes from; empty where it was not found</span>
        <input name="cause" type="text" maxlength="300" .value=${suggested.cause} />
      </label>
      <label class="field"
        ><span class="label">In your words</span>
        <textarea name="words" rows="4" maxlength="4000" aria-invalid=${this.refusal !== ''}></textarea>
        ${this.refusal ? html`<span class="mistake">${this.refusal}</span>` : nothing}
      </label>
      <label class="field"
        ><span class="label">What to watch for, if it runs on</span>
        <textarea
          name="watchFor"
          rows="2"
          maxlength="2000"
          .value=${suggested.watchFor.join('\n')}
        ></textarea>
      </label>
      <div class="row"><button class="primary">Conclude</button></div>
    </form>`;
  }

  readonly #conclude = (event: SubmitEvent) => {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const text = (name: string) => String(data.get(name) ?? '').trim();
    const decision = DECISIONS.find((each) => each === text('decision'));
    const words = text('words');
    if (!decision || words === '') {
      this.refusal = decision ? 'Say it in your own words first.' : 'Choose a decision first.';
      return;
    }
    this.refusal = '';
    const suggested = [this.view.suggested.decision, ...this.view.suggested.sentences].join(' ');
    const cause = text('cause');
    const watchFor = decision === 'run on and watch' ? text('watchFor') : '';
    this.dispatchEvent(jobEntry({ kind: 'conclusion', decision, words, cause, watchFor, suggested }));
  };

  #concluded({ decision, words, cause, watchFor, atIso }: ConclusionEntry) {
    const { values } = this.view;
    return html`<div class="stack">
      <p><strong>${decision}</strong>${cause ? html` · ${cause}` : nothing}</p>
      <p class="words">${words}</p>
      ${watchFor ? html`<p class="words">Watch for: ${watchFor}</p>` : nothing}
      <p class="quiet">Concluded ${dayAndTime(atIso)}</p>
      ${
        values.conclusionOutdated && values.state !== 'signed'
          ? html`<p>
              <m-icon shape="marginal"></m-icon> Something was measured or done after this was written. Open
              it again if it no longer holds.
            </p>`
          : nothing
      }
      ${
        values.signed
          ? html`<p>
              <m-icon shape="shield"></m-icon> Signed by <strong>${values.signed.by}</strong>,
              ${dayAndTime(values.signed.atIso)}. Nothing can be changed any more.
            </p>`
          : this.#sign()
      }
      ${this.#reopen()}
    </div>`;
  }

  #sign() {
    const technician = this.view.values.fields.get('technician')?.value ?? '';
    return html`<form class="screen-only" @submit=${this.#signed}>
      <label class="field"
        ><span class="label">Sign with your name</span>
        <input
          name="by"
          type="text"
          maxlength="200"
          .value=${technician}
          aria-invalid=${this.refusal !== ''}
        />
        ${this.refusal ? html`<span class="mistake">${this.refusal}</span>` : nothing}
      </label>
      <div class="row"><button class="primary">Sign and close the job</button></div>
    </form>`;
  }

  readonly #signed = (event: SubmitEvent) => {
    event.preventDefault();
    const by = String(new FormData(event.target as HTMLFormElement).get('by') ?? '').trim();
    this.refusal = by === '' ? 'Type your name first.' : '';
    if (by !== '') this.dispatchEvent(jobEntry({ kind: 'signed', by }));
  };

  #reopen() {
    return html`<details class="screen-only">
      <summary>Open the job again</summary>
      <form @submit=${this.#reopened}>
        <label class="field"
          ><span class="label">Why? It becomes revision ${this.view.values.revision + 1}</span>
          <input name="reason" type="text" maxlength="500" />
        </label>
        <div class="row"><button>Open again</button></div>
      </form>
    </details>`;
  }

  readonly #reopened = (event: SubmitEvent) => {
    event.preventDefault();
    const reason = String(new FormData(event.target as HTMLFormElement).get('reason') ?? '').trim();
    if (reason !== '') this.dispatchEvent(jobEntry({ kind: 'reopened', reason }));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'job-ending': JobEnding;
  }
}
