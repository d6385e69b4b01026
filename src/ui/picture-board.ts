import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Picture, Pixel } from '../tracing/pixel.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import { pictureBoardStyles } from './picture-board-styles.ts';
import { keyWish, type KeyWish } from './picture-keys.ts';
import { nudgeButtons, zoomButtons } from './picture-nudges.ts';
import {
  loupeMiddle,
  paintPicture,
  type Loupe,
  type PictureLine,
  type PictureSpot,
} from './picture-paint.ts';
import { PanePointers, type PointerWishes } from './picture-pointer.ts';
import {
  fitView,
  insidePicture,
  panView,
  showPlace,
  toPicture,
  toScreen,
  zoomView,
  type Extent,
  type PictureView,
} from './picture-view.ts';
import { ThemeWatch } from './theme-watch.ts';

/** A place was chosen by a click, a lifted finger or Enter; pixels of the picture. */
export interface PlaceSet {
  readonly at: Pixel;
  readonly by: 'pointer' | 'keys';
}
/** A spot was moved; one `gesture` is one step back. */
export interface SpotMoved {
  readonly id: string;
  readonly at: Pixel;
  readonly gesture: string | null;
}

/** Keys take hold of a spot that lies within this of the cross hair, CSS pixels. */
const KEY_REACH = 7;

/**
 * `m-picture-board`: a picture with spots and lines on it, to point at exactly: zoom, pan, loupe, cross hair; mouse, touch
 * and keyboard alike. Events: `place-set`, `spot-picked`, `spot-moved`, `spot-removed`. It changes nothing itself.
 */
@customElement('m-picture-board')
export class PictureBoard extends LitElement {
  static override styles = [baseStyles, buttonStyles, pictureBoardStyles];

  @property({ attribute: false }) picture: Picture | null = null;
  /** What the picture is and what a place does now; read out when the board is reached. */
  @property() label = '';
  @property({ attribute: false }) spots: readonly PictureSpot[] = [];
  @property({ attribute: false }) lines: readonly PictureLine[] = [];
  @property({ attribute: false }) selected: string | null = null;
  /** A place in words, e.g. in the units of the chart. */
  @property({ attribute: false }) describe: (at: Pixel) => string = ({ x, y }) =>
    `${x.toFixed(0)} across, ${y.toFixed(0)} down`;
  @state() private _cross: Pixel | null = null;
  @state() private _byKeys = false;
  @query('.pane') private _pane!: HTMLElement;
  @query('canvas') private _canvas!: HTMLCanvasElement;
  readonly #theme = new ThemeWatch(this, () => this.#paint());
  readonly #size = new ResizeObserver(() => this.#sized());
  #image: OffscreenCanvas | null = null;
  #fit: PictureView = { scale: 1, left: 0, top: 0 };
  #view: PictureView = this.#fit;
  #extent: Extent = { width: 1, height: 1 };
  #finger = false;
  #gesture = 0;
  #frame = 0;
  #pointers: PanePointers | null = null;

  /** Where a place of the picture is on the page now, client pixels. */
  clientPlace(at: Pixel): Pixel {
    const { left, top } = this._canvas.getBoundingClientRect();
    const { x, y } = toScreen(this.#view, at);
    return { x: left + x, y: top + y };
  }

  /** Brings the keyboard to the picture. */
  focusPane(): void {
    this._pane.focus({ preventScroll: true });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.#watch();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#pointers?.stop();
    this.#size.disconnect();
    cancelAnimationFrame(this.#frame);
  }

  protected override firstUpdated(): void {
    this.#watch();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('picture')) this.#load();
    if (changed.has('selected')) this.#showSelected();
  }

  protected override updated(): void {
    this.#paint();
  }

  #watch(): void {
    this.#pointers = new PanePointers(this._pane, this.#wishes);
    this.#size.observe(this._pane);
  }

  #load(): void {
    const { picture } = this;
    this.#image = null;
    this._cross = null;
    if (!picture) return;
    const { width, height } = picture;
    this.#image = new OffscreenCanvas(width, height);
    const image = new ImageData(new Uint8ClampedArray(picture.data), width, height);
    this.#image.getContext('2d')?.putImageData(image, 0, 0);
    this.#fit = fitView(picture, this.#extent);
    this.#view = this.#fit;
  }

