import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { findScenario } from '../../../simulators/scenarios.ts';
import { searchJobs, searchRows, type SearchRow } from '../../jobs/job-search.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from '../../ui/base-styles.ts';
import '../../ui/empty-state.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/shape-icon.ts';
import { newJob } from '../new-job.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/job-file-part.ts';
import '../parts/job-rows-list.ts';
import type { Services } from '../services.ts';

/** The engine of the demonstration job: a hidden defect, and a complaint. */
const WHOLE_JOB = 'leaking-pump';

/** `jobs-page`: the jobs kept here, and the ways to begin one. */
@customElement('jobs-page')
export class JobsPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    panelStyles,
    css`
      .lead {
        max-width: var(--m-measure);
        font-size: var(--m-text-l);
        line-height: 1.4;
        color: var(--m-quiet);
      }
      input[type='search'] {
        width: 100%;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-3);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-2);
        background: var(--m-surface);
        color: var(--m-ink);
        font: 500 var(--m-text-l) / 1.2 var(--m-font-text);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @state() private jobs: readonly SearchRow[] | null = null;
  @state() private problems: readonly Problem[] = [];
  @state() private query = '';

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#load();
  }

  async #load(): Promise<void> {
    const listing = await this.services.jobs.summaries();
    this.jobs = listing.ok ? searchRows(listing.value.items) : [];
    this.problems = listing.ok ? listing.value.damaged.map(({ problem }) => problem) : [listing.problem];
  }

  override render() {
    return html`<div class="column">
      <div class="stack">
        <h1>Jobs</h1>
        <p class="lead">
          A job goes from the complaint to the decision: what was asked, measured and concluded, for one
          vehicle.
        </p>
      </div>
      <div class="row">
        <button class="primary" @click=${() => void this.#begin(null)}>
          <m-icon shape="plus"></m-icon> New job
        </button>
        <button @click=${() => void this.#begin(WHOLE_JOB)}>
          <m-icon shape="bench"></m-icon> Try it on the bench
        </button>
        <job-file-part .services=${this.services} @jobs-changed=${() => void this.#load()}></job-file-part>
      </div>
      <p class="quiet">On the bench: ${findScenario(WHOLE_JOB)?.story ?? ''}</p>
      ${this.problems.map(
        (problem) => html`<m-problem tone="warn" .problem=${describeProblem(problem)}></m-problem>`,
      )}
      ${this.#list()}
    </div>`;
  }

  #list() {
    if (this.jobs === null) return html`<m-progress label="Reading the jobs"></m-progress>`;
    if (this.jobs.length === 0)
      return html`<m-empty
        drawing="bench"
        heading="No job yet"
        text="Begin one with the vehicle's complaint. Every check that you make in it is kept here, with its limits, its verdict and what you replaced. The bench is a good place for a first one."
      ></m-empty>`;
    const found = searchJobs(this.jobs, this.query);
    return html`<section class="stack" aria-labelledby="kept">
      <h2 id="kept">Jobs kept in this browser</h2>
      <input
        type="search"
        aria-label="Search by unit, serial number, complaint, customer or code"
        placeholder="Unit, serial number, complaint, customer, code"
        .value=${this.query}
        @input=${(event: Event) => (this.query = (event.target as HTMLInputElement).value)}
      />
      <p class="quiet" role="status">
        ${this.query.trim() === '' ? nothing : `${found.length} of ${this.jobs.length} jobs`}
      </p>
      ${
        found.length === 0
          ? html`<p>No job has all of these words. Try fewer, or a part of the serial number.</p>`
          : html`<job-rows-list .jobs=${found}></job-rows-list>`
      }
    </section>`;
  }

  async #begin(scenarioId: string | null): Promise<void> {
    const { services } = this;
    const job = newJob({
      id: services.newId(),
      createdAt: services.nowIso(),
      ...(scenarioId === null ? {} : { scenarioId }),
    });
    const kept = await services.jobs.put(job);
    if (kept.ok) services.go({ page: 'job', jobId: job.id });
    else this.problems = [kept.problem];
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'jobs-page': JobsPage;
  }
}
