import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from './base-styles.ts';
import './shape-icon.ts';

/** One thing that can be asked of the controllers. */
export interface AskRequest {
  readonly id: string;
  /** What is asked for, e.g. "VIN". */
  readonly title: string;
  /** What it is good for. */
  readonly why: string;
  /** What is sent, e.g. "request for PGN 65260"; shown small. */
  readonly sent: string;
}

export interface AskAllowed {
  readonly ids: readonly string[];
}

/**
 * `m-ask`: asks whether requests for information may be sent, once. Nothing is ticked beforehand. It says what is sent, why, and
 * what that does to the bus. `ask-allowed` with the ticked ids, or `ask-cancelled` (button, Escape).
 */
@customElement('m-ask')
export class AskDialog extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      dialog {
        width: min(42rem, calc(100vw - 2 * var(--m-space-3)));
        max-height: calc(100dvh - 2 * var(--m-space-3));
        padding: 0;
        overflow: hidden;
        border: var(--m-stroke-1) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
        color: var(--m-ink);
      }
      dialog[open] {
        display: grid;
        grid-template-rows: minmax(0, 1fr) auto;
      }
      .body {
        padding: var(--m-space-5);
        overflow: auto;
      }
      .body:focus-visible {
        outline-offset: calc(-1 * var(--m-stroke-3));
      }
      dialog::backdrop {
        background: var(--m-ground);
        opacity: 0.8;
      }
      h2 {
        margin-bottom: var(--m-space-2);
        font-size: var(--m-text-xl);
        line-height: 1.15;
      }
      h3 {
        margin: var(--m-space-4) 0 var(--m-space-2);
        font-size: var(--m-text-m);
      }
      label {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 0 var(--m-space-4);
        align-items: center;
        min-height: var(--m-key);
        padding: var(--m-space-2) var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        cursor: pointer;
      }
      li + li label {
        border-top: 0;
      }
      label:hover {
        background: var(--m-sunken);
      }
      label:has(:focus-visible) {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: calc(-1 * var(--m-stroke-3));
      }
      input {
        grid-row: 1 / span 2;
        width: var(--m-space-6);
        height: var(--m-space-6);
        margin: 0;
        accent-color: var(--m-accent);
      }
      input:focus-visible {
        outline: none;
      }
      .title {
        font-weight: 700;
      }
      .why {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      .effects {
        display: grid;
        gap: var(--m-space-2);
        padding: var(--m-space-3) var(--m-space-4);
        border-left: var(--m-space-1) solid var(--m-marginal);
        background: var(--m-marginal-soft);
      }
      .effects li {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-2);
      }
      .effects m-icon {
        margin-top: 0.2em;
        color: var(--m-marginal);
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: center;
        padding: var(--m-space-3) var(--m-space-5);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      .actions p {
        color: var(--m-quiet);
      }
      .actions button {
        min-height: var(--m-key);
      }
    `,
  ];

  @property({ attribute: false }) requests: readonly AskRequest[] = [];
  @property({ type: Boolean, reflect: true }) open = false;
  @property({ attribute: 'device-name' }) deviceName = 'The bridge';
  /** How long the bridge is open normally, seconds. */
  @property({ type: Number }) seconds = 2;
  @state() private _ticked: ReadonlySet<string> = new Set();
  @query('dialog') private _dialog!: HTMLDialogElement;

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('open')) this._ticked = new Set();
  }

  protected override updated(changed: PropertyValues<this>) {
    if (!changed.has('open')) return;
    if (this.open && !this._dialog.open) {
      this._dialog.showModal();
      this.renderRoot.querySelector('input')?.focus();
    } else if (!this.open && this._dialog.open) this._dialog.close();
  }

  #tick(id: string, on: boolean) {
    const next = new Set(this._ticked);
    if (on) next.add(id);
    else next.delete(id);
    this._ticked = next;
  }

  #allow() {
    if (this._ticked.size === 0) return;
    const ids = this.requests.map(({ id }) => id).filter((id) => this._ticked.has(id));
    const detail: AskAllowed = { ids };
    this.open = false;
    this.dispatchEvent(new CustomEvent('ask-allowed', { detail, bubbles: true, composed: true }));
  }

  readonly #cancel = () => {
    if (!this.open) return;
    this.open = false;
    this.dispatchEvent(new CustomEvent('ask-cancelled', { bubbles: true, composed: true }));
  };

  #request({ id, title, why, sent }: AskRequest) {
    return html`<li>
      <label>
        <input
          type="checkbox"
          .checked=${this._ticked.has(id)}
          @change=${(event: Event) => this.#tick(id, (event.target as HTMLInputElement).checked)}
        />
        <span class="title">${title}</span>
        <span class="why">${why} <span class="number">${sent}</span></span>
      </label>
    </li>`;
  }

  #effects() {
    const effects = [
      'Each request is one frame that asks for information. Nothing is commanded, set or cleared.',
      `${this.deviceName} is opened normally for about ${this.seconds} seconds, then listens only again.`,
      'Meanwhile it takes part in the bus: it acknowledges the frames of others.',
      'At a wrong bit rate it would disturb the bus, and controllers could store codes for lost messages. So nothing is sent before frames have been read at this rate.',
    ];
    return html`<ul class="effects">
      ${effects.map((words, at) => html`<li><m-icon shape=${at === 0 ? 'info' : 'marginal'}></m-icon><span>${words}</span></li>`)}
    </ul>`;
  }

  override render() {
    const ticked = this._ticked.size;
    return html`<dialog aria-labelledby="heading" @close=${this.#cancel}>
      <div class="body">
        <h2 id="heading">Ask the controllers?</h2>
        <p>
          Some things are sent only when they are asked for. Meniscus listens and sends nothing unless you
          allow it here.
        </p>
        <h3>What this does</h3>
        ${this.#effects()}
        <h3>Ask for</h3>
        <ul>
          ${this.requests.map((request) => this.#request(request))}
        </ul>
      </div>
      <div class="actions">
        <button
          class="primary"
          aria-disabled=${ticked === 0}
          aria-describedby="ticked"
          @click=${() => this.#allow()}
        >
          Allow once
        </button>
        <button @click=${this.#cancel}>Cancel</button>
        <p id="ticked" role="status">${ticked === 0 ? 'Tick what may be asked for.' : nothing}</p>
      </div>
    </dialog>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-ask': AskDialog;
  }
  interface HTMLElementEventMap {
    'ask-allowed': CustomEvent<AskAllowed>;
    'ask-cancelled': CustomEvent<void>;
  }
}
