import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { vinCheckDigit } from '../../j1939/vin-check-digit.ts';
import type { ImportChoice } from '../../jobs/import-job.ts';
import { jobMistakes } from '../../jobs/job-mistakes.ts';
import { summaryOf } from '../../jobs/job-summary.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import type { ReadJob } from '../job-file-desk.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';

const STANDING = {
  new: 'This job is not here yet.',
  same: 'This job lies here already, exactly the same.',
  longer: 'This job lies here already; the file goes on where it ends.',
  shorter: 'This job lies here already, with more in it than the file has.',
  conflicting: 'This job lies here already, and both went on differently.',
} as const;

const CHOICES: Readonly<Record<ImportChoice, string>> = {
  bring: 'Bring it in',
  extend: 'Extend the job here by the file',
  copy: 'Keep it beside, as a copy',
};

/**
 * `job-file-part`: brings the files of jobs in, one after the other: what is in each, what looks wrong and what would change is shown first, and
 * nothing is overwritten. Event: `jobs-changed`.
 */
@customElement('job-file-part')
export class JobFilePart extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles];

  @property({ attribute: false }) services!: Services;
  /** Chosen by the person; a new list begins anew. */
  @property({ attribute: false }) files: readonly File[] = [];
  @state() private _at = 0;
  @state() private _read: ReadJob | null = null;
  @state() private _problem: Problem | null = null;
  @state() private _brought: string | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('files')) return;
    this._brought = null;
    void this.#open(0);
  }

  async #open(at: number): Promise<void> {
    const { files } = this;
    [this._at, this._read, this._problem] = [at, null, null];
    const file = files[at];
    if (!file) return;
    const read = await this.services.jobFiles.read(file);
    if (files !== this.files || at !== this._at) return; // others were chosen meanwhile
    if (read.ok) this._read = read.value;
    else this._problem = read.problem;
  }

  override render() {
    const file = this.files[this._at];
    const { _brought: brought } = this;
    return html`${
      brought === null
        ? nothing
        : html`<p role="status">
            Brought in. <a href=${routeHash({ page: 'job', jobId: brought })}>Open the job</a>
          </p>`
    }
    ${file ? this.#shown(file) : nothing}`;
  }

  #shown(file: File) {
    const { _read: read, _problem: problem } = this;
    const count = this.files.length > 1 ? ` (${this._at + 1} of ${this.files.length})` : '';
    if (!read && !problem)
      return html`<m-progress label="Reading the job file ${file.name}${count}"></m-progress>`;
    return html`<section class="card" aria-labelledby="file">
      <h2 id="file">${file.name}${count}</h2>
      ${
        read
          ? this.#preview(read)
          : html`<m-problem tone="error" .problem=${describeProblem(problem!)}></m-problem>`
      }
      <div class="row">
        ${(read?.weighed.choices ?? []).map(
          (choice) => html`<button @click=${() => void this.#bring(choice)}>${CHOICES[choice]}</button>`,
        )}
        <button class="quiet" @click=${() => void this.#open(this._at + 1)}>Leave it</button>
      </div>
    </section>`;
  }

  #preview({ contents, weighed: { standing, differences, refused } }: ReadJob) {
    const { job, runs, photos } = contents;
    const { unitNumber, vin, complaint, serialNumber } = summaryOf(job);
    const mistakes = jobMistakes(job, { nowIso: this.services.nowIso(), vinCheckDigit });
    const counts = [`${runs.length} runs`, `${photos.length} photographs`].join(', ');
    return html`<p>
        <strong>${unitNumber || vin || 'No unit number'}</strong
        >${serialNumber ? `, engine ${serialNumber}` : ''}: ${complaint || 'no complaint typed'}
        <span class="quiet">${counts}</span>
      </p>
      <p><strong>${STANDING[standing]}</strong></p>
      ${refused ? html`<m-problem tone="error" .problem=${describeProblem(refused)}></m-problem>` : nothing}
      ${mistakes.map((each) => html`<m-problem tone="warn" .problem=${describeProblem(each)}></m-problem>`)}
      ${
        differences.length > 0
          ? html`<ul class="stack">
              ${differences.map((each) => html`<li>${each}</li>`)}
            </ul>`
          : nothing
      }`;
  }

  async #bring(choice: ImportChoice): Promise<void> {
    if (!this._read) return;
    const brought = await this.services.jobFiles.bring(this._read.contents, choice);
    if (!brought.ok) return void ([this._read, this._problem] = [null, brought.problem]);
    this._brought = brought.value.id;
    const { id } = brought.value;
    this.services.news.tell({ kind: 'job', id, jobId: id });
    this.dispatchEvent(new CustomEvent('jobs-changed', { bubbles: true, composed: true }));
    await this.#open(this._at + 1);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'job-file-part': JobFilePart;
  }
  interface HTMLElementEventMap {
    'jobs-changed': CustomEvent<void>;
  }
}
