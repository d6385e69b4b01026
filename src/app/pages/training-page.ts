import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import type { CaseSet } from '../../training/case-set.ts';
import type { TrainingResult } from '../../training/training-result.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/empty-state.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/shape-icon.ts';
import { dayAndTime } from '../job-rows.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/training-class.ts';
import '../parts/training-outcome.ts';
import '../parts/training-sets.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';
import { caseRows, endedCase, type CaseRow, type EndedCase } from '../training-desk.ts';
import { MATCH_WORDS } from '../training-words.ts';

/** `training-page`: cases to practise on, those begun and ended, and the results of a class; with a job's id, how that case ended. */
@customElement('training-page')
export class TrainingPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .lead {
        max-width: var(--m-measure);
      }
      a.case {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        gap: var(--m-space-1) var(--m-space-3);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
        color: var(--m-ink);
        text-decoration: none;
      }
      a.case:hover {
        border-color: var(--m-accent);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  /** The case whose end is shown; empty for the list. */
  @property() jobId = '';
  @state() private sets: readonly CaseSet[] = [];
  @state() private rows: readonly CaseRow[] | null = null;
  @state() private results: readonly TrainingResult[] = [];
  @state() private ended: EndedCase | null = null;
  @state() private problems: readonly Problem[] = [];

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('jobId') || changed.has('services')) void this.#load();
  }

  async #load(): Promise<void> {
    const { services, jobId } = this;
    this.ended = null;
    if (jobId !== '') return this.#loadEnd(jobId);
    const [sets, summaries, results] = await Promise.all([
      services.training.sets(),
      services.jobs.summaries(),
      services.training.results(),
    ]);
    this.sets = sets.ok ? sets.value.sets : [];
    this.results = results.ok ? results.value.items : [];
    this.rows = summaries.ok ? caseRows(summaries.value.items, this.results) : [];
    this.problems = [
      ...(sets.ok ? sets.value.damaged : [sets.problem]),
      ...(results.ok ? results.value.damaged.map(({ problem }) => problem) : [results.problem]),
      ...(summaries.ok ? [] : [summaries.problem]),
    ];
  }

  async #loadEnd(jobId: string): Promise<void> {
    const ended = await endedCase(this.services, jobId);
    if (jobId !== this.jobId) return;
    this.problems = ended.ok ? [] : [ended.problem];
    // What is not over is worked on: nothing of it is told here.
    if (ended.ok && ended.value === null) this.services.go({ page: 'job', jobId });
    if (ended.ok) this.ended = ended.value;
  }

  override render() {
    const troubles = this.problems.map(
      (each) => html`<m-problem tone="error" .problem=${describeProblem(each)}></m-problem>`,
    );
    if (this.jobId !== '')
      return html`<div class="column">
        ${troubles}${
          this.ended
            ? html`<training-outcome .ended=${this.ended}></training-outcome>`
            : troubles.length > 0
              ? html`<p><a href=${routeHash({ page: 'training' })}>All cases</a></p>`
              : html`<m-progress label="Reckoning the case"></m-progress>`
        }
      </div>`;
    return html`<div
      class="column"
      @sets-changed=${() => void this.#load()}
      @results-changed=${() => void this.#load()}
    >
      <div class="stack">
        <h1>Training</h1>
        <p class="lead quiet">
          An engine with a hidden defect, a complaint, and the whole job with the real screens. At the end you
          see what was wrong, the way you went, and the shortest.
          <a href=${routeHash({ page: 'model' })}>How the bench works</a>
        </p>
      </div>
      ${troubles}
      <training-sets .services=${this.services} .sets=${this.sets}></training-sets>
      ${this.#cases()}
      <training-class .services=${this.services} .results=${this.results}></training-class>
    </div>`;
  }

  #cases() {
    if (this.rows === null) return html`<m-progress label="Reading the cases"></m-progress>`;
    if (this.rows.length === 0)
      return html`<m-empty
        drawing="bench"
        heading="No case yet"
        text="Begin one above: read the complaint, go check by check from the tank on, put in what the evidence names, prove it, and conclude. The truth is shown when you ask for it, then the case is over."
      ></m-empty>`;
    return html`<section class="stack" aria-labelledby="cases">
      <h2 id="cases">Cases</h2>
      <ul class="stack">
        ${this.rows.map((row) => html`<li>${this.#case(row)}</li>`)}
      </ul>
    </section>`;
  }

  #case({ summary, setId, seed, result }: CaseRow) {
    const { id, technician, unitNumber, complaint, state, updatedAt } = summary;
    const title = this.sets.find((set) => set.id === setId)?.title ?? setId;
    const where = result
      ? ({ page: 'trainingCase', jobId: id } as const)
      : ({ page: 'job', jobId: id } as const);
    const standing = result
      ? `${result.ended}; cause ${MATCH_WORDS[result.cause].words}, decision ${MATCH_WORDS[result.decision].words}`
      : state === 'open'
        ? 'in progress'
        : `${state}, truth not shown yet`;
    return html`<a class="case" href=${routeHash(where)}>
      <m-icon shape=${result ? MATCH_WORDS[result.cause].shape : 'waiting'}></m-icon>
      <span
        ><strong>${technician || 'No name'}</strong> · ${title}, case ${seed} · ${unitNumber}<br />
        ${complaint ? html`<span>${complaint}</span><br />` : nothing}
        <span class="quiet">${standing} · ${dayAndTime(updatedAt)}</span></span
      >
    </a>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'training-page': TrainingPage;
  }
}
