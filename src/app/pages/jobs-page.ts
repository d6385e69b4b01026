import { auditTime, filter, startWith, switchMap } from 'rxjs';
import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { findScenario } from '../../../simulators/scenarios.ts';
import { searchJobs, searchRows, type SearchRow } from '../../jobs/job-search.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import '../../ui/job-list.ts';
import type { DamagedJob } from '../../ui/job-list.ts';
import '../../ui/problem-note.ts';
import { damagedJob } from '../damaged-job.ts';
import { newJob } from '../new-job.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/job-file-part.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';

/** The engine of the demonstration job: a hidden defect, and a complaint. */
const WHOLE_JOB = 'leaking-pump';
/** What other tabs keep is read at most so often, ms. */
const NEWS_EVERY_MS = 1000;

const jobHref = (jobId: string): string => routeHash({ page: 'job', jobId });

/** `jobs-page`: the jobs kept here, and the ways to begin one. */
@customElement('jobs-page')
export class JobsPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      .lead {
        max-width: var(--m-measure);
        font-size: var(--m-text-l);
        line-height: 1.4;
        color: var(--m-quiet);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  /** Null until they are read. */
  @state() private _jobs: readonly SearchRow[] | null = null;
  @state() private _unread: Problem | null = null;
  @state() private _damaged: readonly DamagedJob[] = [];
  /** Why a job could not be begun. */
  @state() private _problem: Problem | null = null;
  @state() private _search = '';
  @state() private _files: readonly File[] = [];
  /** Told above every page. Where what is kept could not be opened, an empty list says nothing about it. */
  readonly #trouble = new Bound<Problem | null>(this, () => this.services.storageProblem$, null);

  constructor() {
    super();
    // Read at first, and again at the news of any tab.
    new Bound(
      this,
      () =>
        this.services.news.news$.pipe(
          filter(({ kind }) => kind === 'job'),
          auditTime(NEWS_EVERY_MS),
          startWith(null),
          switchMap(() => this.#load()),
        ),
      undefined,
    );
  }

  async #load(): Promise<void> {
    const listing = await this.services.jobs.summaries();
    this._unread = listing.ok ? null : listing.problem;
    if (!listing.ok) return;
    const damaged = await Promise.all(
      listing.value.damaged.map(async ({ id, problem }) => {
        const runs = await this.services.jobs.runsOf(id);
        return damagedJob(id, problem, runs.ok ? runs.value.items : []);
      }),
    );
    // At once: without its damaged jobs an empty list would say for a moment that there are none.
    this._damaged = damaged;
    this._jobs = searchRows(listing.value.items);
  }

  override render() {
    const { _jobs: jobs, _problem: problem, _unread: unread } = this;
    return html`<div class="column">
      <div class="stack">
        <h1>Jobs</h1>
        <p class="lead">
          A job goes from the complaint to the decision: what was asked, measured and concluded, for one
          vehicle.
        </p>
      </div>
      ${problem ? html`<m-problem tone="error" .problem=${describeProblem(problem)}></m-problem>` : nothing}
      <job-file-part
        .services=${this.services}
        .files=${this._files}
        @jobs-changed=${() => void this.#load()}
      ></job-file-part>
      <m-job-list
        state=${unread ? 'error' : jobs ? 'ready' : 'loading'}
        .problem=${unread && describeProblem(unread)}
        .damaged=${this._damaged}
        .jobs=${searchJobs(jobs ?? [], this._search)}
        .total=${jobs?.length ?? 0}
        ?unsure=${this.#trouble.value !== null}
        search=${this._search}
        .hrefOf=${jobHref}
        @search-changed=${({ detail }: HTMLElementEventMap['search-changed']) => (this._search = detail.text)}
        @job-new=${() => void this.#begin(null)}
        @job-bench=${() => void this.#begin(WHOLE_JOB)}
        @file-import=${({ detail }: HTMLElementEventMap['file-import']) => (this._files = detail.files)}
      ></m-job-list>
      <p class="quiet">On the bench: ${findScenario(WHOLE_JOB)?.story ?? ''}</p>
    </div>`;
  }

  async #begin(scenarioId: string | null): Promise<void> {
    const { services } = this;
    const job = newJob({
      id: services.newId(),
      createdAt: services.nowIso(),
      ...(scenarioId === null ? {} : { scenarioId }),
    });
    const kept = await services.jobs.put(job);
    if (!kept.ok) return void (this._problem = kept.problem);
    services.news.tell({ kind: 'job', id: job.id, jobId: job.id });
    services.go({ page: 'job', jobId: job.id });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'jobs-page': JobsPage;
  }
}
