import { html, type TemplateResult } from 'lit';
import type { Pixel } from '../tracing/pixel.ts';
import './shape-icon.ts';

const WAYS: readonly (readonly [word: string, arrow: string, by: Pixel])[] = [
  ['left', '←', { x: -1, y: 0 }],
  ['right', '→', { x: 1, y: 0 }],
  ['up', '↑', { x: 0, y: -1 }],
  ['down', '↓', { x: 0, y: 1 }],
];

/** Buttons that move the held spot by one pixel: what a finger covers it cannot place so finely. */
export const nudgeButtons = (nudge: (by: Pixel) => void): TemplateResult =>
  html`<div class="tools nudges" role="group" aria-label="Move what is held">
    ${WAYS.map(
      ([word, arrow, by]) =>
        html`<button type="button" aria-label="Move it ${word} by one pixel" @click=${() => nudge(by)}>
          ${arrow}
        </button>`,
    )}
  </div>`;

const STEP = 1.5;

/** Buttons that enlarge and shrink the picture. */
export const zoomButtons = (zoom: (factor: number) => void): TemplateResult =>
  html`<button type="button" aria-label="Zoom in" @click=${() => zoom(STEP)}>
      <m-icon shape="plus"></m-icon>
    </button>
    <button type="button" aria-label="Zoom out" @click=${() => zoom(1 / STEP)}>
      <m-icon shape="none"></m-icon>
    </button>`;
