import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './problem-note.ts';
import { stateStyles } from './sheet-state-styles.ts';
import type { StateLook } from './sheet-words.ts';
import './shape-icon.ts';
import { tableStyles } from './table-styles.ts';

/** One entry that differs. Null stands for "not there". */
export interface ImportChange {
  readonly place: string;
  readonly before: string | null;
  readonly after: string | null;
}

/** A sheet of the file. `refused` cannot be taken; its problems say why. */
export interface ImportSheetView {
  readonly id: string;
  readonly title: string;
  readonly engineFamily: string;
  readonly revision: string;
  readonly kind: 'new' | 'same' | 'changed' | 'refused';
  readonly changes: readonly ImportChange[];
  readonly problems: readonly ProblemText[];
}

export interface ImportAccepted {
  readonly ids: readonly string[];
}

const LOOK: Readonly<Record<ImportSheetView['kind'], StateLook>> = {
  new: { shape: 'plus', kind: 'pass', words: 'new here' },
  same: { shape: 'steady', kind: 'invalid', words: 'the same as here' },
  changed: { shape: 'edit', kind: 'marginal', words: 'differs from the one here' },
  refused: { shape: 'fail', kind: 'fail', words: 'cannot be taken' },
};

/** `m-import-preview`: what a file would bring, sheet by sheet, before anything is kept. Says `import-accepted`, `import-cancelled`. */
@customElement('m-import-preview')
export class ImportPreview extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    tableStyles,
    stateStyles,
    css`
      :host {
        container-type: inline-size;
      }
      section,
      ul,
      .sheet {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
      }
      h2 {
        font-size: var(--m-text-xl);
        line-height: 1.15;
        overflow-wrap: anywhere;
      }
      .sheet {
        padding-top: var(--m-space-3);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      label {
        display: grid;
        grid-template-columns: auto 1fr auto;
        gap: 0 var(--m-space-4);
        align-items: center;
        min-height: var(--m-key);
        cursor: pointer;
      }
      label:has(:focus-visible) {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: var(--m-focus-gap);
      }
      input {
        width: var(--m-space-6);
        height: var(--m-space-6);
        margin: 0;
        accent-color: var(--m-accent);
      }
      input:focus-visible {
        outline: none;
      }
      .title {
        display: block;
        font-size: var(--m-text-l);
        font-weight: 700;
        line-height: 1.2;
        overflow-wrap: anywhere;
      }
      .about {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      table {
        table-layout: fixed;
      }
      th,
      td {
        overflow-wrap: break-word;
      }
      td.before {
        color: var(--m-quiet);
        text-decoration: line-through;
      }
      td.after {
        font-weight: 700;
      }
      td.none {
        text-decoration: none;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
      }
      @container (max-width: 34rem) {
        label {
          grid-template-columns: auto 1fr;
        }
        label .state {
          grid-column: 2;
          justify-self: start;
        }
        .actions button {
          flex: 1 1 100%;
        }
        th,
        td {
          padding: var(--m-space-1);
        }
      }
    `,
  ];

  @property({ attribute: false }) sheets: readonly ImportSheetView[] = [];
  @property({ attribute: 'file-name' }) fileName = '';
  @state() private _taken: ReadonlySet<string> = new Set();

  /** New and changed sheets are ticked to begin with: that is what a person brings a file for. */
  protected override willUpdate(changed: PropertyValues<this>) {
    if (!changed.has('sheets')) return;
    this._taken = new Set(
      this.sheets.filter(({ kind }) => kind === 'new' || kind === 'changed').map(({ id }) => id),
    );
  }

  #tick(id: string, on: boolean) {
    const next = new Set(this._taken);
    if (on) next.add(id);
    else next.delete(id);
    this._taken = next;
  }

  #accept() {
    const ids = this.sheets.map(({ id }) => id).filter((id) => this._taken.has(id));
    if (ids.length === 0) return;
    const detail: ImportAccepted = { ids };
    this.dispatchEvent(new CustomEvent('import-accepted', { detail, bubbles: true, composed: true }));
  }

  #cancel() {
    this.dispatchEvent(new CustomEvent('import-cancelled', { bubbles: true, composed: true }));
  }

  #cell(value: string | null, kind: 'before' | 'after') {
    return html`<td class="word ${kind} ${value === null ? 'none' : ''}">${value ?? 'not there'}</td>`;
  }

  #changes({ title, changes }: ImportSheetView) {
    if (changes.length === 0) return nothing;
    return html`<table aria-label="What differs in ${title}">
      <thead>
        <tr>
          <th scope="col" class="word">Entry</th>
          <th scope="col" class="word">Here</th>
          <th scope="col" class="word">In the file</th>
        </tr>
      </thead>
      <tbody>
        ${changes.map(
          ({ place, before, after }) =>
            html`<tr>
              <th scope="row">${place}</th>
              ${this.#cell(before, 'before')}${this.#cell(after, 'after')}
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  #sheet(sheet: ImportSheetView) {
    const { id, title, kind } = sheet;
    const { shape, kind: colour, words } = LOOK[kind];
    const off = kind === 'refused' || kind === 'same';
    return html`<li class="sheet">
      <label>
        <input
          type="checkbox"
          ?disabled=${off}
          .checked=${this._taken.has(id)}
          @change=${(event: Event) => this.#tick(id, (event.target as HTMLInputElement).checked)}
        />
        <span
          ><span class="title">${title}</span
          ><span class="about number">${sheet.engineFamily} · revision ${sheet.revision}</span></span
        >
        <span class="state ${colour}"><m-icon shape=${shape}></m-icon><span>${words}</span></span>
      </label>
      ${this.#changes(sheet)}
      ${sheet.problems.map((problem) => html`<m-problem tone=${kind === 'refused' ? 'error' : 'warn'} .problem=${problem}></m-problem>`)}
    </li>`;
  }

  override render() {
    const count = this._taken.size;
    return html`<section class="panel" aria-labelledby="heading">
      <h2 id="heading">What ${this.fileName || 'the file'} brings</h2>
      ${this.sheets.length === 0 ? html`<p>There is no limit sheet in it.</p>` : nothing}
      <ul>
        ${this.sheets.map((sheet) => this.#sheet(sheet))}
      </ul>
      <div class="actions">
        <button class="primary" aria-disabled=${count === 0} @click=${() => this.#accept()}>
          ${count === 0 ? 'Nothing to take' : `Take ${count} ${count === 1 ? 'sheet' : 'sheets'}`}
        </button>
        <button @click=${() => this.#cancel()}>Leave all</button>
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-import-preview': ImportPreview;
  }
  interface HTMLElementEventMap {
    'import-accepted': CustomEvent<ImportAccepted>;
    'import-cancelled': CustomEvent<void>;
  }
}