  #sized(): void {
    const { clientWidth: width, clientHeight: height } = this._pane;
    if (width === 0 || (width === this.#extent.width && height === this.#extent.height)) return;
    const fitted = this.#view === this.#fit;
    this.#extent = { width, height };
    if (this.picture) this.#fit = fitView(this.picture, this.#extent);
    if (fitted || this.#view.scale < this.#fit.scale) this.#view = this.#fit;
    this.#paint();
  }

  #paint(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = requestAnimationFrame(() => this.#paintNow());
  }

  #paintNow(): void {
    const ratio = devicePixelRatio;
    const { width, height } = this.#extent;
    this._canvas.width = Math.round(width * ratio);
    this._canvas.height = Math.round(height * ratio);
    const context = this._canvas.getContext('2d');
    if (!context || !this.#image) return;
    context.scale(ratio, ratio);
    paintPicture(context, {
      image: this.#image,
      view: this.#view,
      spots: this.spots,
      lines: this.lines,
      selected: this.selected,
      cross: this.#finger ? null : this._cross,
      loupe: this.#loupe(),
      colour: (name) => this.#theme.colour(name),
    });
  }

  #loupe(): Loupe | null {
    const at = this._cross;
    return at && { at, middle: loupeMiddle(toScreen(this.#view, at), this.#extent, this.#finger) };
  }

  #tell<T>(name: string, detail: T): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #spotAt(at: Pixel, reach: number): { id: string; at: Pixel } | null {
    const near = this.spots
      .filter(({ fixed }) => !fixed)
      .map(({ id, at: place }) => ({ id, at: toScreen(this.#view, place) }))
      .map((spot) => ({ ...spot, off: Math.hypot(spot.at.x - at.x, spot.at.y - at.y) }))
      .filter(({ off }) => off <= reach);
    return near.reduce<(typeof near)[number] | null>(
      (best, spot) => (best && best.off <= spot.off ? best : spot),
      null,
    );
  }

  #inside(screen: Pixel): Pixel {
    return this.picture ? insidePicture(toPicture(this.#view, screen), this.picture) : screen;
  }

  #look(view: PictureView): void {
    this.#view = view;
    this.#paint();
  }

  readonly #wishes: PointerWishes = {
    spotAt: (at, reach) => this.#spotAt(at, reach),
    held: (id) => {
      this.#gesture++;
      this._byKeys = false;
      this.#tell('spot-picked', id);
    },
    dragged: (id, to, finger) => {
      this.#finger = finger;
      this._cross = this.#inside(to);
      this.#tell<SpotMoved>('spot-moved', { id, at: this._cross, gesture: `drag ${this.#gesture}` });
    },
    aimed: (at, finger) => {
      // A finger that lifts has no place any more; the last place by keys stays for the keys.
      if (!at && this._byKeys) return;
      this.#finger = finger;
      this._byKeys = false;
      this._cross = at && this.#inside(at);
    },
    set: (at) => this.picture && this.#tell<PlaceSet>('place-set', { at: this.#inside(at), by: 'pointer' }),
    panned: (by) => this.picture && this.#look(panView(this.#view, by, this.picture, this.#extent)),
    zoomed: (factor, about) => this.#zoom(factor, about),
    dragEnded: () => {
      this.#finger = false;
      this.#paint();
    },
  };

  #zoom(factor: number, about: Pixel | null): void {
    const middle = { x: this.#extent.width / 2, y: this.#extent.height / 2 };
    this.#look(zoomView(this.#view, factor, about ?? middle, this.#fit));
  }

  /** Takes the middle of what is in view where the cross hair was nowhere. */
  #crossNow(): Pixel {
    const { width, height } = this.#extent;
    return this._cross ?? this.#inside({ x: width / 2, y: height / 2 });
  }

  #aimByKeys(at: Pixel): void {
    if (!this.picture) return;
    this.#finger = false;
    this._byKeys = true;
    this._cross = insidePicture(at, this.picture);
    this.#look(showPlace(this.#view, this._cross, this.#extent));
  }

  #showSelected(): void {
    const spot = this.spots.find(({ id }) => id === this.selected);
    if (spot && this._byKeys) this.#aimByKeys(spot.at);
  }

  readonly #keyed = (event: KeyboardEvent) => {
    const wish = this.picture ? keyWish(event, this.selected !== null) : null;
    if (!wish) return;
    event.preventDefault();
    event.stopPropagation();
    this.#grant(wish);
  };

  #grant(wish: KeyWish): void {
    const cross = this.#crossNow();
    const spot = this.spots.find(({ id }) => id === this.selected);
    switch (wish.do) {
      case 'move cross':
        return this.#aimByKeys({ x: cross.x + wish.by.x, y: cross.y + wish.by.y });
      case 'nudge':
        return this.#nudge(spot, wish.by);
      case 'zoom':
        return this.#zoom(wish.factor, this._cross && toScreen(this.#view, this._cross));
      case 'fit':
        return this.#look(this.#fit);
      case 'set':
        return this.#setByKeys(cross);
      case 'next':
        return this.#next(wish.way);
      case 'let go':
        return this.#tell('spot-picked', null);
      case 'remove':
        return spot && this.#tell('spot-removed', spot.id);
    }
  }

