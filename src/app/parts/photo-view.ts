import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { StoredPhoto } from '../../jobs/photo.ts';
import type { PhotoOfVolume } from '../../jobs/run-entry.ts';
import { baseStyles } from '../../ui/base-styles.ts';

/** What was marked on a photograph, pixels of it. */
export type PhotoMarks = Pick<PhotoOfVolume, 'marks' | 'liquid'>;

/** `photo-view`: one kept photograph as wide as its place, with what was marked on it. Its object URL lives as long as it is shown. */
@customElement('photo-view')
export class PhotoView extends LitElement {
  static override styles = [
    baseStyles,
    css`
      :host {
        position: relative;
        display: block;
      }
      img {
        display: block;
        width: 100%;
        height: auto;
        max-height: inherit;
        object-fit: contain;
      }
      svg {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
      }
      line {
        stroke: var(--m-accent);
      }
      .liquid line {
        stroke: var(--m-fail);
      }
      text {
        fill: #000;
        stroke: #fff;
        paint-order: stroke;
        font-family: var(--m-font-number);
        font-weight: 700;
      }
    `,
  ];

  @property({ attribute: false }) photo: StoredPhoto | null = null;
  @property({ attribute: false }) marks: PhotoMarks | null = null;
  @property() label = '';
  @state() private _url: string | null = null;
  #of: StoredPhoto | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.#show(this.photo);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#show(null);
  }

  protected override willUpdate(): void {
    if (this.isConnected && this.photo !== this.#of) this.#show(this.photo);
  }

  #show(photo: StoredPhoto | null): void {
    if (this._url !== null) URL.revokeObjectURL(this._url);
    this.#of = photo;
    this._url = photo && URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }));
  }

  override render() {
    const { photo, _url } = this;
    if (!photo || _url === null) return nothing;
    const { widthPx, heightPx } = photo;
    return html`<img src=${_url} width=${widthPx} height=${heightPx} alt=${this.label || photo.name} />
      ${this.#drawn(photo)}`;
  }

  #drawn({ widthPx, heightPx }: StoredPhoto) {
    if (!this.marks) return nothing;
    const { marks = [], liquid } = this.marks;
    const size = Math.max(widthPx, heightPx) / 45;
    const bar = (y: number, x: number, half: number) =>
      svg`<line x1=${x - half} x2=${x + half} y1=${y} y2=${y} stroke-width=${size / 8} />`;
    const word = (x: number, y: number, words: string) =>
      svg`<text x=${x + size} y=${y - size / 3} font-size=${size} stroke-width=${size / 5}>${words}</text>`;
    return html`<svg viewBox="0 0 ${widthPx} ${heightPx}" aria-hidden="true">
      ${marks.map(
        ({ at, volumeMl }) =>
          svg`<g>${bar(at.y, at.x, size)}<line x1=${at.x} x2=${at.x} y1=${at.y - size} y2=${at.y + size} stroke-width=${size / 8} />${word(at.x, at.y, `${volumeMl}`)}</g>`,
      )}
      ${liquid ? svg`<g class="liquid">${bar(liquid.y, liquid.x, 4 * size)}${word(liquid.x, liquid.y, 'liquid')}</g>` : nothing}
    </svg>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'photo-view': PhotoView;
  }
}
