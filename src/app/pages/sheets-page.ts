import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import {
  planImport,
  readExchange,
  writeExchange,
  type Exchange,
  type PlannedSheet,
} from '../../limits/exchange.ts';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { reviseSheet } from '../../limits/revise-sheet.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import type { Result } from '../../problems/result.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/sheet-import-preview.ts';
import '../../ui/sheet-list.ts';
import type { SheetWay } from '../../ui/sheet-list.ts';
import '../../ui/sheet-serial-check.ts';
import type { SerialAsked } from '../../ui/sheet-serial-check.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/sheet-confirm.ts';
import '../parts/sheet-desk.ts';
import '../parts/sheet-view.ts';
import '../parts/sheet-withdraw.ts';
import type { Services } from '../services.ts';
import type { ShelfListing } from '../sheet-shelf.ts';
import { familyViews, importViews, serialAnswers } from '../sheet-views.ts';

/** What the page is about now: the shelf, one sheet looked at, confirmed, deleted or made, or a file looked through. */
type Now =
  | { readonly kind: 'shelf' }
  | { readonly kind: 'sheet' | 'confirm' | 'withdraw'; readonly sheet: LimitSheet }
  | { readonly kind: 'desk'; readonly base: LimitSheet | null; readonly way: SheetWay }
  | {
      readonly kind: 'import';
      readonly name: string;
      readonly exchange: Exchange;
      readonly planned: readonly PlannedSheet[];
    };

