import { css, html, LitElement } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from './base-styles.ts';

export interface Caution {
  readonly id: string;
  readonly text: string;
}

/**
 * `m-cautions`: cautions to tick before a run, each as big as a hand. `cautions-accepted` once all are ticked and the
 * button is pressed. Until then the button says what is missing.
 */
@customElement('m-cautions')
export class CautionList extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      label {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-4);
        align-items: center;
        min-height: var(--m-key);
        padding: var(--m-space-3) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        border-left: var(--m-space-1) solid var(--m-marginal);
        background: var(--m-surface);
        cursor: pointer;
      }
      li + li {
        margin-top: var(--m-space-2);
      }
      label.ticked {
        border-left-color: var(--m-pass);
        color: var(--m-quiet);
      }
      label:focus-within {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: var(--m-focus-gap);
      }
      input {
        width: var(--m-space-6);
        height: var(--m-space-6);
        margin: 0;
        accent-color: var(--m-pass);
      }
      input:focus-visible {
        outline: none;
      }
      .go {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--m-space-3);
        margin-top: var(--m-space-4);
      }
      .go p {
        color: var(--m-quiet);
      }
    `,
  ];

  @property({ attribute: false }) cautions: readonly Caution[] = [];
  @property({ attribute: 'action-label' }) actionLabel = 'I have read these';
  @state() private _ticked: ReadonlySet<string> = new Set();

  #tick(id: string, on: boolean) {
    const next = new Set(this._ticked);
    if (on) next.add(id);
    else next.delete(id);
    this._ticked = next;
  }

  #left(): number {
    return this.cautions.filter((caution) => !this._ticked.has(caution.id)).length;
  }

  #accept() {
    if (this.#left() > 0) return;
    this.dispatchEvent(new CustomEvent('cautions-accepted', { bubbles: true, composed: true }));
  }

  override render() {
    const left = this.#left();
    return html`<ul>
        ${this.cautions.map(({ id, text }) => {
          const ticked = this._ticked.has(id);
          return html`<li>
            <label class=${ticked ? 'ticked' : ''}>
              <input
                type="checkbox"
                .checked=${ticked}
                @change=${(event: Event) => this.#tick(id, (event.target as HTMLInputElement).checked)}
              />
              <span>${text}</span>
            </label>
          </li>`;
        })}
      </ul>
      <div class="go">
        <button
          class="primary"
          aria-disabled=${left > 0}
          aria-describedby="why"
          @click=${() => this.#accept()}
        >
          ${this.actionLabel}
        </button>
        <p id="why" role="status">
          ${left === 0 ? 'All ticked.' : left === 1 ? 'Tick 1 more to go on.' : `Tick ${left} more to go on.`}
        </p>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-cautions': CautionList;
  }
  interface HTMLElementEventMap {
    'cautions-accepted': CustomEvent<void>;
  }
}