  #nudge(spot: PictureSpot | undefined, by: Pixel): void {
    if (!spot || !this.picture) return;
    const at = insidePicture({ x: spot.at.x + by.x, y: spot.at.y + by.y }, this.picture);
    this.#aimByKeys(at);
    this.#tell<SpotMoved>('spot-moved', { id: spot.id, at, gesture: null });
  }

  /** Enter lets go of what is held, takes hold of what lies under the cross hair, or sets a place there. */
  #setByKeys(cross: Pixel): void {
    this.#aimByKeys(cross);
    if (this.selected !== null) return this.#tell('spot-picked', null);
    const under = this.#spotAt(toScreen(this.#view, cross), KEY_REACH);
    if (under) this.#tell('spot-picked', under.id);
    else this.#tell<PlaceSet>('place-set', { at: cross, by: 'keys' });
  }

  #next(way: 1 | -1): void {
    const free = this.spots.filter(({ fixed }) => !fixed);
    if (free.length === 0) return;
    const now = free.findIndex(({ id }) => id === this.selected);
    const next = now < 0 ? (way > 0 ? 0 : free.length - 1) : (now + way + free.length) % free.length;
    this._byKeys = true;
    this.#tell('spot-picked', free[next]!.id);
  }

  override render() {
    return html`<div
        class="pane"
        role="application"
        tabindex="0"
        aria-label=${this.label}
        aria-describedby="keys"
        @keydown=${this.#keyed}
      >
        <canvas aria-hidden="true"></canvas>
      </div>
      <p id="keys" class="unseen">
        Arrow keys move the cross hair, with Shift faster, with Alt one pixel. Enter sets a place or takes
        hold of what is there. Page up and page down take hold of the next; then arrow keys move it by 1
        pixel, with Shift by 5, with Alt by a quarter. Delete removes it, Escape lets go. Plus, minus and 0
        zoom.
      </p>
      <div class="tools">
        ${zoomButtons((factor) => this.#zoom(factor, null))}
        <button type="button" @click=${() => this.#look(this.#fit)}>Fit</button>
        <slot name="tools"></slot>
      </div>
      ${this.selected === null ? nothing : nudgeButtons((by) => this.#grant({ do: 'nudge', by }))}
      <p class="readout number" aria-live=${this._byKeys ? 'polite' : 'off'}>
        ${this._cross ? this.describe(this._cross) : 'Point at the picture.'}
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-picture-board': PictureBoard;
  }
  interface HTMLElementEventMap {
    'place-set': CustomEvent<PlaceSet>;
    'spot-picked': CustomEvent<string | null>;
    'spot-moved': CustomEvent<SpotMoved>;
    'spot-removed': CustomEvent<string>;
  }
}