/** `sheets-page`: the limit sheets of this browser: look at them, look one up, type, trace, revise, confirm, exchange. */
@customElement('sheets-page')
export class SheetsPage extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles];

  @property({ attribute: false }) services!: Services;
  @state() private shelf: ShelfListing | null = null;
  @state() private now: Now = { kind: 'shelf' };
  @state() private problems: readonly Problem[] = [];
  @state() private asked: SerialAsked | null = null;
  @query('input[type=file]') private input!: HTMLInputElement;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#load();
  }

  get #today(): string {
    return this.services.nowIso().slice(0, 10);
  }

  async #load(problems: readonly Problem[] = []): Promise<void> {
    this.shelf = await this.services.sheets.list();
    this.problems = [...problems, ...this.shelf.problems];
  }

  override render() {
    return html`<div class="column">
      <div class="stack">
        <h1>Limit sheets</h1>
        <p class="quiet">
          The numbers that decide, with where they were read. Meniscus brings none of any maker's. A run keeps
          a copy of the sheet it was graded on.
        </p>
      </div>
      ${this.problems.map(
        (problem) => html`<m-problem tone="error" .problem=${describeProblem(problem)}></m-problem>`,
      )}
      ${this.shelf ? this.#now(this.shelf) : html`<m-progress label="Reading the sheets"></m-progress>`}
    </div>`;
  }

  #now(shelf: ShelfListing) {
    const { now } = this;
    switch (now.kind) {
      case 'shelf':
        return this.#shelf(shelf);
      case 'sheet':
        return html`<div class="row"><button @click=${this.#back}>Back to the sheets</button></div>
          <sheet-view .sheet=${now.sheet}></sheet-view>`;
      case 'confirm':
        return html`<sheet-confirm
          .sheet=${now.sheet}
          last-name=${this.services.settings.value.readerName}
          @confirmation-given=${(event: HTMLElementEventMap['confirmation-given']) => this.#confirmed(now.sheet, event.detail)}
          @confirmation-left=${this.#back}
        ></sheet-confirm>`;
      case 'withdraw':
        return html`<sheet-withdraw
          .sheet=${now.sheet}
          @withdrawal-given=${() => this.#after(this.services.sheets.remove(now.sheet.id))}
          @withdrawal-left=${this.#back}
          @export-wanted=${() => save([now.sheet])}
        ></sheet-withdraw>`;
      case 'desk':
        return html`<sheet-desk
          .base=${now.base}
          .kept=${[...shelf.sheets, ...shelf.withdrawn]}
          .newId=${() => this.services.newId()}
          today=${this.#today}
          reader-name=${this.services.settings.value.readerName}
          ?tracing=${now.way === 'trace'}
          ?pasting=${now.way === 'paste'}
          @sheet-made=${(event: HTMLElementEventMap['sheet-made']) => this.#made(event.detail)}
          @sheet-left=${this.#back}
        ></sheet-desk>`;
      case 'import':
        return html`<m-import-preview
          file-name=${now.name}
          .sheets=${importViews(now.planned, now.exchange)}
          @import-accepted=${(event: HTMLElementEventMap['import-accepted']) =>
            this.#after(
              this.services.sheets.add(
                now.planned.flatMap(({ sheet }) => (event.detail.ids.includes(sheet.id) ? [sheet] : [])),
              ),
            )}
          @import-cancelled=${this.#back}
        ></m-import-preview>`;
    }
  }

  #shelf(shelf: ShelfListing) {
    // Without a sheet of one's own the list itself offers the ways to a first one, and there is nothing to look up or export.
    const own = shelf.sheets.length + shelf.withdrawn.length > 1;
    const asked = this.asked ?? { serial: '', onDate: this.#today };
    return html`<div class="row">
        ${
          own
            ? html`<button class="primary" @click=${() => this.#desk(null, 'type')}>New sheet</button>
                <button @click=${() => this.#desk(null, 'trace')}>Trace a chart</button>`
            : nothing
        }
        <button @click=${() => this.input.click()}>Bring a file</button>
        ${own ? html`<button @click=${() => save(shelf.sheets)}>Export all</button>` : nothing}
        <input
          type="file"
          hidden
          accept=".json,application/json"
          aria-label="Limit sheet file"
          @change=${this.#picked}
        />
      </div>
      ${
        own
          ? html`<m-serial-check
              serial=${asked.serial}
              .onDate=${asked.onDate}
              .answers=${serialAnswers(shelf.sheets, asked)}
              @serial-asked=${(event: HTMLElementEventMap['serial-asked']) => (this.asked = event.detail)}
              @answer-opened=${this.#opened}
            ></m-serial-check>`
          : nothing
      }
      ${shelf.mistakes.map(
        (problem) => html`<m-problem tone="warn" .problem=${describeProblem(problem)}></m-problem>`,
      )}
      <m-sheet-list
        .families=${familyViews(shelf, this.#today)}
        @sheet-open=${this.#opened}
        @sheet-revise=${(event: HTMLElementEventMap['sheet-revise']) => this.#desk(this.#byId(event.detail.id), 'type')}
        @sheet-confirm=${this.#confirming}
        @sheet-export=${(event: HTMLElementEventMap['sheet-export']) => save([this.#byId(event.detail.id)!])}
        @sheet-withdraw=${this.#withdrawing}
        @sheet-restore=${(event: HTMLElementEventMap['sheet-restore']) => this.#after(this.services.sheets.restore(event.detail.id))}
        @sheet-wanted=${(event: HTMLElementEventMap['sheet-wanted']) => this.#desk(null, event.detail.way)}
      ></m-sheet-list>`;
  }

  #byId(id: string): LimitSheet | null {
    const { sheets = [], withdrawn = [] } = this.shelf ?? {};
    return [...sheets, ...withdrawn].find((sheet) => sheet.id === id) ?? null;
  }

  #desk(base: LimitSheet | null, way: SheetWay): void {
    this.now = { kind: 'desk', base, way };
  }

  readonly #back = () => {
    this.now = { kind: 'shelf' };
  };

  readonly #opened = (event: CustomEvent<{ readonly id: string }>) => {
    const sheet = this.#byId(event.detail.id);
    if (sheet) this.now = { kind: 'sheet', sheet };
  };

  #made(sheet: LimitSheet): void {
    if (sheet.confirmedBy !== '') void this.services.settings.change({ readerName: sheet.confirmedBy });
    void this.#after(this.services.sheets.add([sheet]));
  }

  readonly #confirming = (event: HTMLElementEventMap['sheet-confirm']) => {
    const sheet = this.#byId(event.detail.id);
    if (sheet) this.now = { kind: 'confirm', sheet };
  };

  /** What a run was graded on only leaves the choice and can be brought back; what no run used would be gone, so that is asked. */
  readonly #withdrawing = (event: HTMLElementEventMap['sheet-withdraw']) => {
    const sheet = this.#byId(event.detail.id);
    if (sheet && this.shelf?.usedIds.has(sheet.id)) void this.#after(this.services.sheets.remove(sheet.id));
    else if (sheet) this.now = { kind: 'withdraw', sheet };
  };

  /** A confirmation is a revision of its own: runs before it keep what stood then. */
  #confirmed(sheet: LimitSheet, confirmedBy: string): void {
    if (!this.shelf) return;
    void this.services.settings.change({ readerName: confirmedBy });
    const { sheets, withdrawn } = this.shelf;
    const next = reviseSheet(sheet, { confirmedOn: this.#today, confirmedBy }, [...sheets, ...withdrawn]);
    void this.#after(this.services.sheets.add([next]));
  }

  async #after(kept: Promise<Result<void>>): Promise<void> {
    const outcome = await kept;
    if (outcome.ok) this.#back();
    await this.#load(outcome.ok ? [] : [outcome.problem]);
  }

  readonly #picked = async () => {
    const file = this.input.files?.[0];
    if (!file || !this.shelf) return;
    const exchange = readExchange(await file.text());
    this.input.value = '';
    const planned = planImport([...this.shelf.sheets, ...this.shelf.withdrawn], exchange.sheets);
    this.now = { kind: 'import', name: file.name, exchange, planned };
  };
}

function save(sheets: readonly LimitSheet[]): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([writeExchange(sheets)], { type: 'application/json' }));
  link.download = 'limit-sheets.json';
  link.click();
  URL.revokeObjectURL(link.href);
}

declare global {
  interface HTMLElementTagNameMap {
    'sheets-page': SheetsPage;
  }
}
