import { css, html, nothing, type CSSResult, type TemplateResult } from 'lit';
import { HELD_STATES, sharePercent, type HeldView } from './held-words.ts';
import './shape-icon.ts';

/** How a held value stands in its row. */
export const heldStyles: CSSResult = css`
  .held {
    display: grid;
    grid-template-columns: 1fr auto;
    gap: 0 var(--m-space-4);
    align-items: baseline;
    margin-top: var(--m-space-3);
    padding: var(--m-space-2) var(--m-space-3);
    border: var(--m-stroke-2) solid var(--m-line);
    border-radius: var(--m-radius-1);
  }
  .held.below,
  .held.above {
    border-color: var(--m-fail);
    background: var(--m-fail-soft);
  }
  .held.none {
    border-color: var(--m-stale);
    border-style: dashed;
    background: var(--m-stale-soft);
  }
  .held .is {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0 var(--m-space-3);
    font-size: var(--m-text-xl);
    font-weight: 600;
    line-height: 1.2;
  }
  .held .is .unit {
    color: var(--m-quiet);
    font-size: var(--m-text-l);
    font-weight: 400;
  }
  .held .stands {
    display: inline-flex;
    gap: var(--m-space-2);
    align-items: center;
    font-size: var(--m-text-l);
    font-weight: 700;
  }
  .held .aside {
    color: var(--m-quiet);
  }
  .held .right {
    text-align: right;
  }
  @container (max-width: 26rem) {
    .held {
      grid-template-columns: 1fr;
    }
    .held .right {
      text-align: left;
    }
  }
`;

/** A value that has to hold: what it is now, whether that is right, what is asked, and how much of the time it held. */
export function heldStrip(held: HeldView): TemplateResult {
  const { word, shape } = HELD_STATES[held.state];
  return html`<div class="held ${held.state}" role="group" aria-label=${held.label}>
    <span class="label">${held.label}</span>
    <span class="aside right number">asked: ${held.asked}</span>
    <span class="is number"
      ><span>${held.state === 'none' ? '– –' : held.value} <span class="unit">${held.unit}</span></span
      ><span class="stands word-${held.state}"><m-icon shape=${shape}></m-icon>${word}</span></span
    >
    ${
      held.share === null
        ? nothing
        : html`<span class="aside right number">held ${sharePercent(held.share)} of the time</span>`
    }
  </div>`;
}
