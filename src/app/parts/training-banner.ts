import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { isTraining, readCaseId } from '../../training/case-id.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/shape-icon.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';
import { endCase } from '../training-desk.ts';

/** `training-banner`: marks a training job on its page, and leads to its end. Nothing on a job of a real vehicle. */
@customElement('training-banner')
export class TrainingBanner extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      section {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: center;
        justify-content: space-between;
        padding: var(--m-space-3) var(--m-space-4);
        border: var(--m-stroke-2) dashed var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-sunken);
      }
      .what {
        flex: 1 1 16rem;
      }
    `,
  ];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  @state() private ended = false;
  @state() private asking = false;
  @state() private problem: Problem | null = null;
  #asked = '';

  override willUpdate(): void {
    const { job } = this.view;
    if (!isTraining(job.scenarioId) || this.#asked === job.id) return;
    this.#asked = job.id;
    void this.#load(job.id, job.scenarioId);
  }

  async #load(jobId: string, scenarioId: string | null): Promise<void> {
    const [drawn, result] = await Promise.all([
      this.services.training.caseOf(scenarioId),
      this.services.training.resultOf(jobId),
    ]);
    this.problem = drawn.ok ? (result.ok ? null : result.problem) : drawn.problem;
    this.ended = result.ok && result.value !== null;
  }

  override render() {
    const { job, values } = this.view;
    const named = readCaseId(job.scenarioId);
    if (!named) return nothing;
    const trainee = values.fields.get('technician')?.value ?? '';
    return html`<section aria-label="Practice case">
      <p class="what">
        <strong><m-icon shape="bench"></m-icon> Practice case ${named.seed}</strong
        >${trainee ? html` · ${trainee}` : nothing}<br />
        <span class="quiet">A simulated engine with something hidden. Work it like a real one.</span>
      </p>
      ${this.problem ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>` : this.#end(values.conclusion !== null)}
    </section>`;
  }

  #end(concluded: boolean) {
    if (this.ended)
      return html`<a href=${routeHash({ page: 'trainingCase', jobId: this.view.job.id })}
        >See what was wrong</a
      >`;
    if (concluded) return html`<button class="primary" @click=${this.#finish}>Show what was wrong</button>`;
    if (!this.asking) return html`<button @click=${() => (this.asking = true)}>Give up and show</button>`;
    return html`<div class="stack" role="status">
      <p>The case ends with what was done so far. Conclude it first if you have a guess.</p>
      <div class="row">
        <button class="danger" @click=${this.#finish}>Give up</button>
        <button @click=${() => (this.asking = false)}>Go on working</button>
      </div>
    </div>`;
  }

  readonly #finish = async () => {
    const { services, view } = this;
    const ended = await endCase(services, view.job.id);
    if (ended.ok) services.go({ page: 'trainingCase', jobId: view.job.id });
    else this.problem = ended.problem;
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'training-banner': TrainingBanner;
  }
}
