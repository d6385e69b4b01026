import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { DECISION_FORMS, type DecisionWord } from './conclusion-draft.ts';
import './empty-state.ts';
import { JOB_LOOK, type JobStateWord } from './finding-look.ts';
import { findingPlate } from './finding-plate.ts';
import { jobListStyles } from './job-list-look.ts';
import './problem-note.ts';
import './progress-note.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** One job as a line: a row of the jobs folder, which this folder may not import, fits. Texts may be empty. */
export interface JobRow {
  readonly id: string;
  readonly unitNumber: string;
  readonly vin: string;
  readonly customer: string;
  readonly engineFamily: string;
  readonly serialNumber: string;
  readonly complaint: string;
  readonly state: JobStateWord;
  /** What the job ended in; null while it is open. */
  readonly decision: DecisionWord | null;
  /** Set where the job is practice on the bench. */
  readonly scenarioId: string | null;
  readonly updatedAt: string;
}

/** A document that could not be read, by the name it is kept under. */
export interface DamagedJob {
  readonly name: string;
  readonly problem: ProblemText;
}

export interface JobSearch {
  readonly text: string;
}
export interface FilesChosen {
  readonly files: readonly File[];
}

/** Lines drawn at once; more on demand, so that ten thousand jobs open as fast as ten. */
export const JOBS_A_STEP = 100;

/** Made once: a formatter for each line would be the slowest part of the list. */
const DAY_AND_TIME = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

/**
 * `m-job-list`: the jobs, newest first as they are given, with search, and what belongs here where there are none. Each line is a link;
 * arrow keys go from line to line. Says `job-new`, `job-bench`, `file-import`, `search-changed`; finding is the app's.
 */
