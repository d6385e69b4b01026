import { css, html, LitElement } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';

/**
 * `sheet-withdraw`: asks before a revision that no run was graded on is deleted, and says what is lost. Events: `withdrawal-given`,
 * `withdrawal-left`; `export-wanted` to keep it as a file first.
 */
@customElement('sheet-withdraw')
export class SheetWithdraw extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .card {
        max-width: var(--m-measure);
      }
    `,
  ];

  @property({ attribute: false }) sheet!: LimitSheet;
  @query('.keep') private keep!: HTMLButtonElement;

  /** Enter on an unread question keeps the sheet. */
  override firstUpdated(): void {
    this.keep.focus();
  }

  override render() {
    const { title, revision, readFrom, limits } = this.sheet;
    const count = limits.length === 1 ? 'its limit' : `its ${limits.length} limits`;
    return html`<section class="card" aria-labelledby="withdraw">
      <h2 id="withdraw">Delete ${title}, revision ${revision}, for good?</h2>
      <p>
        No run was graded on it, so no run keeps a copy: ${count}, read from “${readFrom}”, would be gone from
        this browser. Only an exported file brings them back.
      </p>
      <div class="row">
        <button class="keep" @click=${() => this.#say('withdrawal-left')}>Keep it</button>
        <button @click=${() => this.#say('export-wanted')}>Export it first</button>
        <button class="danger" @click=${() => this.#say('withdrawal-given')}>Delete it</button>
      </div>
    </section>`;
  }

  #say(name: 'withdrawal-given' | 'withdrawal-left' | 'export-wanted'): void {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'sheet-withdraw': SheetWithdraw;
  }
  interface HTMLElementEventMap {
    'withdrawal-given': CustomEvent<void>;
    'withdrawal-left': CustomEvent<void>;
    'export-wanted': CustomEvent<void>;
  }
}
