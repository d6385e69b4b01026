import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { DEMONSTRATION_SHEET } from '../../limits/demonstration-sheet.ts';
import type { Limit, LimitSheet } from '../../limits/limit-sheet.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/limit-chart.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import { drawnBoundaries } from '../chart-drawing.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';

/** `sheets-page`: the limit sheets of this browser: look at them, bring one as a JSON file, take one away. */
@customElement('sheets-page')
export class SheetsPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      dl {
        display: grid;
        grid-template-columns: max-content 1fr;
        gap: var(--m-space-1) var(--m-space-4);
      }
      dt {
        color: var(--m-quiet);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @state() private sheets: readonly LimitSheet[] | null = null;
  @state() private problems: readonly Problem[] = [];
  @query('input[type=file]') private input!: HTMLInputElement;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#load();
  }

  async #load(problems: readonly Problem[] = []): Promise<void> {
    const shelf = await this.services.sheets.list();
    this.sheets = shelf.sheets;
    this.problems = [...problems, ...shelf.problems];
  }

  override render() {
    return html`<div class="column">
      <div class="stack">
        <h1>Limit sheets</h1>
        <p class="quiet">
          The numbers that decide, with where they were read. Meniscus brings none of any maker's: bring your
          own as a JSON file. A run keeps a copy of the sheet it was graded on.
        </p>
        <div class="row">
          <button class="primary" @click=${() => this.input.click()}>Bring a sheet</button>
          <button @click=${() => save(DEMONSTRATION_SHEET)}>
            Save the demonstration sheet as an example
          </button>
        </div>
        <input
          type="file"
          hidden
          accept=".json,application/json"
          aria-label="Limit sheet file"
          @change=${this.#picked}
        />
      </div>
      ${this.problems.map(
        (problem) => html`<m-problem tone="error" .problem=${describeProblem(problem)}></m-problem>`,
      )}
      ${
        this.sheets === null
          ? html`<m-progress label="Reading the sheets"></m-progress>`
          : this.sheets.map((sheet) => this.#sheet(sheet))
      }
    </div>`;
  }

  #sheet(sheet: LimitSheet) {
    const own = sheet.id !== DEMONSTRATION_SHEET.id;
    return html`<section class="card" aria-label=${sheet.title}>
      <h2>${sheet.title}</h2>
      ${
        sheet.invented
          ? html`<p><strong>Invented numbers, for practice only. They belong to no real engine.</strong></p>`
          : nothing
      }
      <dl>
        <dt>Engine family</dt>
        <dd>${sheet.engineFamily}</dd>
        <dt>Revision</dt>
        <dd>${sheet.revision}, valid from ${sheet.validFrom}</dd>
        <dt>Read from</dt>
        <dd>${sheet.readFrom}</dd>
        <dt>Confirmed</dt>
        <dd>${sheet.confirmedOn ? `${sheet.confirmedOn} by ${sheet.confirmedBy}` : 'never'}</dd>
      </dl>
      ${sheet.limits.map(limit)}
      ${
        own
          ? html`<div class="row">
              <button class="danger" @click=${() => this.#remove(sheet.id)}>Take this sheet away</button>
            </div>`
          : nothing
      }
    </section>`;
  }

  async #remove(id: string): Promise<void> {
    const removed = await this.services.sheets.remove(id);
    await this.#load(removed.ok ? [] : [removed.problem]);
  }

  readonly #picked = async () => {
    const file = this.input.files?.[0];
    if (!file) return;
    const brought = await this.services.sheets.bring(await file.text());
    this.input.value = '';
    await this.#load(brought.ok ? [] : [brought.problem]);
  };
}

function limit(each: Limit) {
  if (each.kind === 'speed chart')
    return html`<m-limit-chart
      caption=${`${each.title}: ${each.cranks} cranks of ${each.crankSeconds} s, average ${each.speedAverage}`}
      .boundaries=${drawnBoundaries(each)}
    ></m-limit-chart>`;
  const unit = each.quantity === 'volume' ? 'mL' : 'kPa';
  const from = each.min === null ? '' : `from ${each.min} `;
  const to = each.max === null ? '' : `to ${each.max} `;
  const time = each.durationSeconds === null ? '' : ` in ${each.durationSeconds} s`;
  return html`<p><strong>${each.title}</strong>: ${from}${to}${unit}${time}</p>`;
}

function save(sheet: LimitSheet): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([JSON.stringify(sheet, null, 2)], { type: 'application/json' }));
  link.download = 'limit-sheet.json';
  link.click();
  URL.revokeObjectURL(link.href);
}

declare global {
  interface HTMLElementTagNameMap {
    'sheets-page': SheetsPage;
  }
}
