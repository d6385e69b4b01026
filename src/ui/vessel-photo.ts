import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Picture, Pixel } from '../tracing/pixel.ts';
import type { VesselMark } from '../tracing/vessel-photo.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import './picture-board.ts';
import type { PictureBoard, PlaceSet, SpotMoved } from './picture-board.ts';
import { historyKey } from './picture-history.ts';
import { undoButtons } from './picture-undo.ts';
import { traceStyles } from './trace-styles.ts';
import { vesselPanel } from './vessel-photo-panel.ts';
import { vesselSpotId, vesselSpotOf, vesselSpots } from './vessel-photo-scene.ts';
import {
  beginVessel,
  stepVessel,
  vesselMarksOf,
  vesselReading,
  type VesselAction,
  type VesselState,
} from './vessel-photo-state.ts';

/** A volume read off a photograph: with its standard uncertainty, the marks it stands on, and the photograph as evidence. */
export interface VolumeRead {
  readonly volumeMl: number;
  readonly uMl: number;
  readonly marks: readonly VesselMark[];
  /** The lowest point of the liquid's curve, pixels of the photograph. */
  readonly liquid: Pixel;
  readonly photo: Blob | null;
}

/**
 * `m-vessel-photo`: reads the volume in a vessel from its photograph: two or more graduations and the liquid line. Nothing is
 * read outside the marks. Event: `volume-read`.
 */
@customElement('m-vessel-photo')
export class VesselPhoto extends LitElement {
  static override styles = [baseStyles, buttonStyles, traceStyles];

  /** The photograph to mark. */
  @property({ attribute: false }) picture: Picture | null = null;
  /** The file as it came; handed over with the volume. */
  @property({ attribute: false }) photo: Blob | null = null;
  @state() private _vessel: VesselState = beginVessel();
  @query('m-picture-board') private _board!: PictureBoard | null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('picture')) this._vessel = beginVessel();
  }

  readonly #send = (action: VesselAction) => {
    this._vessel = stepVessel(this._vessel, action);
  };

  readonly #set = ({ detail: { at, by } }: CustomEvent<PlaceSet>) => {
    this.#send({ type: 'set', at });
    if (this._vessel.history.now.aim === 'graduation') void this.#typeNext();
    else if (by === 'keys') this.#send({ type: 'select', spot: null });
  };

  /** The number belongs to the mark: its field is ready for typing. */
  async #typeNext(): Promise<void> {
    await this.updateComplete;
    [...(this.shadowRoot?.querySelectorAll<HTMLInputElement>('[data-mark]') ?? [])].at(-1)?.focus();
  }

  readonly #moved = ({ detail: { id, at, gesture } }: CustomEvent<SpotMoved>) => {
    const spot = vesselSpotOf(id);
    if (spot !== null) this.#send({ type: 'move', spot, at, gesture });
  };

  readonly #picked = ({ detail }: CustomEvent<string | null>) =>
    this.#send({ type: 'select', spot: vesselSpotOf(detail) });

  readonly #removed = ({ detail }: CustomEvent<string>) => {
    const spot = vesselSpotOf(detail);
    if (spot !== null) this.#send({ type: 'remove', spot });
  };

  readonly #keyed = (event: KeyboardEvent) => {
    const type = historyKey(event);
    if (!type) return;
    event.preventDefault();
    this.#send({ type });
  };

  readonly #finish = () => {
    const { now } = this._vessel.history;
    const reading = vesselReading(now);
    if (!reading.ok || !now.liquid) return;
    const { volumeMl, uMl } = reading.value;
    const detail: VolumeRead = {
      volumeMl,
      uMl,
      marks: vesselMarksOf(now),
      liquid: now.liquid,
      photo: this.photo,
    };
    this.dispatchEvent(new CustomEvent('volume-read', { detail, bubbles: true, composed: true }));
  };

  override render() {
    if (!this.picture) return nothing;
    const { history, selected } = this._vessel;
    const aims = history.now.aim === 'graduation' ? 'a graduation' : 'the lowest point of the liquid’s curve';
    return html`<div class="bench" @keydown=${this.#keyed}>
      <m-picture-board
        .picture=${this.picture}
        .label=${`Photograph of the vessel. Enter marks ${aims}.`}
        .spots=${vesselSpots(history.now)}
        .selected=${selected === null ? null : vesselSpotId(selected)}
        @place-set=${this.#set}
        @spot-picked=${this.#picked}
        @spot-moved=${this.#moved}
        @spot-removed=${this.#removed}
      >
        ${undoButtons(history, this.#send)}
      </m-picture-board>
      <div class="asks">
        ${vesselPanel(this._vessel, vesselReading(history.now), {
          send: this.#send,
          backToPicture: () => this._board?.focusPane(),
          finish: this.#finish,
        })}
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-vessel-photo': VesselPhoto;
  }
  interface HTMLElementEventMap {
    'volume-read': CustomEvent<VolumeRead>;
  }
}
