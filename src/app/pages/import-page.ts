import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { vesselById } from '../../checks/vessels.ts';
import { DEMONSTRATION_SHEET } from '../../limits/demonstration-sheet.ts';
import { BLOCKING_NEEDS, type LogColumn, type LogPlan } from '../../logs/log-plan.ts';
import type { LogAnswers } from '../../logs/plan-import.ts';
import type { ProblemCode } from '../../problems/catalogue.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import type { Result } from '../../problems/result.ts';
import { SIGNAL_IDS, type SignalId } from '../../quantities/reading.ts';
import type { UnitId } from '../../quantities/unit.ts';
import { SIGNALS } from '../../signals/catalogue.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/empty-state.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import { newRun } from '../new-run.ts';
import { openFile, planNumbers, type OpenedFile } from '../open-file.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/drop-field.ts';
import type { DropField } from '../parts/drop-field.ts';
import { describePlan, NEED_WORDS } from '../import-words.ts';
import { importStyles } from './import-styles.ts';
import type { Services } from '../services.ts';

/** Signals that a column may be, in the order in which they matter here. */
const OFFERED: readonly SignalId[] = [
  'engineSpeed',
  'railPressure',
  'commandedRailPressure',
  'supplyPressure',
  'batteryVoltage',
  'fuelTemperature',
  'coolantTemperature',
];
const UNITS: Readonly<Record<string, readonly UnitId[]>> = {
  speed: ['rpm'],
  pressure: ['psi', 'bar', 'kPa', 'MPa', 'Pa', 'inHg', 'mmHg'],
  voltage: ['V', 'mV'],
  temperature: ['degC', 'degF'],
};

