import { css, html, LitElement } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { SCENARIOS } from '../../../simulators/scenarios.ts';
import { vesselById } from '../../checks/vessels.ts';
import type { StoredRun } from '../../jobs/run.ts';
import { DEMONSTRATION_SHEET } from '../../limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { revisionsInForce } from '../../limits/revisions.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from '../../ui/base-styles.ts';
import '../../ui/empty-state.ts';
import '../../ui/problem-note.ts';
import '../../ui/shape-icon.ts';
import { newRun } from '../new-run.ts';
import { pageStyles } from '../page-styles.ts';
import type { PendingSource, Services } from '../services.ts';
import '../../ui/typed-cranks.ts';
import { typedCranks } from '../../../adapters/typed.ts';
import '../parts/connect-panel.ts';
import '../parts/drop-field.ts';
import type { DropField } from '../parts/drop-field.ts';
import '../parts/run-list.ts';

/** `runs-page`: a crank delivery on its own: the three ways to start one, and all runs that were kept. */
@customElement('runs-page')
export class RunsPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    panelStyles,
    css`
      .ways {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr));
      }
      .way {
        grid-template-rows: auto 1fr auto;
      }
      .way h2 {
        display: flex;
        gap: var(--m-space-2);
        align-items: center;
      }
      .lead {
        max-width: var(--m-measure);
        font-size: var(--m-text-l);
        line-height: 1.4;
        color: var(--m-quiet);
      }
      .bench {
        border-color: var(--m-accent);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @state() private runs: readonly StoredRun[] | null = null;
  @state() private problems: readonly Problem[] = [];
  @state() private sheets: readonly LimitSheet[] = [DEMONSTRATION_SHEET];
  @state() private sheetId = DEMONSTRATION_SHEET.id;
  @state() private scenarioId: string = SCENARIOS[0]!.id;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#load();
  }

  async #load(): Promise<void> {
    const [listing, shelf] = await Promise.all([this.services.runs.list(), this.services.sheets.list()]);
    this.sheets = sheetsInForce(shelf.sheets, this.services.nowIso().slice(0, 10));
    this.runs = listing.ok ? listing.value.items : [];
    this.problems = [
      ...shelf.problems,
      ...(listing.ok ? listing.value.damaged.map(({ problem }) => problem) : [listing.problem]),
    ];
  }

  override render() {
    return html`<drop-field @file-dropped=${this.#fileDropped}>
      <div class="column">
        <div class="stack">
          <h1>Crank delivery</h1>
          <p class="lead">
            One test on its own, outside a job: crank the engine into a vessel. Meniscus finds the cranks,
            averages the speed, and grades what you collected.
          </p>
        </div>
        ${this.problems.map(
          (problem) => html`<m-problem tone="warn" .problem=${describeProblem(problem)}></m-problem>`,
        )}
        <div class="ways">${this.#benchCard()} ${this.#liveCard()} ${this.#fileCard()}</div>
        ${this.#sheetChoice()}
        <run-list .runs=${this.runs}></run-list>
      </div>
    </drop-field>`;
  }

  #benchCard() {
    const story = SCENARIOS.find(({ id }) => id === this.scenarioId)?.story;
    return html`<section class="card way bench" aria-labelledby="bench">
      <h2 id="bench">Try it on the bench</h2>
      <div class="stack">
        <p class="quiet">
          A simulated engine behind a simulated bridge. Nothing to connect, nothing to break.
        </p>
        <label class="field"
          >Engine on the bench
          <select @change=${(event: Event) => (this.scenarioId = valueOf(event))}>
            ${SCENARIOS.map(
              ({ id, title }) =>
                html`<option value=${id} ?selected=${id === this.scenarioId}>${title}</option>`,
            )}
          </select>
        </label>
        <p class="quiet">${story}</p>
      </div>
      <button class="primary" @click=${this.#startBench}>Start on the bench</button>
    </section>`;
  }

  #liveCard() {
    return html`<section class="card way" aria-labelledby="live">
      <h2 id="live">Connect a bridge</h2>
      <p class="quiet">
        Any generic J1939 bridge: serial speed and bit rate are found by listening. Meniscus only listens.
      </p>
      <connect-panel compact .services=${this.services} @source-chosen=${this.#sourceChosen}></connect-panel>
    </section>`;
  }

  #fileCard() {
    return html`<section class="card way" aria-labelledby="file">
      <h2 id="file">Open a log</h2>
      <p class="quiet">
        Drop a file anywhere on this page: a candump log, or a CSV of engine speed over time from any logger.
        Plain or .gz.
      </p>
      <button @click=${() => this.renderRoot.querySelector<DropField>('drop-field')?.pick()}>
        Choose a file
      </button>
      <details>
        <summary>Or type the cranks</summary>
        <m-typed-cranks @cranks-typed=${this.#cranksTyped}></m-typed-cranks>
      </details>
    </section>`;
  }

  #sheetChoice() {
    return html`<div class="row">
      <label class="field"
        >Limit sheet for the next run
        <select @change=${(event: Event) => (this.sheetId = valueOf(event))}>
          ${this.sheets.map(
            ({ id, title, revision }) =>
              html`<option value=${id} ?selected=${id === this.sheetId}>
                ${title}, revision ${revision}
              </option>`,
          )}
        </select>
      </label>
      <a href="#/sheets">Look at the sheets, or bring your own</a>
    </div>`;
  }

  readonly #startBench = () => {
    const seed = SCENARIOS.find(({ id }) => id === this.scenarioId)?.seed ?? this.services.newSeed();
    const device = 'Bench simulator';
    void this.#start(
      { adapter: 'bench', device, scenarioId: this.scenarioId },
      { kind: 'bench', scenarioId: this.scenarioId, seed },
    );
  };

  readonly #sourceChosen = (event: HTMLElementEventMap['source-chosen']) => {
    const pending = event.detail;
    const { adapter, device, key } = pending;
    void this.#start({ adapter, device, deviceKey: key }, pending);
  };

  readonly #cranksTyped = (event: HTMLElementEventMap['cranks-typed']) => {
    const events = typedCranks(event.detail.rows);
    if (!events.ok) return void (this.problems = [events.problem]);
    void this.#start({ adapter: 'typed', device: 'typed numbers' }, { kind: 'typed', events: events.value });
  };

  readonly #fileDropped = (event: HTMLElementEventMap['file-dropped']) => {
    this.services.dropped.file = event.detail;
    this.services.dropped.sheetId = this.sheetId;
    this.services.go({ page: 'import' });
  };

  async #start(source: StoredRun['source'], pending: PendingSource): Promise<void> {
    const { services } = this;
    const sheet = this.sheets.find(({ id }) => id === this.sheetId) ?? DEMONSTRATION_SHEET;
    const vessel = vesselById('cylinder-500')!;
    const run = newRun({ id: services.newId(), createdAt: services.nowIso(), source, sheet, vessel });
    services.pending.set(run.id, pending);
    const kept = await services.runs.put(run);
    if (!kept.ok) this.problems = [kept.problem];
    else services.go({ page: 'run', runId: run.id });
  }
}

/** Sheets that a run of today can begin with: their revision in force, and a limit for the check. */
const sheetsInForce = (sheets: readonly LimitSheet[], today: string): readonly LimitSheet[] =>
  revisionsInForce(sheets, today).filter(({ limits }) =>
    limits.some(({ check }) => check === 'crank-delivery'),
  );

const valueOf = (event: Event) => (event.target as HTMLSelectElement).value;

declare global {
  interface HTMLElementTagNameMap {
    'runs-page': RunsPage;
  }
}
