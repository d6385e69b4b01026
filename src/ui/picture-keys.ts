import type { Pixel } from '../tracing/pixel.ts';

/** What a key asks of the picture. `by` is in picture pixels. */
export type KeyWish =
  | { readonly do: 'move cross' | 'nudge'; readonly by: Pixel }
  | { readonly do: 'zoom'; readonly factor: number }
  | { readonly do: 'next'; readonly way: 1 | -1 }
  | { readonly do: 'set' | 'let go' | 'remove' | 'fit' };

interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

const ARROWS: Readonly<Record<string, Pixel>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};
/** Steps of a point that is held and of the free cross hair, picture pixels. */
export const NUDGE_PX = { fine: 0.25, usual: 1, coarse: 5 } as const;
export const CROSS_PX = { fine: 1, usual: 5, coarse: 50 } as const;
const ZOOM_STEP = 1.5;

const PLAIN: Readonly<Record<string, KeyWish>> = {
  Enter: { do: 'set' },
  ' ': { do: 'set' },
  Escape: { do: 'let go' },
  Delete: { do: 'remove' },
  Backspace: { do: 'remove' },
  '+': { do: 'zoom', factor: ZOOM_STEP },
  '=': { do: 'zoom', factor: ZOOM_STEP },
  '-': { do: 'zoom', factor: 1 / ZOOM_STEP },
  '0': { do: 'fit' },
  PageDown: { do: 'next', way: 1 },
  PageUp: { do: 'next', way: -1 },
};

/** Reads a key pressed on the picture; null for keys that are none of its business (Ctrl+Z, Tab, letters). */
export function keyWish(key: Key, holding: boolean): KeyWish | null {
  const way = ARROWS[key.key];
  if (way) {
    const size = key.shiftKey ? 'coarse' : key.altKey || key.ctrlKey ? 'fine' : 'usual';
    const step = (holding ? NUDGE_PX : CROSS_PX)[size];
    return { do: holding ? 'nudge' : 'move cross', by: { x: step * way.x, y: step * way.y } };
  }
  if (key.ctrlKey || key.metaKey || key.altKey) return null;
  return PLAIN[key.key] ?? null;
}