/** `import-page`: how a dropped file will be read, for the person to confirm or put right, before a run is made of it. */
@customElement('import-page')
export class ImportPage extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles, importStyles];

  @property({ attribute: false }) services!: Services;
  @state() private opened: Result<OpenedFile> | null = null;
  @state() private answers: LogAnswers = {};
  @state() private intervalText = '';

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#open();
  }

  async #open(): Promise<void> {
    const { file } = this.services.dropped;
    if (!file) return;
    this.opened = null;
    this.answers = {};
    const opened = await openFile(file);
    this.opened = opened;
    if (opened.ok && opened.value.kind === 'frames') await this.#startRun(opened.value, null);
  }

  override render() {
    return html`<drop-field @file-dropped=${this.#fileDropped}>
      <div class="column">${this.#content()}</div>
    </drop-field>`;
  }

  #content() {
    const { file } = this.services.dropped;
    if (!file)
      return html`<m-empty
        drawing="log"
        heading="No log opened"
        text="Drop a file here: a candump log, or a CSV with engine speed over time. Meniscus shows how it reads it before it uses it."
        ><button class="primary" @click=${this.#pick}>Choose a file</button></m-empty
      >`;
    if (this.opened === null) return html`<m-progress label="Reading ${file.name}"></m-progress>`;
    if (!this.opened.ok) return this.#failed(file.name, this.opened.problem);
    return this.opened.value.kind === 'numbers'
      ? this.#confirm(file.name, this.opened.value.plan)
      : html`<m-progress label="Reading ${file.name}"></m-progress>`;
  }

  #failed(name: string, problem: Problem) {
    return html`<h1>${name} cannot be used</h1>
      <m-problem tone="error" .problem=${describeProblem(problem)}>
        <button @click=${this.#pick}>Choose another file</button>
      </m-problem>`;
  }

  #confirm(name: string, plan: LogPlan) {
    const open = this.#openNeeds(plan);
    return html`<div class="stack">
        <h1>Is this right?</h1>
        <p class="quiet">${name}: ${describePlan(plan)}</p>
      </div>
      ${plan.notes.map(
        (note) =>
          html`<m-problem
            tone="warn"
            .problem=${describeProblem({ code: note.code as ProblemCode, context: note.context })}
          ></m-problem>`,
      )}
      ${this.#time(plan)} ${this.#columns(plan)} ${preview(plan)}
      <div class="row">
        <button class="primary" aria-disabled=${open.length > 0} @click=${() => this.#accept(plan)}>
          Use it like this
        </button>
        <button class="quiet" @click=${this.#pick}>Another file</button>
        ${open.length > 0 ? html`<p class="quiet">First: ${open.map((need) => NEED_WORDS[need]).join(', ')}.</p>` : nothing}
      </div>`;
  }

  #time({ time, columns }: LogPlan) {
    const chosen = time.source === 'column' ? String(time.column) : 'none';
    return html`<section class="card">
      <h2>Time</h2>
      <div class="row">
        <label class="field"
          >Column
          <select @change=${(event: Event) => this.#answerTime(valueOf(event))}>
            <option value="none" ?selected=${chosen === 'none'}>No time column: give the interval</option>
            ${columns.map(
              ({ index, header }) =>
                html`<option value=${index} ?selected=${chosen === String(index)}>
                  ${nameOf(header, index)}
                </option>`,
            )}
          </select>
        </label>
        ${
          time.source === 'interval'
            ? html`<label class="field"
                >Milliseconds between two rows
                <input
                  type="text"
                  inputmode="decimal"
                  .value=${this.intervalText || String(time.intervalMs ?? '')}
                  @change=${this.#answerInterval}
                />
              </label>`
            : nothing
        }
      </div>
    </section>`;
  }

  #columns({ columns, time }: LogPlan) {
    const timeColumn = time.source === 'column' ? time.column : -1;
    return html`<section class="card">
      <h2>Columns</h2>
      <ul class="columns">
        ${columns
          .filter(({ index }) => index !== timeColumn)
          .map(
            (column) =>
              html`<li class=${column.signal ? 'used' : ''}>
                <div>
                  <strong>${nameOf(column.header, column.index)}</strong>
                  <span class="quiet number">${column.samples.slice(0, 3).join(' · ') || 'no values'}</span>
                </div>
                <label class="field"
                  >is
                  <select @change=${(event: Event) => this.#answerSignal(column, valueOf(event))}>
                    <option value="" ?selected=${column.signal === null}>not used</option>
                    ${OFFERED.map(
                      (signal) =>
                        html`<option value=${signal} ?selected=${column.signal === signal}>
                          ${SIGNALS[signal].label}
                        </option>`,
                    )}
                  </select>
                </label>
                ${column.signal ? this.#unit(column, column.signal) : html`<span></span>`}
                <span class="quiet">${column.reason}</span>
              </li>`,
          )}
      </ul>
    </section>`;
  }

  #unit(column: LogColumn, signal: SignalId) {
    const units = UNITS[SIGNALS[signal].dimension] ?? [];
    return html`<label class="field"
      >in
      <select @change=${(event: Event) => this.#answerUnit(column, valueOf(event) as UnitId)}>
        ${column.unit === null ? html`<option value="" selected>?</option>` : nothing}
        ${units.map((unit) => html`<option value=${unit} ?selected=${column.unit === unit}>${unit}</option>`)}
      </select>
    </label>`;
  }

  #answerSignal(column: LogColumn, value: string): void {
    const signals: Record<string, number | null> = { ...this.answers.signals };
    for (const signal of SIGNAL_IDS) if (signals[signal] === column.index) signals[signal] = null;
    if (column.signal && column.signal !== value) signals[column.signal] = null;
    if (value) signals[value] = column.index;
    this.#answer({ signals });
  }

  #answerUnit(column: LogColumn, unit: UnitId): void {
    this.#answer({ units: { ...this.answers.units, [column.index]: unit } });
  }

  #answerTime(value: string): void {
    this.#answer({ timeColumn: value === 'none' ? null : Number(value) });
  }

  readonly #answerInterval = (event: Event) => {
    this.intervalText = (event.target as HTMLInputElement).value;
    const intervalMs = Number(this.intervalText.replace(',', '.'));
    if (Number.isFinite(intervalMs) && intervalMs > 0) this.#answer({ timeColumn: null, intervalMs });
  };

  #answer(part: LogAnswers): void {
    if (!this.opened?.ok) return;
    const answers = { ...this.answers, ...part };
    const planned = planNumbers(this.opened.value.bytes, answers);
    if (!planned.ok) return void (this.opened = planned);
    this.answers = answers;
    this.opened = planned;
  }

  #accept(plan: LogPlan): void {
    if (this.#openNeeds(plan).length > 0 || !this.opened?.ok) return;
    void this.#startRun(this.opened.value, plan);
  }

  /** What must be said before the file can be used. A check of a job may be one of a pressure alone: then speed may be missing. */
  #openNeeds(plan: LogPlan): readonly LogPlan['needs'][number][] {
    const forCheck = (this.services.dropped.runId ?? null) !== null;
    return plan.needs.filter(
      (need) => BLOCKING_NEEDS.includes(need) && !(forCheck && need === 'speedColumn'),
    );
  }

  async #startRun(opened: OpenedFile, plan: LogPlan | null): Promise<void> {
    const { services } = this;
    const name = services.dropped.file?.name ?? '';
    const wire = opened.kind === 'frames' ? opened.wire : ('readings' as const);
    const choice = { name: name.replace(/\.gz$/i, ''), bytes: opened.bytes, wire, plan };
    const pending = { kind: 'log-file', choice, givenIntervalMs: null } as const;
    const { runId } = services.dropped;
    if (runId) {
      services.pending.set(runId, pending);
      services.dropped.file = null;
      services.dropped.runId = null;
      return services.go({ page: 'run', runId });
    }
    const { sheets } = await services.sheets.list();
    const sheet = sheets.find(({ id }) => id === services.dropped.sheetId) ?? DEMONSTRATION_SHEET;
    const source = { adapter: 'log-file', device: name } as const;
    const vessel = vesselById('cylinder-500')!;
    const run = newRun({ id: services.newId(), createdAt: services.nowIso(), source, sheet, vessel });
    services.pending.set(run.id, pending);
    const kept = await services.runs.put(run);
    if (kept.ok) services.dropped.file = null; // used up: coming back here starts afresh
    if (!kept.ok) this.opened = kept;
    else services.go({ page: 'run', runId: run.id });
  }

  readonly #pick = () => this.renderRoot.querySelector<DropField>('drop-field')?.pick();

  readonly #fileDropped = (event: HTMLElementEventMap['file-dropped']) => {
    this.services.dropped.file = event.detail;
    this.requestUpdate();
    void this.#open();
  };
}

function preview({ preview: rows, columns }: LogPlan) {
  return html`<details>
    <summary>First rows as they stand in the file</summary>
    <div class="scroll" tabindex="0" role="region" aria-label="First rows">
      <table>
        <thead>
          <tr>
            <th scope="col">Line</th>
            ${columns.map(({ header, index }) => html`<th scope="col">${nameOf(header, index)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ({ line, cells }) =>
              html`<tr>
                <th scope="row">${line}</th>
                ${cells.map((cell) => html`<td>${cell}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
  </details>`;
}

const nameOf = (header: string, index: number) => header || `Column ${index + 1}`;
const valueOf = (event: Event) => (event.target as HTMLSelectElement).value;

declare global {
  interface HTMLElementTagNameMap {
    'import-page': ImportPage;
  }
}
