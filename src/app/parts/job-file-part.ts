import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { ImportChoice } from '../../jobs/import-job.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import type { ReadJob } from '../job-file-desk.ts';
import { pageStyles } from '../page-styles.ts';
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

/** `job-file-part`: brings a job's file in: what would change is shown first, and nothing is overwritten. Event: `jobs-changed`. */
@customElement('job-file-part')
export class JobFilePart extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles];

  @property({ attribute: false }) services!: Services;
  @state() private read: ReadJob | null = null;
  @state() private problem: Problem | null = null;
  @state() private reading = false;
  @query('input') private input!: HTMLInputElement;

  override render() {
    return html`<button @click=${() => this.input.click()}>Open a job file</button>
      <input type="file" hidden aria-label="Job file" accept=".gz,.job" @change=${this.#picked} />
      ${this.reading ? html`<m-progress label="Reading the job file"></m-progress>` : nothing}
      ${
        this.problem
          ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>`
          : nothing
      }
      ${this.read ? this.#preview(this.read) : nothing}`;
  }

  #preview({ weighed: { standing, differences, choices, refused } }: ReadJob) {
    return html`<section class="card" aria-label="What the file would change">
      <p><strong>${STANDING[standing]}</strong></p>
      ${refused ? html`<m-problem tone="error" .problem=${describeProblem(refused)}></m-problem>` : nothing}
      ${
        differences.length > 0
          ? html`<ul class="stack">
              ${differences.map((each) => html`<li>${each}</li>`)}
            </ul>`
          : nothing
      }
      <div class="row">
        ${choices.map(
          (choice) => html`<button @click=${() => void this.#bring(choice)}>${CHOICES[choice]}</button>`,
        )}
        <button class="quiet" @click=${() => (this.read = null)}>Leave it</button>
      </div>
    </section>`;
  }

  readonly #picked = async () => {
    const file = this.input.files?.[0];
    this.input.value = '';
    if (!file) return;
    this.problem = null;
    this.read = null;
    this.reading = true;
    const read = await this.services.jobFiles.read(file);
    this.reading = false;
    if (read.ok) this.read = read.value;
    else this.problem = read.problem;
  };

  async #bring(choice: ImportChoice): Promise<void> {
    if (!this.read) return;
    const brought = await this.services.jobFiles.bring(this.read.contents, choice);
    this.read = null;
    if (!brought.ok) return void (this.problem = brought.problem);
    this.dispatchEvent(new CustomEvent('jobs-changed', { bubbles: true, composed: true }));
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
