import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { runValues, volumeMl } from '../../jobs/run-entries.ts';
import type { StoredRun } from '../../jobs/run.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/empty-state.ts';
import '../../ui/progress-note.ts';
import '../../ui/shape-icon.ts';
import { VERDICT_MEANING } from '../../ui/verdict-panel.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';

/** `run-list`: the kept runs, newest first. `runs` null while they are being read. */
@customElement('run-list')
export class RunList extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      ul {
        display: grid;
        gap: var(--m-space-2);
      }
      a {
        display: grid;
        grid-template-columns: 2rem minmax(9rem, 1fr) minmax(11rem, 1.4fr) auto;
        gap: var(--m-space-1) var(--m-space-4);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
        color: var(--m-ink);
        text-decoration: none;
      }
      a:hover {
        border-color: var(--m-accent);
      }
      .word {
        font-weight: 700;
      }
      @media (max-width: 40rem) {
        a {
          grid-template-columns: 2rem 1fr;
        }
        a > :nth-child(n + 3) {
          grid-column: 2;
        }
      }
    `,
  ];

  @property({ attribute: false }) runs: readonly StoredRun[] | null = null;

  override render() {
    return html`<section class="stack" aria-labelledby="kept">
      <h2 id="kept">Runs kept in this browser</h2>
      ${this.#content()}
    </section>`;
  }

  #content() {
    if (this.runs === null) return html`<m-progress label="Reading the kept runs"></m-progress>`;
    if (this.runs.length === 0)
      return html`<m-empty
        drawing="vessel"
        heading="No run yet"
        text="Every run you make is kept here with all that was received, what you typed and its verdict. The bench is a good place to make the first."
      ></m-empty>`;
    return html`<ul>
      ${this.runs.map((run) => html`<li>${row(run)}</li>`)}
    </ul>`;
  }
}

function row(run: StoredRun) {
  const { verdict, measurementSummary: measured } = run;
  const volume = volumeMl(runValues(run.vessel, run.entries));
  const look = verdict ? VERDICT_MEANING[verdict.word] : null;
  const facts = [
    typeof measured?.averageSpeedRpm === 'number' ? `${measured.averageSpeedRpm.toFixed(1)} rpm` : null,
    volume !== null ? `${volume} mL` : null,
    measured ? `${measured.crankSeconds.toFixed(1)} s` : null,
  ].filter((fact) => fact !== null);
  return html`<a href=${routeHash({ page: 'run', runId: run.id })}>
    <m-icon shape=${look ?? 'info'}></m-icon>
    <span class="word">${verdict?.word ?? 'not graded yet'}</span>
    <span class="number">${facts.join(' · ') || 'nothing measured yet'}</span>
    <span class="quiet">${run.source.device} · ${localTime(run.createdAt)}</span>
  </a>`;
}

const localTime = (iso: string) =>
  new Date(iso).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

declare global {
  interface HTMLElementTagNameMap {
    'run-list': RunList;
  }
}
