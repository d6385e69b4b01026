import { css, html, LitElement, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import type { DroppedFile } from '../services.ts';

/** `drop-field`: takes a file dropped anywhere on its content, or picked by `pick()`. Event: `file-dropped`. */
@customElement('drop-field')
export class DropField extends LitElement {
  static override styles = [
    baseStyles,
    css`
      :host {
        position: relative;
        min-height: 80vh;
      }
      .over {
        position: fixed;
        inset: var(--m-space-3);
        display: grid;
        place-items: center;
        border: var(--m-stroke-3) dashed var(--m-accent);
        border-radius: var(--m-radius-2);
        background: var(--m-surface);
        font-size: var(--m-text-xl);
        opacity: 0.95;
        pointer-events: none;
        z-index: 1;
      }
    `,
  ];

  @state() private over = false;
  @query('input') private input!: HTMLInputElement;

  /** Opens the browser's own file chooser. Needs the person's click. */
  pick(): void {
    this.input.click();
  }

  override render() {
    return html`<div @dragover=${this.#dragOver} @dragleave=${() => (this.over = false)} @drop=${this.#drop}>
      <slot></slot>
      ${this.over ? html`<div class="over">Let go to open this log</div>` : nothing}
      <input
        type="file"
        hidden
        aria-label="Log file"
        accept=".log,.txt,.csv,.tsv,.gz,.candump,text/plain,text/csv"
        @change=${this.#picked}
      />
    </div>`;
  }

  readonly #dragOver = (event: DragEvent) => {
    event.preventDefault();
    this.over = true;
  };

  readonly #drop = (event: DragEvent) => {
    event.preventDefault();
    this.over = false;
    void this.#take(event.dataTransfer?.files[0]);
  };

  readonly #picked = () => {
    const file = this.input.files?.[0];
    void this.#take(file).then(() => (this.input.value = ''));
  };

  async #take(file: File | undefined): Promise<void> {
    if (!file) return;
    const detail = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
    this.dispatchEvent(new CustomEvent('file-dropped', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'drop-field': DropField;
  }
  interface HTMLElementEventMap {
    'file-dropped': CustomEvent<DroppedFile>;
  }
}
