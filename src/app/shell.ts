import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../problems/problem.ts';
import { baseStyles, buttonStyles } from '../ui/base-styles.ts';
import { Bound } from '../ui/bound.ts';
import '../ui/problem-note.ts';
import './pages/import-page.ts';
import './pages/job-page.ts';
import './pages/jobs-page.ts';
import './pages/model-page.ts';
import './pages/procedures-page.ts';
import './pages/run-page.ts';
import './pages/runs-page.ts';
import './pages/settings-page.ts';
import './pages/sheets-page.ts';
import './pages/source-page.ts';
import './pages/training-page.ts';
import './parts/characteristic-dialog.ts';
import { pageStyles } from './page-styles.ts';
import { parseRoute, routeHash, type Route } from './routes.ts';
import type { Services } from './services.ts';

const NAVIGATION: readonly { readonly route: Route; readonly word: string }[] = [
  { route: { page: 'jobs' }, word: 'Jobs' },
  { route: { page: 'runs' }, word: 'Runs' },
  { route: { page: 'source' }, word: 'Source' },
  { route: { page: 'sheets' }, word: 'Limit sheets' },
  { route: { page: 'procedures' }, word: 'Procedures' },
  { route: { page: 'training' }, word: 'Training' },
  { route: { page: 'settings' }, word: 'Settings' },
];

/** Pages that are reached from another one, which then stands as the place where the person is. */
const WITHIN: Partial<Record<Route['page'], Route['page']>> = {
  job: 'jobs',
  run: 'runs',
  import: 'runs',
  trainingCase: 'training',
  model: 'training',
};

/** `m-app`: the frame around every page: name, navigation, storage trouble, and the page that the address names. */
@customElement('m-app')
export class AppShell extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      header {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--m-space-2) var(--m-space-5);
        padding: var(--m-space-2) var(--m-space-4);
        border-bottom: var(--m-stroke-1) solid var(--m-line);
        background: var(--m-surface);
      }
      .name {
        display: flex;
        align-items: center;
        gap: var(--m-space-2);
        color: var(--m-ink);
        font-weight: 700;
        font-size: var(--m-text-l);
        text-decoration: none;
      }
      .name svg {
        width: 1.75rem;
        height: 1.75rem;
        fill: none;
        stroke: currentColor;
        stroke-width: 2.5;
        stroke-linecap: round;
      }
      .name .level {
        stroke: var(--m-fuel-edge);
        fill: var(--m-fuel);
      }
      nav {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-1);
      }
      nav a {
        display: inline-flex;
        align-items: center;
        min-height: var(--m-target);
        padding: 0 var(--m-space-3);
        border-bottom: var(--m-stroke-3) solid transparent;
        color: var(--m-quiet);
        font-weight: 600;
        text-decoration: none;
      }
      nav a[aria-current='page'] {
        border-bottom-color: var(--m-accent);
        color: var(--m-ink);
      }
      .trouble {
        padding: var(--m-space-3) var(--m-space-4) 0;
      }
      @media print {
        header,
        .trouble {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @state() private route: Route = parseRoute(location.hash);
  @state() private _isRunOfJob = false;
  readonly #trouble = new Bound<Problem | null>(this, () => this.services.storageProblem$, null);

  readonly #moved = () => {
    this.route = parseRoute(location.hash);
    void this.#placeRun();
    scrollTo(0, 0);
  };

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('hashchange', this.#moved);
    void this.#placeRun();
  }

  /** A run of a job belongs to the jobs: only the run itself knows. */
  async #placeRun(): Promise<void> {
    const { route } = this;
    this._isRunOfJob = false;
    if (route.page !== 'run') return;
    const run = await this.services.runs.get(route.runId);
    if (route === this.route) this._isRunOfJob = run.ok && run.value.jobId !== null;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.#moved);
  }

  override render() {
    const trouble = this.#trouble.value;
    return html`<header>
        <a class="name" href=${routeHash({ page: 'jobs' })}>${mark} Meniscus</a>
        <nav aria-label="Screens">${NAVIGATION.map(({ route, word }) => this.#link(route, word))}</nav>
      </header>
      ${
        trouble
          ? html`<div class="trouble">
              <m-problem tone="error" .problem=${describeProblem(trouble)}></m-problem>
            </div>`
          : nothing
      }
      <main>${this.#page()}</main>
      <characteristic-dialog .picks=${this.services.picks}></characteristic-dialog>`;
  }

  #link(route: Route, word: string) {
    const within = this._isRunOfJob ? 'jobs' : WITHIN[this.route.page];
    const here = route.page === this.route.page || within === route.page;
    return html`<a href=${routeHash(route)} aria-current=${here ? 'page' : nothing}>${word}</a>`;
  }

  #page() {
    const { services, route } = this;
    if (isOther(route)) return this.#otherPage(route);
    switch (route.page) {
      case 'jobs':
        return html`<jobs-page .services=${services}></jobs-page>`;
      case 'job':
        return html`<job-page .services=${services} .jobId=${route.jobId}></job-page>`;
      case 'runs':
        return html`<runs-page .services=${services}></runs-page>`;
      case 'procedures':
        return html`<procedures-page .services=${services}></procedures-page>`;
      case 'run':
        return html`<run-page .services=${services} .runId=${route.runId}></run-page>`;
      case 'import':
        return html`<import-page .services=${services}></import-page>`;
      case 'source':
        return html`<source-page .services=${services}></source-page>`;
      case 'sheets':
        return html`<sheets-page .services=${services}></sheets-page>`;
      case 'model':
        return html`<model-page></model-page>`;
      case 'settings':
        return html`<settings-page .services=${services}></settings-page>`;
    }
  }

  #otherPage(route: OtherRoute) {
    if (route.page === 'notFound')
      return html`<div class="column">
        <h1>Nothing here</h1>
        <p>The address ${route.hash} leads to no screen.</p>
        <p><a href=${routeHash({ page: 'jobs' })}>Go to the jobs</a></p>
      </div>`;
    const jobId = route.page === 'training' ? '' : route.jobId;
    return html`<training-page .services=${this.services} .jobId=${jobId}></training-page>`;
  }
}

type OtherRoute = Extract<Route, { page: 'training' | 'trainingCase' | 'notFound' }>;
const isOther = (route: Route): route is OtherRoute =>
  ['training', 'trainingCase', 'notFound'].includes(route.page);

const mark = html`<svg viewBox="0 0 32 32" aria-hidden="true">
  <path class="level" d="M9 14q7 6 14 0v10a3 3 0 0 1-3 3h-8a3 3 0 0 1-3-3z" />
  <path d="M9 4v20a3 3 0 0 0 3 3h8a3 3 0 0 0 3-3V4M19 8h4M20 11h3" />
</svg>`;

declare global {
  interface HTMLElementTagNameMap {
    'm-app': AppShell;
  }
}
