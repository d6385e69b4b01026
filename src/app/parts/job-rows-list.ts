import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { JobSummary } from '../../jobs/job-summary.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { JOB_LOOK } from '../../ui/finding-look.ts';
import '../../ui/shape-icon.ts';
import { dayAndTime } from '../job-rows.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';

/** Rows drawn at once: a list of ten thousand stays quick, and the search finds the rest. */
const SHOWN_AT_ONCE = 100;

/** `job-rows-list`: jobs as rows, newest first, the first hundred at once. */
@customElement('job-rows-list')
export class JobRowsList extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      ul {
        display: grid;
        gap: var(--m-space-2);
      }
      a {
        display: grid;
        grid-template-columns: 2rem minmax(8rem, 1fr) minmax(12rem, 2fr) auto;
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

  @property({ attribute: false }) jobs: readonly JobSummary[] = [];
  @state() private most = SHOWN_AT_ONCE;

  override render() {
    const left = this.jobs.length - this.most;
    return html`<ul>
        ${this.jobs.slice(0, this.most).map((job) => html`<li>${row(job)}</li>`)}
      </ul>
      ${
        left > 0
          ? html`<p>
              <button @click=${() => (this.most += SHOWN_AT_ONCE)}>
                Show ${Math.min(left, SHOWN_AT_ONCE)} more of ${left}
              </button>
            </p>`
          : nothing
      }`;
  }
}

function row(job: JobSummary) {
  const look = JOB_LOOK[job.state];
  const engine = [job.engineFamily, job.serialNumber].filter(Boolean).join(' · ');
  return html`<a href=${routeHash({ page: 'job', jobId: job.id })}>
    <m-icon shape=${look.shape}></m-icon>
    <span class="word">${job.unitNumber || job.vin || job.customer || 'No unit number'}</span>
    <span>${job.complaint || 'No complaint noted yet'}<br /><span class="quiet">${engine}</span></span>
    <span class="quiet"
      >${look.words}${job.decision ? html` · ${job.decision}` : nothing} · ${dayAndTime(job.updatedAt)}</span
    >
  </a>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'job-rows-list': JobRowsList;
  }
}
