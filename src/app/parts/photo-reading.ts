import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Vessel } from '../../checks/measurement.ts';
import { rounded } from '../../checks/rounded.ts';
import { measureVolume } from '../../checks/volume.ts';
import type { PhotoStore } from '../../jobs/photo-store.ts';
import type { StoredPhoto } from '../../jobs/photo.ts';
import type { PhotoOfVolume } from '../../jobs/run-entry.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import type { Picture } from '../../tracing/pixel.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/vessel-photo.ts';
import type { VolumeRead } from '../../ui/vessel-photo.ts';
import { openPicture } from '../open-picture.ts';
import type { PhotoDeskMeans } from '../photo-desk.ts';
import './photo-take.ts';

/** A volume read off a photograph that is kept by now. */
export interface VolumePhotographed {
  readonly valueMl: number;
  readonly typed: string;
  readonly photo: PhotoOfVolume;
}

export interface PhotoReadingMeans extends PhotoDeskMeans {
  readonly photos: PhotoStore;
}

/**
 * `photo-reading`: reads the volume off a photograph of the vessel, in a window over the page. The photograph is kept first, then the
 * volume is told: `volume-photographed`. Closing the window loses no mark.
 */
@customElement('photo-reading')
export class PhotoReadingPart extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      dialog {
        width: min(80rem, calc(100vw - 2 * var(--m-space-2)));
        max-width: none;
        max-height: calc(100dvh - 2 * var(--m-space-2));
        padding: var(--m-space-3);
        border: var(--m-stroke-1) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-ground);
        color: var(--m-ink);
      }
      dialog::backdrop {
        background: var(--m-ground);
        opacity: 0.8;
      }
      .stack {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
      }
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
        align-items: center;
        justify-content: space-between;
      }
      h2 {
        margin: 0;
        font-size: var(--m-text-l);
      }
      .quiet {
        color: var(--m-quiet);
      }
    `,
  ];

  @property({ attribute: false }) means!: PhotoReadingMeans;
  /** The vessel whose tolerance holds; null where none was chosen. */
  @property({ attribute: false }) vessel: Vessel | null = null;
  @state() private _photo: StoredPhoto | null = null;
  @state() private _picture: Picture | null = null;
  @state() private _keeping = false;
  @state() private _problem: Problem | null = null;
  @query('dialog') private _dialog!: HTMLDialogElement;

  override render() {
    return html`<button type="button" @click=${() => this._dialog.showModal()}>
        Read it off a photograph
      </button>
      <dialog aria-label="Read the vessel off a photograph">
        <div class="stack">
          <div class="head">
            <h2>Read the vessel off a photograph</h2>
            ${this._photo ? html`<button type="button" @click=${this.#another}>Another photograph</button>` : nothing}
            <button type="button" @click=${() => this._dialog.close()}>Close</button>
          </div>
          ${this._problem ? html`<m-problem tone="error" .problem=${describeProblem(this._problem)}></m-problem>` : nothing}
          ${this._keeping ? html`<m-progress label="Keeping the photograph"></m-progress>` : nothing}
          ${this._picture ? this.#marking(this._picture) : this.#taking()}
        </div>
      </dialog>`;
  }

  #taking() {
    return html`<photo-take
      .means=${this.means}
      advice="The whole scale in view, camera at the height of the fuel, the vessel level and still."
      @photo-taken=${this.#taken}
    ></photo-take>`;
  }

  #marking(picture: Picture) {
    return html`<p class="quiet">
        ${this.vessel ? `The tolerance is that of the vessel chosen: ${this.vessel.name}.` : 'Choose the vessel first: its tolerance counts.'}
      </p>
      <m-vessel-photo .picture=${picture} @volume-read=${this.#read}></m-vessel-photo>`;
  }

  readonly #another = () => {
    [this._photo, this._picture, this._problem] = [null, null, null];
  };

  /** What is marked is the picture that will be kept, pixel by pixel. */
  readonly #taken = async ({ detail: photo }: HTMLElementEventMap['photo-taken']) => {
    const opened = await openPicture(new Blob([photo.bytes], { type: photo.type }));
    if (!opened.ok) return void (this._problem = opened.problem);
    [this._photo, this._picture, this._problem] = [photo, opened.value.picture, null];
  };

  readonly #read = (event: HTMLElementEventMap['volume-read']) => {
    event.stopPropagation();
    void this.#keep(event.detail);
  };

  async #keep({ volumeMl, uMl, marks, liquid }: VolumeRead): Promise<void> {
    const { _photo: photo, vessel } = this;
    if (!photo || this._keeping) return;
    const valueMl = rounded(volumeMl, 2);
    const fits = vessel && measureVolume({ vessel, readingsMl: [valueMl], photoUncertaintyMl: uMl });
    if (fits && !fits.ok) return void (this._problem = fits.problem);
    [this._keeping, this._problem] = [true, null];
    const kept = await this.means.photos.put(photo);
    this._keeping = false;
    if (!kept.ok) return void (this._problem = kept.problem);
    this._dialog.close();
    const detail: VolumePhotographed = {
      valueMl,
      typed: `${valueMl} mL`,
      photo: { photoId: photo.id, standardUncertaintyMl: uMl, marks: [...marks], liquid },
    };
    this.#another();
    this.dispatchEvent(new CustomEvent('volume-photographed', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'photo-reading': PhotoReadingPart;
  }
  interface HTMLElementEventMap {
    'volume-photographed': CustomEvent<VolumePhotographed>;
  }
}