@customElement('m-job-list')
export class JobList extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, jobListStyles];

  /** Those that match the search. */
  @property({ attribute: false }) jobs: readonly JobRow[] = [];
  /** How many there are in all. */
  @property({ type: Number }) total = 0;
  @property() search = '';
  /** Where a job is opened. */
  @property({ attribute: false }) hrefOf: (id: string) => string = (id) => `#${id}`;
  @property() state: 'loading' | 'ready' | 'error' = 'ready';
  /** Why the list could not be read. */
  @property({ attribute: false }) problem: ProblemText | null = null;
  @property({ attribute: false }) damaged: readonly DamagedJob[] = [];
  /** Jobs may lie here that could not be read: then it is never said that there are none. */
  @property({ type: Boolean }) unsure = false;
  @state() private _shown = JOBS_A_STEP;

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('search')) this._shown = JOBS_A_STEP;
  }

  #say<T>(name: string, detail?: T) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #rows(): readonly HTMLElement[] {
    return [...this.renderRoot.querySelectorAll<HTMLElement>('.job')];
  }

  readonly #key = (event: KeyboardEvent) => {
    const rows = this.#rows();
    const at = rows.indexOf(event.target as HTMLElement);
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: rows.length - 1 }[event.key];
    if (at < 0 || to === undefined) return;
    event.preventDefault();
    rows[Math.min(Math.max(to, 0), rows.length - 1)]?.focus();
  };

  async #more() {
    const first = this._shown;
    this._shown += JOBS_A_STEP;
    await this.updateComplete;
    this.#rows()[first]?.focus();
  }

  #chosen(input: HTMLInputElement) {
    const files = [...(input.files ?? [])];
    input.value = '';
    if (files.length > 0) this.#say<FilesChosen>('file-import', { files });
  }

  #job({ id, complaint, state, decision, scenarioId, updatedAt, ...job }: JobRow) {
    const engine = [job.engineFamily, job.serialNumber].filter(Boolean).join(', ');
    const bench =
      scenarioId === null ? '' : scenarioId.startsWith('training:') ? 'practice case' : 'on the bench';
    return html`<li>
      <a class="job" href=${this.hrefOf(id)}>
        <span class="who"
          ><strong>${job.unitNumber || job.vin || job.customer || 'no unit number'}</strong
          ><span class="label">${[engine, bench].filter(Boolean).join(' · ')}</span></span
        >
        <span class="complaint">${complaint || html`<span class="label">no complaint typed</span>`}</span>
        <span class="standing"
          >${findingPlate(JOB_LOOK[state])}${decision === null ? nothing : html`<span>${DECISION_FORMS[decision].title}</span>`}</span
        >
        <span class="when label number">${DAY_AND_TIME.format(new Date(updatedAt))}</span>
      </a>
    </li>`;
  }

  #bar() {
    return html`<div class="bar">
      <div class="field">
        <label class="label" for="search">Search by unit, serial number, complaint, customer or code</label>
        <input
          id="search"
          type="search"
          autocomplete="off"
          .value=${this.search}
          @input=${(event: Event) => this.#say<JobSearch>('search-changed', { text: (event.target as HTMLInputElement).value })}
        />
      </div>
      ${this.#ways()}
    </div>`;
  }

  #ways() {
    return html`<div class="ways">
      <button class="primary" @click=${() => this.#say('job-new')}>
        <m-icon shape="plus"></m-icon>New job
      </button>
      <button @click=${() => this.#say('job-bench')}>
        <m-icon shape="bench"></m-icon>Try it on the bench
      </button>
      ${this.#import()}
    </div>`;
  }

  #import() {
    return html`<button @click=${() => this.renderRoot.querySelector<HTMLInputElement>('#file')?.click()}>
        <m-icon shape="file"></m-icon>Open a job file
      </button>
      <input
        id="file"
        type="file"
        accept=".gz,.job"
        multiple
        hidden
        aria-label="Job files"
        @change=${(event: Event) => this.#chosen(event.target as HTMLInputElement)}
      />`;
  }

  #empty() {
    return html`<m-empty
      drawing="log"
      heading="No jobs yet"
      text="A job is one vehicle’s visit: the complaint, the engine, the checks in order, what was replaced, and the decision. It is kept in this browser. The bench is a good place for a first one: its engine and its limits are invented."
    >
      ${this.#ways()}
    </m-empty>`;
  }

  #damaged() {
    if (this.damaged.length === 0) return nothing;
    return html`<section aria-labelledby="damaged">
      <h3 id="damaged">Could not be read</h3>
      ${this.damaged.map(
        ({ name, problem }) =>
          html`<p class="label">${name}</p>
            <m-problem tone="error" .problem=${problem}></m-problem>`,
      )}
    </section>`;
  }

  #found() {
    const { jobs, _shown: shown } = this;
    if (jobs.length === 0) {
      return html`<p class="panel nothing">
        Nothing found for “${this.search}” in ${this.total} ${this.total === 1 ? 'job' : 'jobs'}. Type less of
        it, or a part of the serial number.
      </p>`;
    }
    return html`<ul class="panel" aria-label="Jobs" @keydown=${this.#key}>
        ${jobs.slice(0, shown).map((job) => this.#job(job))}
      </ul>
      ${
        jobs.length > shown
          ? html`<button class="more" @click=${() => void this.#more()}>
              Show ${Math.min(JOBS_A_STEP, jobs.length - shown)} more
            </button>`
          : nothing
      }`;
  }

  #ready() {
    if (this.total === 0 && this.search === '')
      return this.unsure || this.damaged.length > 0 ? this.#ways() : this.#empty();
    const { jobs, total } = this;
    const shown = Math.min(this._shown, jobs.length);
    return html`${this.#bar()}
      <p class="label" role="status">
        ${jobs.length === total ? `${total} ${total === 1 ? 'job' : 'jobs'}` : `${jobs.length} of ${total} jobs`}${shown < jobs.length ? `, ${shown} shown` : ''}
      </p>
      ${this.#found()}`;
  }

  override render() {
    const { state, problem } = this;
    if (state === 'loading') return html`<m-progress label="Reading the jobs"></m-progress>`;
    return html`<div class="all">
      ${state === 'error' ? html`<m-problem tone="error" .problem=${problem}></m-problem>` : this.#ready()}
      ${this.#damaged()}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-job-list': JobList;
  }
  interface HTMLElementEventMap {
    'job-new': CustomEvent<void>;
    'job-bench': CustomEvent<void>;
    'file-import': CustomEvent<FilesChosen>;
    'search-changed': CustomEvent<JobSearch>;
  }
}
