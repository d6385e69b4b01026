import { css, html, LitElement } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';

/** `reason-form`: asks why, in the person's own words; without a reason nothing happens. Events: `reason-given`, `reason-cancelled`. */
@customElement('reason-form')
export class ReasonForm extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      input[type='text'] {
        width: 100%;
      }
    `,
  ];

  @property() question = 'Why?';
  @property({ attribute: 'action-label' }) actionLabel = 'Enter';
  @state() private reason = '';
  @query('input') private input!: HTMLInputElement;

  override firstUpdated(): void {
    this.input.focus();
  }

  override render() {
    return html`<form class="stack screen-only" @submit=${this.#submit}>
      <label class="field"
        >${this.question}
        <input
          type="text"
          .value=${this.reason}
          @input=${(event: Event) => (this.reason = (event.target as HTMLInputElement).value)}
        />
      </label>
      <div class="row">
        <button aria-disabled=${this.reason.trim() === ''}>${this.actionLabel}</button>
        <button type="button" class="quiet" @click=${this.#cancel}>Cancel</button>
      </div>
    </form>`;
  }

  readonly #submit = (event: Event) => {
    event.preventDefault();
    const detail = this.reason.trim();
    if (detail === '') return;
    this.reason = '';
    this.dispatchEvent(new CustomEvent('reason-given', { detail, bubbles: true, composed: true }));
  };

  readonly #cancel = () =>
    void this.dispatchEvent(new CustomEvent('reason-cancelled', { bubbles: true, composed: true }));
}

declare global {
  interface HTMLElementTagNameMap {
    'reason-form': ReasonForm;
  }
  interface HTMLElementEventMap {
    'reason-given': CustomEvent<string>;
    'reason-cancelled': CustomEvent<void>;
  }
}
