import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/trace-chart.ts';
import { openPicture, pictureFileIn, type OpenedPicture } from '../open-picture.ts';
import { openPictureDesk, type PictureDesk } from '../open-picture-worker.ts';
import { pageStyles } from '../page-styles.ts';

/** `trace-part`: takes a picture of a chart, chosen, dropped or pasted, and has its boundaries traced. Passes `chart-traced` on. */
@customElement('trace-part')
export class TracePart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .drop {
        display: grid;
        gap: var(--m-space-3);
        justify-items: start;
        padding: var(--m-space-5);
        border: var(--m-stroke-2) dashed var(--m-mark);
        border-radius: var(--m-radius-2);
      }
    `,
  ];

  @property({ attribute: 'volume-unit' }) volumeUnit = 'mL';
  @state() private opened: OpenedPicture | null = null;
  @state() private opening = false;
  @state() private problem: Problem | null = null;
  @query('input[type=file]') private input!: HTMLInputElement;
  #desk: PictureDesk | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.#desk = openPictureDesk();
    addEventListener('paste', this.#pasted);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('paste', this.#pasted);
    this.#desk?.close();
    this.#desk = null;
  }

  override render() {
    return html`<div class="stack">
      ${this.problem ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>` : nothing}
      ${this.opened && this.#desk ? this.#trace(this.opened, this.#desk) : this.#choose()}
    </div>`;
  }

  #choose() {
    if (this.opening) return html`<m-progress label="Opening the picture"></m-progress>`;
    return html`<div
      class="drop"
      @dragover=${(event: DragEvent) => event.preventDefault()}
      @drop=${this.#dropped}
    >
      <p>
        Drop a picture of the chart here, paste it, or take a photograph: flat, in even light, the whole frame
        in view. It stays on this computer.
      </p>
      <button class="primary" @click=${() => this.input.click()}>Choose a picture</button>
      <input type="file" hidden accept="image/*" aria-label="Picture of the chart" @change=${this.#picked} />
    </div>`;
  }

  #trace({ picture, notes }: OpenedPicture, desk: PictureDesk) {
    return html`${notes.map((note) => html`<p class="quiet">${note}</p>`)}
      <m-chart-trace
        .picture=${picture}
        volume-unit=${this.volumeUnit}
        .warp=${desk.warp}
        .follow=${desk.follow}
      ></m-chart-trace>`;
  }

  readonly #picked = () => void this.#open(this.input.files?.[0] ?? null);

  readonly #dropped = (event: DragEvent) => {
    event.preventDefault();
    event.stopPropagation();
    void this.#open(pictureFileIn(event.dataTransfer));
  };

  readonly #pasted = (event: ClipboardEvent) => {
    if (this.opened) return;
    const file = pictureFileIn(event.clipboardData);
    if (file) void this.#open(file);
  };

  async #open(file: File | null): Promise<void> {
    if (!file) return;
    [this.opening, this.problem] = [true, null];
    const opened = await openPicture(file);
    this.opening = false;
    if (opened.ok) this.opened = opened.value;
    else this.problem = opened.problem;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'trace-part': TracePart;
  }
}
