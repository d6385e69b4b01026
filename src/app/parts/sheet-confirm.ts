import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import '../../ui/shape-icon.ts';
import { pageStyles } from '../page-styles.ts';

/**
 * `sheet-confirm`: asks who compared a sheet with current service information; without a name nothing is confirmed. Events:
 * `confirmation-given` with the name, `confirmation-left`.
 */
@customElement('sheet-confirm')
export class SheetConfirm extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      form {
        max-width: var(--m-measure);
      }
    `,
  ];

  @property({ attribute: false }) sheet!: LimitSheet;
  /** Who did so last in this browser. */
  @property({ attribute: 'last-name' }) lastName = '';
  @state() private refusal = '';
  @query('input') private input!: HTMLInputElement;

  override firstUpdated(): void {
    this.input.focus();
    this.input.select();
  }

  override render() {
    const { title, revision, readFrom } = this.sheet;
    return html`<form class="card" aria-labelledby="confirm" @submit=${this.#given}>
      <h2 id="confirm">Confirm ${title}, revision ${revision}</h2>
      <p>
        Compare every number with the current service information first. They were read from: ${readFrom}.
        What differs belongs into a new revision.
      </p>
      <div class="field">
        <label class="label" for="name">Who compared them today?</label>
        <input
          id="name"
          maxlength="120"
          autocomplete="name"
          aria-invalid=${this.refusal !== ''}
          aria-describedby="says-name"
          .value=${this.lastName}
        />
        <div id="says-name">
          ${
            this.refusal
              ? html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${this.refusal}</span></p>`
              : nothing
          }
        </div>
      </div>
      <div class="row">
        <button class="primary">They still hold</button>
        <button type="button" @click=${this.#left}>Not now</button>
      </div>
    </form>`;
  }

  readonly #given = (event: SubmitEvent) => {
    event.preventDefault();
    const detail = this.input.value.trim();
    this.refusal = detail === '' ? 'Say who compared them: it stands on each report.' : '';
    if (detail === '') this.input.focus();
    else this.dispatchEvent(new CustomEvent('confirmation-given', { detail, bubbles: true, composed: true }));
  };

  readonly #left = () =>
    void this.dispatchEvent(new CustomEvent('confirmation-left', { bubbles: true, composed: true }));
}

declare global {
  interface HTMLElementTagNameMap {
    'sheet-confirm': SheetConfirm;
  }
  interface HTMLElementEventMap {
    'confirmation-given': CustomEvent<string>;
    'confirmation-left': CustomEvent<void>;
  }
}
