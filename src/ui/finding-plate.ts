import { css, html, type CSSResult, type TemplateResult } from 'lit';
import type { FindingLook } from './finding-look.ts';
import { stateStyles } from './sheet-state-styles.ts';
import './shape-icon.ts';

/** The plate of a finding: shape, word and colour together. */
export const findingStyles: CSSResult = css`
  ${stateStyles}
  .state.plain {
    background: var(--m-sunken);
    color: var(--m-quiet);
  }
  .state.stale {
    background: var(--m-stale-soft);
    color: var(--m-stale);
  }
  .state.cranking {
    background: var(--m-cranking-soft);
    color: var(--m-cranking);
  }
  @media print {
    .state {
      padding-inline: 0;
      background: none;
      color: var(--m-ink);
    }
  }
`;

/** A finding as a plate. */
export const findingPlate = ({ shape, kind, words }: FindingLook): TemplateResult =>
  html`<span class="state ${kind}"><m-icon shape=${shape}></m-icon><span>${words}</span></span>`;
