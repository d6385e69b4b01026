import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PastJob } from '../../jobs/engine-history.ts';
import { isTraining } from '../../training/case-id.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import { DECISION_FORMS } from '../../ui/conclusion-draft.ts';
import '../../ui/problem-note.ts';
import { dayAndTime } from '../job-rows.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { Services } from '../services.ts';

/** `job-history`: other jobs on the same engine or vehicle, last worked on first. Nothing where there is none. */
@customElement('job-history')
export class JobHistoryPart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      a {
        display: grid;
        grid-template-columns: 11rem minmax(0, 1fr) minmax(0, 1fr);
        gap: var(--m-space-1) var(--m-space-4);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) 0;
        overflow-wrap: anywhere;
      }
      @media (max-width: 40rem) {
        a {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  @state() private _past: readonly PastJob[] = [];
  @state() private _problem: Problem | null = null;
  #asked = '';

  #of(field: 'serialNumber' | 'vin'): string {
    return this.view.values.fields.get(field)?.value ?? '';
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('view')) return;
    const asked = JSON.stringify([this.view.job.id, this.#of('serialNumber'), this.#of('vin')]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    void this.#read(asked);
  }

  async #read(asked: string): Promise<void> {
    const engine = { serialNumber: this.#of('serialNumber'), vin: this.#of('vin') };
    // Another trainee's case of the same number would tell; and practice is no history of a real engine.
    const isPractice = isTraining(this.view.job.scenarioId);
    const isNamed = !isPractice && (engine.serialNumber !== '' || engine.vin !== '');
    const past = isNamed ? await this.services.jobs.historyOf(engine, this.view.job.id) : null;
    if (asked !== this.#asked) return; // another number was typed meanwhile
    this._past = past?.ok ? past.value.filter(({ summary }) => !isTraining(summary.scenarioId)) : [];
    this._problem = past && !past.ok ? past.problem : null;
  }

  override render() {
    const { _past: past, _problem: problem } = this;
    const isNamed = this.#of('serialNumber') !== '';
    if (past.length === 0 && !problem && isNamed) return nothing;
    return html`<section class="stack" aria-labelledby="history">
      <h2 id="history">Other jobs on this engine</h2>
      ${problem ? html`<m-problem tone="warn" .problem=${describeProblem(problem)}></m-problem>` : nothing}
      ${
        isNamed
          ? nothing
          : html`<p class="quiet">
              Note the engine serial number: then the jobs that were done on it before stand here.
            </p>`
      }
      ${
        past.length > 0
          ? html`<ul class="card">
              ${past.map((each) => html`<li>${row(each)}</li>`)}
            </ul>`
          : nothing
      }
    </section>`;
  }
}

function row({ summary, by, otherEngine }: PastJob) {
  const { id, updatedAt, complaint, decision, state } = summary;
  const ended = decision === null ? state : DECISION_FORMS[decision].title;
  const same = otherEngine
    ? ' · same vehicle, another engine number: changed, or mistyped'
    : by === 'VIN'
      ? ' · found by its VIN'
      : '';
  return html`<a href=${routeHash({ page: 'job', jobId: id })}>
    <span class="number">${dayAndTime(updatedAt)}</span>
    <span>${complaint || 'no complaint typed'}</span>
    <span>${ended}${same}</span>
  </a>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'job-history': JobHistoryPart;
  }
}
