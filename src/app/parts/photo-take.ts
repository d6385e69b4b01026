import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { StoredPhoto } from '../../jobs/photo.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import { pictureFileIn } from '../open-picture.ts';
import { openPhotoDesk, type PhotoDesk, type PhotoDeskMeans } from '../photo-desk.ts';

/**
 * `photo-take`: takes one photograph, dropped, pasted, chosen, or taken with the camera, and makes it ready to be kept. It keeps nothing.
 * Event: `photo-taken`.
 */
@customElement('photo-take')
export class PhotoTake extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      .drop {
        display: grid;
        gap: var(--m-space-3);
        padding: var(--m-space-4);
        border: var(--m-stroke-2) dashed var(--m-mark);
        border-radius: var(--m-radius-2);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
      }
    `,
  ];

  @property({ attribute: false }) means!: PhotoDeskMeans;
  /** What to do before and while photographing. */
  @property() advice = '';
  @state() private _making = false;
  @state() private _problem: Problem | null = null;
  @query('input[capture]') private _camera!: HTMLInputElement;
  @query('input:not([capture])') private _chooser!: HTMLInputElement;
  #desk: PhotoDesk | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('paste', this.#pasted);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('paste', this.#pasted);
    this.#desk?.close();
    this.#desk = null;
  }

  override render() {
    if (this._making) return html`<m-progress label="Making the photograph ready"></m-progress>`;
    return html`${this._problem ? html`<m-problem tone="error" .problem=${describeProblem(this._problem)}></m-problem>` : nothing}
      <div class="drop" @dragover=${(event: DragEvent) => event.preventDefault()} @drop=${this.#dropped}>
        <p>
          ${this.advice} Drop the photograph here or paste it. It stays on this computer; place and camera
          data are taken off.
        </p>
        <div class="row">
          <button type="button" class="primary" @click=${() => this._chooser.click()}>
            Choose a photograph
          </button>
          <button type="button" @click=${() => this._camera.click()}>Take it with the camera</button>
        </div>
        <input type="file" hidden accept="image/*" aria-label="Photograph" @change=${this.#picked} />
        <input
          type="file"
          hidden
          accept="image/*"
          capture="environment"
          aria-label="Photograph from the camera"
          @change=${this.#picked}
        />
      </div>`;
  }

  readonly #picked = (event: Event) => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0] ?? null;
    void this.#take(file);
  };

  readonly #dropped = (event: DragEvent) => {
    event.preventDefault();
    event.stopPropagation();
    void this.#take(pictureFileIn(event.dataTransfer));
  };

  readonly #pasted = (event: ClipboardEvent) => {
    const file = pictureFileIn(event.clipboardData);
    if (file) void this.#take(file);
  };

  async #take(file: File | null): Promise<void> {
    if (!file || this._making) return;
    [this._making, this._problem] = [true, null];
    this.#desk ??= openPhotoDesk(this.means);
    const taken = await this.#desk.takePhoto(file);
    this._making = false;
    if (!this.isConnected) return;
    if (!taken.ok) return void (this._problem = taken.problem);
    this.dispatchEvent(
      new CustomEvent('photo-taken', { detail: taken.value, bubbles: true, composed: true }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'photo-take': PhotoTake;
  }
  interface HTMLElementEventMap {
    'photo-taken': CustomEvent<StoredPhoto>;
  }
}
