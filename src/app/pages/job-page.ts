import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Subscription } from 'rxjs';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { checkOf } from '../../procedures/library.ts';
import { baseStyles, buttonStyles, panelStyles } from '../../ui/base-styles.ts';
import '../../ui/check-order.ts';
import '../../ui/fuel-path.ts';
import '../../ui/job-sheet.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/what-next.ts';
import { JobDesk, type JobDeskState, type JobEntryWanted } from '../job-desk.ts';
import { nextStepView } from '../job-evidence.ts';
import { jobDoubts } from '../job-field-mistakes.ts';
import { checkRows, dayAndTime } from '../job-rows.ts';
import { jobSheetOf } from '../job-sheet-of.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/job-conclusion.ts';
import '../parts/job-history.ts';
import '../parts/job-identity.ts';
import '../parts/job-notes.ts';
import '../parts/job-work.ts';
import '../parts/training-banner.ts';
import '../parts/photo-strip.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';
import { benchOfJob, runOfJob, sheetOfJob } from '../start-check.ts';

/** `job-page`: one vehicle's visit, from the complaint to the signed conclusion. */
@customElement('job-page')
export class JobPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    panelStyles,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: start;
        justify-content: space-between;
      }
      .paper {
        display: none;
      }
      @media print {
        .screen {
          display: none;
        }
        .paper {
          display: block;
        }
      }
      .complaint {
        max-width: var(--m-measure);
        font-size: var(--m-text-l);
        line-height: 1.35;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property() jobId = '';
  @state() private desk: JobDesk | null = null;
  @state() private shown: JobDeskState | null = null;
  @state() private missing: Problem | null = null;
  #watching: Subscription | null = null;

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('jobId')) void this.#open(this.jobId);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leave();
  }

  async #open(jobId: string): Promise<void> {
    this.#leave();
    this.missing = null;
    const loaded = await this.services.jobs.withRuns(jobId);
    if (jobId !== this.jobId || !this.isConnected) return;
    if (!loaded.ok) return void (this.missing = loaded.problem);
    const { job, runs } = loaded.value;
    const desk = new JobDesk(this.services, job, runs.items);
    this.desk = desk;
    this.#watching = desk.state$.subscribe((shown) => (this.shown = shown));
    if (runs.damaged[0]) desk.tellProblem(runs.damaged[0].problem);
  }

  #leave(): void {
    this.#watching?.unsubscribe();
    this.desk?.close();
    this.desk = null;
    this.shown = null;
  }

  override render() {
    if (this.missing)
      return html`<div class="column">
        <m-problem tone="error" .problem=${describeProblem(this.missing)}
          ><a href=${routeHash({ page: 'jobs' })}>Go to the jobs</a></m-problem
        >
      </div>`;
    const { shown, desk } = this;
    if (!shown || !desk)
      return html`<div class="column"><m-progress label="Opening the job"></m-progress></div>`;
    return html`<m-job-sheet class="paper" .view=${jobSheetOf(shown.view)}
        >${this.#paperPhotos(shown)}</m-job-sheet
      >
      <div class="column screen" @job-entry=${this.#entryWanted}>
        <training-banner .view=${shown.view} .services=${this.services}></training-banner>
        ${this.#head(shown)}
        ${
          shown.problem
            ? html`<m-problem tone="error" .problem=${describeProblem(shown.problem)}></m-problem>`
            : nothing
        }
        ${jobDoubts(shown.view.job, this.services.nowIso()).map(
          (doubt) => html`<m-problem tone="warn" .problem=${describeProblem(doubt)}></m-problem>`,
        )}
        ${this.#evidence(shown)} ${this.#checks(shown)}
        <job-work .view=${shown.view} .services=${this.services}></job-work>
        <job-notes .view=${shown.view} .services=${this.services}></job-notes>
        <job-identity .view=${shown.view} .services=${this.services}></job-identity>
        <job-history .view=${shown.view} .services=${this.services}></job-history>
        <job-conclusion .view=${shown.view} .services=${this.services}></job-conclusion>
      </div>`;
  }

  /** The photographs of the notes, each in the place that the page keeps for it. */
  #paperPhotos({ view }: JobDeskState) {
    return view.values.notes.map(({ photoIds }, at) =>
      photoIds.length === 0
        ? nothing
        : html`<photo-strip
            slot="note-${at}"
            .photos=${this.services.photos}
            .ids=${photoIds}
            label="Photograph of the note"
          ></photo-strip>`,
    );
  }

  #head({ view: { job, values } }: JobDeskState) {
    const of = (field: Parameters<typeof values.fields.get>[0]) => values.fields.get(field)?.value ?? '';
    const unit = of('unitNumber') || of('vin') || 'New job';
    const engine = [of('engineFamily'), of('serialNumber')].filter(Boolean).join(' · ');
    return html`<div class="head">
      <div class="stack">
        <h1>${unit}</h1>
        <p class="complaint">${of('complaint') || 'No complaint noted yet.'}</p>
        <p class="quiet">
          ${engine ? html`${engine} · ` : nothing}${values.state}, revision ${values.revision} · begun
          ${dayAndTime(job.createdAt)}${
            job.scenarioId === null ? nothing : html` · on the bench, invented engine and numbers`
          }
        </p>
      </div>
      <div class="row screen-only">
        <button @click=${() => print()}>Print the page</button>
        <button @click=${() => void this.#saveFile()}>Save as a file</button>
      </div>
    </div>`;
  }

  #evidence({ view }: JobDeskState) {
    return html`<m-fuel-path .stations=${view.path} words=${view.stretch}></m-fuel-path> ${
        view.values.state === 'signed'
          ? nothing
          : html`<m-what-next
              class="screen-only"
              .next=${nextStepView(view)}
              defers-to=${view.job.procedure.defersTo}
              @next-step=${this.#takeStep}
            ></m-what-next>`
      }`;
  }

  #checks({ view }: JobDeskState) {
    return html`<section class="stack" aria-labelledby="checks">
      <h2 id="checks">Checks</h2>
      <m-check-order
        .checks=${checkRows(view)}
        next-id=${view.values.state === 'signed' ? '' : (view.next.checkId ?? '')}
        ?fixed=${view.values.state === 'signed'}
        @check-start=${(event: HTMLElementEventMap['check-start']) => void this.#start(event.detail.checkId)}
        @check-skip=${this.#skip}
        @check-unskip=${this.#unskip}
        @run-open=${(event: HTMLElementEventMap['run-open']) =>
          this.services.go({ page: 'run', runId: event.detail.runId })}
        @run-left-out=${this.#leaveOut}
      ></m-check-order>
    </section>`;
  }

  /** The whole job as one file: the browser keeps it where downloads go. */
  async #saveFile(): Promise<void> {
    const packed = await this.services.jobFiles.pack(this.jobId);
    if (!packed.ok) return this.desk?.tellProblem(packed.problem);
    if (packed.value.missing[0]) this.desk?.tellProblem(packed.value.missing[0]);
    const unit = this.desk?.view.values.fields.get('unitNumber')?.value ?? '';
    const name = `${unit.replace(/[^\p{L}\p{N}]+/gu, '-') || 'job'}-${this.services.nowIso().slice(0, 10)}.meniscus.gz`;
    const url = URL.createObjectURL(packed.value.blob);
    const link = Object.assign(document.createElement('a'), { href: url, download: name });
    link.click();
    URL.revokeObjectURL(url);
  }

  readonly #takeStep = () => {
    const next = this.desk?.view.next;
    if (!next) return;
    if (next.checkId !== null) void this.#start(next.checkId);
    else if (next.step === 'repair') void this.renderRoot.querySelector('job-work')?.begin();
    else this.renderRoot.querySelector('job-conclusion')?.begin();
  };

  /** Opens the run of the check that is not graded yet, or begins one. */
  async #start(checkId: string): Promise<void> {
    const { services, desk } = this;
    const guide = desk && checkOf(desk.job.procedure, checkId);
    if (!desk || !guide) return;
    const { view } = desk;
    const begun = view.runs.find(
      (run) => run.check === checkId && run.verdict === null && !view.values.leftOutRuns.has(run.id),
    );
    if (begun) return services.go({ page: 'run', runId: begun.id });
    const { sheets } = await services.sheets.list();
    const createdAt = services.nowIso();
    const { sheet } = sheetOfJob(view, { check: checkId, onDate: createdAt.slice(0, 10) }, sheets);
    const run = runOfJob(view, guide, { id: services.newId(), createdAt, sheet });
    const bench = benchOfJob(view, services.newSeed());
    if (bench) services.pending.set(run.id, bench);
    const kept = await services.runs.put(run);
    if (!kept.ok) return desk.tellProblem(kept.problem);
    services.news.tell({ kind: 'run', id: run.id, jobId: run.jobId });
    services.go({ page: 'run', runId: run.id });
  }

  readonly #skip = ({ detail: { checkId, reason } }: HTMLElementEventMap['check-skip']) =>
    this.#enter({ kind: 'skip', checkId, skipped: true, reason });

  readonly #unskip = ({ detail: { checkId } }: HTMLElementEventMap['check-unskip']) =>
    this.#enter({ kind: 'skip', checkId, skipped: false, reason: '' });

  readonly #leaveOut = ({ detail }: HTMLElementEventMap['run-left-out']) =>
    this.#enter({ kind: 'run-left-out', ...detail });

  readonly #entryWanted = (event: HTMLElementEventMap['job-entry']) => this.#enter(...event.detail);

  #enter(...entries: readonly JobEntryWanted[]): void {
    void this.desk?.enter(...entries);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'job-page': JobPage;
  }
  interface HTMLElementEventMap {
    'job-entry': CustomEvent<readonly JobEntryWanted[]>;
  }
}
