import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { PhotoListing, PhotoStore } from '../../jobs/photo-store.ts';
import type { StoredPhoto } from '../../jobs/photo.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import './photo-view.ts';
import type { PhotoMarks } from './photo-view.ts';

/**
 * `photo-strip`: kept photographs by their ids, small; each opens large. One that is missing or damaged is told in its place.
 * On paper they stand small, without buttons.
 */
@customElement('photo-strip')
export class PhotoStrip extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
      }
      .thumb {
        display: block;
        width: 9rem;
        padding: var(--m-space-1);
      }
      dialog {
        width: fit-content;
        max-width: calc(100vw - 2 * var(--m-space-3));
        max-height: calc(100dvh - 2 * var(--m-space-3));
        padding: var(--m-space-3);
        border: var(--m-stroke-1) solid var(--m-mark);
        background: var(--m-surface);
        color: var(--m-ink);
      }
      dialog::backdrop {
        background: var(--m-ground);
        opacity: 0.8;
      }
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: center;
        justify-content: space-between;
        margin-bottom: var(--m-space-3);
      }
      .quiet {
        color: var(--m-quiet);
        overflow-wrap: anywhere;
      }
      @media print {
        .thumb {
          width: 5cm;
          border: 0;
          break-inside: avoid;
        }
      }
    `,
  ];

  @property({ attribute: false }) photos: PhotoStore | null = null;
  @property({ attribute: false }) ids: readonly string[] = [];
  /** What was marked on a photograph, by its id. */
  @property({ attribute: false }) marks: ReadonlyMap<string, PhotoMarks> = new Map();
  /** What the photographs show, e.g. "The vessel". */
  @property() label = 'Photograph';
  @state() private _listing: PhotoListing = { photos: [], missing: [] };
  @state() private _problem: Problem | null = null;
  @state() private _large: StoredPhoto | null = null;
  @query('dialog') private _dialog!: HTMLDialogElement | null;
  #asked = '';

  protected override willUpdate(changed: PropertyValues<this>): void {
    // A page that renders makes a new list of the same ids each time.
    const asked = JSON.stringify(this.ids);
    if (!this.photos || (asked === this.#asked && !changed.has('photos'))) return;
    this.#asked = asked;
    void this.#load(this.photos, asked);
  }

  async #load(photos: PhotoStore, asked: string): Promise<void> {
    const listed = await photos.listOf(this.ids);
    if (asked !== this.#asked) return; // others were asked for meanwhile
    this._problem = listed.ok ? null : listed.problem;
    if (listed.ok) this._listing = listed.value;
  }

  override render() {
    const { photos, missing } = this._listing;
    return html`${this.#told(this._problem)} ${missing.map((each) => this.#told(each.problem))}
      <ul>
        ${photos.map(
          (photo, place) =>
            html`<li>
              <button type="button" class="thumb" @click=${() => this.#open(photo)}>
                <photo-view
                  .photo=${photo}
                  .marks=${this.#marksOf(photo)}
                  label=${this.#name(place)}
                ></photo-view>
              </button>
            </li>`,
        )}
      </ul>
      ${this._large ? this.#dialog(this._large) : nothing}`;
  }

  #dialog(photo: StoredPhoto) {
    const { widthPx, heightPx, takenAt, name } = photo;
    return html`<dialog aria-label=${this.label} @close=${() => (this._large = null)}>
      <div class="head">
        <span class="quiet"
          >${name}, ${widthPx} × ${heightPx} pixels, added ${takenAt.slice(0, 16).replace('T', ' ')} UTC</span
        >
        <button type="button" @click=${() => this._dialog?.close()}>Close</button>
      </div>
      <photo-view .photo=${photo} .marks=${this.#marksOf(photo)} label=${this.label}></photo-view>
    </dialog>`;
  }

  readonly #marksOf = ({ id }: StoredPhoto) => this.marks.get(id) ?? null;

  #name(place: number): string {
    return this._listing.photos.length > 1 ? `${this.label}, ${place + 1}` : this.label;
  }

  #told(trouble: Problem | null) {
    return trouble ? html`<m-problem tone="warn" .problem=${describeProblem(trouble)}></m-problem>` : nothing;
  }

  async #open(photo: StoredPhoto): Promise<void> {
    this._large = photo;
    await this.updateComplete;
    this._dialog?.showModal();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'photo-strip': PhotoStrip;
  }
}
