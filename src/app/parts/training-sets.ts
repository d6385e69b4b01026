import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { readCaseSet, writeCaseSet } from '../../training/case-set-exchange.ts';
import type { CaseSet } from '../../training/case-set.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { caseJob, readSeed } from '../training-desk.ts';
import { saveText } from '../training-file.ts';

/** `training-sets`: the case sets, each with the way to begin a case of it; sets as files. Event: `sets-changed`. */
@customElement('training-sets')
export class TrainingSets extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      .sets {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 18rem), 1fr));
      }
      .set {
        grid-template-rows: auto 1fr auto;
      }
      .who {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 16rem), 1fr));
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) sets: readonly CaseSet[] = [];
  @state() private problem: Problem | null = null;
  @query('#trainee') private trainee!: HTMLInputElement;
  @query('#seed') private seed!: HTMLInputElement;
  @query('#file') private file!: HTMLInputElement;

  override render() {
    return html`<section class="stack" aria-labelledby="sets">
      <h2 id="sets">Begin a case</h2>
      <div class="who">
        <div class="field">
          <label class="label" for="trainee">Your name</label>
          <input id="trainee" type="text" autocomplete="name" maxlength="100" />
          <p class="hint">It stands in the results of the class.</p>
        </div>
        <div class="field">
          <label class="label" for="seed">Number of the case</label>
          <input id="seed" type="text" inputmode="numeric" maxlength="10" placeholder="drawn" />
          <p class="hint">
            Leave it empty, and one is drawn. A class: all type the same number, and all get the same engine.
          </p>
        </div>
      </div>
      ${this.problem ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>` : nothing}
      <div class="sets">${this.sets.map((set) => this.#set(set))}</div>
      <div class="row">
        <button class="quiet" @click=${() => this.file.click()}>Open a case set</button>
        <input
          id="file"
          type="file"
          hidden
          aria-label="Case set file"
          accept=".json,application/json"
          @change=${this.#picked}
        />
      </div>
    </section>`;
  }

  #set(set: CaseSet) {
    return html`<article class="card set" aria-label=${set.title}>
      <h3>${set.title}</h3>
      <p>${set.about}</p>
      <div class="row">
        <button @click=${() => void this.#begin(set)}>Begin a case</button>
        <button
          class="quiet"
          @click=${() => saveText(`${set.id}.json`, writeCaseSet(set), 'application/json')}
        >
          Save the set
        </button>
      </div>
    </article>`;
  }

  async #begin(set: CaseSet): Promise<void> {
    const { services } = this;
    const seed = readSeed(this.seed.value, services.newSeed());
    if (!seed.ok) return void (this.problem = seed.problem);
    const wanted = { set, seed: seed.value, trainee: this.trainee.value };
    const job = caseJob(wanted, services.newId(), services.nowIso());
    const kept = await services.jobs.put(job);
    if (kept.ok) services.go({ page: 'job', jobId: job.id });
    else this.problem = kept.problem;
  }

  readonly #picked = async () => {
    const file = this.file.files?.[0];
    this.file.value = '';
    if (file) await this.bring(await file.text());
  };

  /** Takes in the text of a case set's file. */
  async bring(text: string): Promise<void> {
    const read = readCaseSet(text);
    const kept = read.ok ? await this.services.training.addSet(read.value) : read;
    this.problem = kept.ok ? null : kept.problem;
    if (kept.ok) this.dispatchEvent(new CustomEvent('sets-changed', { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'training-sets': TrainingSets;
  }
  interface HTMLElementEventMap {
    'sets-changed': CustomEvent<void>;
  }
}
