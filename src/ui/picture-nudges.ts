import { html, type TemplateResult } from 'lit';
import type { Pixel } from '../tracing/pixel.ts';

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
