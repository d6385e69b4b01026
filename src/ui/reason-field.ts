import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

export interface ReasonKept {
  readonly reason: string;
}

/**
 * `m-reason`: asks for a reason in its place, since the reason stands on the report. Takes the focus when it appears. Says
 * `reason-kept` with the text (never empty), or `reason-dropped` (button, Escape). Enter gives it.
 */
@customElement('m-reason')
export class ReasonField extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    fieldStyles,
    css`
      .reason {
        display: grid;
        gap: var(--m-space-3);
        padding: var(--m-space-3) var(--m-space-4) var(--m-space-4);
        border-left: var(--m-space-1) solid var(--m-accent);
        background: var(--m-sunken);
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
      }
    `,
  ];

  /** What is asked, e.g. "Why is this check left out?". */
  @property() question = 'Why?';
  @property() hint = 'It stands on the report.';
  @property({ attribute: 'action-label' }) actionLabel = 'Keep the reason';
  @state() private _missing = false;
  @query('input') private _input!: HTMLInputElement;

  protected override firstUpdated() {
    this._input.focus();
  }

  #give() {
    const reason = this._input.value.trim();
    this._missing = reason === '';
    if (this._missing) {
      this._input.focus();
      return;
    }
    const detail: ReasonKept = { reason };
    this.dispatchEvent(new CustomEvent('reason-kept', { detail, bubbles: true, composed: true }));
  }

  #cancel() {
    this.dispatchEvent(new CustomEvent('reason-dropped', { bubbles: true, composed: true }));
  }

  readonly #key = (event: KeyboardEvent) => {
    if (event.isComposing) return;
    if (event.key === 'Enter') this.#give();
    else if (event.key === 'Escape') this.#cancel();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  override render() {
    return html`<div class="reason">
      <div class="field">
        <label class="label" for="reason">${this.question}</label>
        <input
          id="reason"
          autocomplete="off"
          maxlength="500"
          aria-invalid=${this._missing}
          aria-describedby="hint missing"
          @keydown=${this.#key}
        />
        <p class="hint" id="hint">${this.hint}</p>
        <div id="missing" role="status">
          ${
            this._missing
              ? html`<p class="mistake">
                  <m-icon shape="fail"></m-icon><span>Type a reason first, a few words are enough.</span>
                </p>`
              : nothing
          }
        </div>
      </div>
      <div class="actions">
        <button @click=${() => this.#give()}>${this.actionLabel}</button>
        <button class="quiet" @click=${() => this.#cancel()}>Cancel</button>
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-reason': ReasonField;
  }
  interface HTMLElementEventMap {
    'reason-kept': CustomEvent<ReasonKept>;
    'reason-dropped': CustomEvent<void>;
  }
}
