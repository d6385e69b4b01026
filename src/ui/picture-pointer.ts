import type { Pixel } from '../tracing/pixel.ts';

/** What fingers and mouse ask of the picture; places in CSS pixels of the pane. */
export interface PointerWishes {
  /** The spot that a press at this place takes hold of, with its own place; null for none. */
  readonly spotAt: (at: Pixel, reach: number) => { readonly id: string; readonly at: Pixel } | null;
  readonly held: (id: string) => void;
  readonly dragged: (id: string, to: Pixel, finger: boolean) => void;
  /** The pointer looks at a place: a hovering mouse, or a finger that will set a point when it lifts. Null: it left. */
  readonly aimed: (at: Pixel | null, finger: boolean) => void;
  readonly set: (at: Pixel) => void;
  readonly panned: (by: Pixel) => void;
  readonly zoomed: (factor: number, about: Pixel) => void;
  readonly dragEnded: () => void;
}

/** How far from a spot a press still takes hold of it, CSS pixels. */
const REACH = { finger: 24, mouse: 11 } as const;
/** A mouse that moves less than this clicks; more, and it moves the picture. */
const CLICK_SLACK = 4;

type Doing =
  | { readonly kind: 'drag'; readonly id: string; readonly grip: Pixel }
  | { readonly kind: 'aim' }
  | { readonly kind: 'press'; readonly from: Pixel }
  | { readonly kind: 'pan' }
  | { readonly kind: 'pinch' };

/**
 * Turns the pointers on a pane into wishes: a mouse clicks, drags a spot or moves the picture; one finger aims under the loupe
 * and sets on lifting, or drags a spot; two fingers move and enlarge the picture. `stop()` lets go of the pane.
 */
export class PanePointers {
  readonly #pane: HTMLElement;
  readonly #wishes: PointerWishes;
  readonly #watch = new AbortController();
  readonly #down = new Map<number, Pixel>();
  #doing: Doing | null = null;

  constructor(pane: HTMLElement, wishes: PointerWishes) {
    this.#pane = pane;
    this.#wishes = wishes;
    const { signal } = this.#watch;
    pane.addEventListener('pointerdown', this.#pressed, { signal });
    pane.addEventListener('pointermove', this.#hovered, { signal });
    pane.addEventListener('pointerleave', this.#left, { signal });
    pane.addEventListener('wheel', this.#turned, { signal, passive: false });
    addEventListener('pointermove', this.#moved, { signal });
    addEventListener('pointerup', this.#lifted, { signal });
    addEventListener('pointercancel', this.#lifted, { signal });
  }

  stop(): void {
    this.#watch.abort();
  }

  #placeOf({ clientX, clientY }: MouseEvent): Pixel {
    const { left, top } = this.#pane.getBoundingClientRect();
    return { x: clientX - left - this.#pane.clientLeft, y: clientY - top - this.#pane.clientTop };
  }

  readonly #pressed = (event: PointerEvent) => {
    if (event.button > 1) return;
    const at = this.#placeOf(event);
    this.#down.set(event.pointerId, at);
    this.#doing = this.#begun(event, at);
  };

  #begun({ pointerType, button }: PointerEvent, at: Pixel): Doing {
    const finger = pointerType === 'touch';
    if (this.#down.size > 1) {
      this.#wishes.aimed(null, true);
      return { kind: 'pinch' };
    }
    if (button === 1) return { kind: 'pan' };
    const spot = this.#wishes.spotAt(at, finger ? REACH.finger : REACH.mouse);
    if (spot) {
      this.#wishes.held(spot.id);
      return { kind: 'drag', id: spot.id, grip: { x: spot.at.x - at.x, y: spot.at.y - at.y } };
    }
    if (!finger) return { kind: 'press', from: at };
    this.#wishes.aimed(at, true);
    return { kind: 'aim' };
  }

  readonly #moved = (event: PointerEvent) => {
    const at = this.#placeOf(event);
    const last = this.#down.get(event.pointerId);
    const doing = this.#doing;
    if (!last || !doing) return;
    this.#down.set(event.pointerId, at);
    const by = { x: at.x - last.x, y: at.y - last.y };
    switch (doing.kind) {
      case 'drag':
        return this.#drag(doing, at, event.pointerType === 'touch');
      case 'aim':
        return this.#wishes.aimed(at, true);
      case 'press':
        if (Math.hypot(at.x - doing.from.x, at.y - doing.from.y) > CLICK_SLACK) this.#doing = { kind: 'pan' };
        return;
      case 'pan':
        return this.#wishes.panned(by);
      case 'pinch':
        return this.#pinched(event.pointerId, last, at);
    }
  };

  #drag({ id, grip }: Extract<Doing, { kind: 'drag' }>, at: Pixel, finger: boolean): void {
    this.#wishes.dragged(id, { x: at.x + grip.x, y: at.y + grip.y }, finger);
  }

  /** One finger of a pair moved: half its way moves the picture, its distance to the other enlarges. */
  #pinched(id: number, from: Pixel, to: Pixel): void {
    const other = [...this.#down].find(([pointer]) => pointer !== id)?.[1];
    if (!other) return;
    const apart = (at: Pixel) => Math.max(1, Math.hypot(at.x - other.x, at.y - other.y));
    this.#wishes.panned({ x: (to.x - from.x) / 2, y: (to.y - from.y) / 2 });
    this.#wishes.zoomed(apart(to) / apart(from), { x: (to.x + other.x) / 2, y: (to.y + other.y) / 2 });
  }

  readonly #lifted = (event: PointerEvent) => {
    const doing = this.#doing;
    if (!this.#down.delete(event.pointerId) || !doing) return;
    if (event.type === 'pointerup' && (doing.kind === 'aim' || doing.kind === 'press'))
      this.#wishes.set(this.#placeOf(event));
    if (doing.kind === 'drag') this.#wishes.dragEnded();
    if (event.pointerType === 'touch') this.#wishes.aimed(null, true);
    // After a pinch the last finger does nothing more until it lifts: it would set a point by accident.
    if (this.#down.size === 0) this.#doing = null;
  };

  readonly #hovered = (event: PointerEvent) => {
    if (this.#down.size === 0 && event.pointerType !== 'touch')
      this.#wishes.aimed(this.#placeOf(event), false);
  };

  readonly #left = () => {
    if (this.#down.size === 0) this.#wishes.aimed(null, false);
  };

  readonly #turned = (event: WheelEvent) => {
    event.preventDefault();
    const notch = event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 100 : 3;
    const notches = Math.max(-3, Math.min(3, -event.deltaY / notch));
    this.#wishes.zoomed(1.25 ** notches, this.#placeOf(event));
  };
}
