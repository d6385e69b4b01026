import { BehaviorSubject, filter, type Observable, type Subscription } from 'rxjs';
import type { JobEntry } from '../jobs/job-entry.ts';
import type { StoredJob } from '../jobs/job.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { Problem } from '../problems/problem.ts';
import { viewJob, type JobView } from './job-view.ts';
import type { Services } from './services.ts';

/** A job's entry as the page wants it: the desk brings the time. */
export type JobEntryWanted = JobEntry extends infer Entry
  ? Entry extends JobEntry
    ? Omit<Entry, 'atIso'>
    : never
  : never;

export interface JobDeskState {
  readonly view: JobView;
  /** What went wrong last; null again with the next entry. */
  readonly problem: Problem | null;
}

/**
 * One job on the table: takes what the person does, keeps each entry at once by adding it to what lies in the store (so that two tabs both
 * keep theirs), and shows what follows from it. What follows lies in `viewJob`; this is its thin shell.
 */
export class JobDesk {
  readonly #services: Services;
  readonly #state: BehaviorSubject<JobDeskState>;
  readonly #following: Subscription;
  #turn: Promise<unknown> = Promise.resolve();
  readonly state$: Observable<JobDeskState>;

  constructor(services: Services, job: StoredJob, runs: readonly StoredRun[]) {
    this.#services = services;
    this.#state = new BehaviorSubject<JobDeskState>({ view: viewJob(job, runs), problem: null });
    this.state$ = this.#state.asObservable();
    this.#following = services.news.news$
      .pipe(filter(({ kind, id, jobId }) => (kind === 'job' ? id : jobId) === this.job.id))
      .subscribe(({ kind }) => void this.#follow(kind));
    void this.#takeHeard();
  }

  async #follow(kind: 'job' | 'run'): Promise<void> {
    await this.reload();
    if (kind === 'run') await this.#takeHeard();
  }

  get job(): StoredJob {
    return this.#state.value.view.job;
  }

  get view(): JobView {
    return this.#state.value.view;
  }

  close(): void {
    this.#following.unsubscribe();
  }

  /** Adds entries in order, one write after the other; the outcome is told as `problem`. True when all were kept. */
  async enter(...wanted: readonly JobEntryWanted[]): Promise<boolean> {
    const atIso = this.#services.nowIso();
    const entries = wanted.map((entry): JobEntry => ({ ...entry, atIso }) as JobEntry);
    const turn = this.#turn.then(() => this.#services.jobs.addEntries(this.job.id, entries));
    this.#turn = turn;
    const kept = await turn;
    if (kept.ok) {
      this.#show(kept.value, this.view.runs, null);
      this.#services.news.tell({ kind: 'job', id: this.job.id, jobId: this.job.id });
    } else this.#state.next({ ...this.#state.value, problem: kept.problem });
    return kept.ok;
  }

  /** Enters what the runs heard on the bus and the job does not know yet. */
  async #takeHeard(): Promise<void> {
    const before = this.job.entries.length;
    const turn = this.#turn.then(() => this.#services.jobs.enterHeard(this.job.id, this.#services.nowIso()));
    this.#turn = turn;
    const kept = await turn;
    if (!kept.ok) return this.tellProblem(kept.problem);
    if (kept.value.entries.length === before) return;
    this.#show(kept.value, this.view.runs, this.#state.value.problem);
    this.#services.news.tell({ kind: 'job', id: this.job.id, jobId: this.job.id });
  }

  /** Reads the job and its runs again: something was kept, here or in another tab. */
  async reload(): Promise<void> {
    const { id } = this.job;
    const [job, runs] = await Promise.all([this.#services.jobs.get(id), this.#services.jobs.runsOf(id)]);
    if (!job.ok) return void this.#state.next({ ...this.#state.value, problem: job.problem });
    this.#show(
      job.value,
      runs.ok ? runs.value.items : this.view.runs,
      runs.ok ? (runs.value.damaged[0]?.problem ?? null) : runs.problem,
    );
  }

  tellProblem(problem: Problem): void {
    this.#state.next({ ...this.#state.value, problem });
  }

  #show(job: StoredJob, runs: readonly StoredRun[], problem: Problem | null): void {
    this.#state.next({ view: viewJob(job, runs), problem });
  }
}
