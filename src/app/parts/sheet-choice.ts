import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { RunView } from '../run-view.ts';
import type { Services } from '../services.ts';
import { entryWanted } from './entry-wanted.ts';

/** `sheet-choice`: another limit sheet, or a newer revision, taken for this run with a reason. Event: `entry-wanted`. */
@customElement('sheet-choice')
export class SheetChoice extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      form {
        display: grid;
        gap: var(--m-space-3);
        padding-bottom: var(--m-space-3);
      }
      input[type='text'] {
        width: 100%;
      }
      .mistake {
        color: var(--m-fail);
        font-weight: 600;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) view!: RunView;
  @state() private sheets: readonly LimitSheet[] = [];
  @state() private refusal = '';

  override render() {
    const { sheet } = this.view;
    return html`<details class="card screen-only" @toggle=${this.#opened}>
      <summary>${sheet ? 'Take another limit sheet or revision' : 'No limit sheet yet: choose one'}</summary>
      ${
        this.sheets.length === 0
          ? html`<p>
              No other sheet has limits for this check.
              <a href=${routeHash({ page: 'sheets' })}>Enter or import one</a>
            </p>`
          : this.#form()
      }
    </details>`;
  }

  #form() {
    return html`<form @submit=${this.#take}>
      <label class="field"
        >Limit sheet
        <select name="sheet">
          ${this.sheets.map(
            ({ id, title, revision }) => html`<option value=${id}>${title}, revision ${revision}</option>`,
          )}
        </select>
      </label>
      <label class="field"
        >Why this one? It stands with the run
        <input name="reason" type="text" maxlength="300" aria-invalid=${this.refusal !== ''} />
      </label>
      ${this.refusal ? html`<p class="mistake">${this.refusal}</p>` : nothing}
      <div class="row"><button>Take this sheet</button></div>
    </form>`;
  }

  readonly #opened = async () => {
    const { sheets } = await this.services.sheets.list();
    const { run, sheet: now } = this.view;
    this.sheets = sheets.filter(
      ({ id, limits }) => id !== now?.id && limits.some(({ check }) => check === run.check),
    );
  };

  readonly #take = (event: SubmitEvent) => {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const sheet = this.sheets.find(({ id }) => id === data.get('sheet'));
    const reason = String(data.get('reason') ?? '').trim();
    this.refusal = reason === '' ? 'Say why first.' : '';
    if (sheet && reason !== '') this.dispatchEvent(entryWanted({ kind: 'sheet', sheet, reason }));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'sheet-choice': SheetChoice;
  }
}
