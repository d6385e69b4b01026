import { css, type CSSResult } from 'lit';

/** A state as a plate: shape, word and colour together. */
export const stateStyles: CSSResult = css`
  .state {
    display: inline-grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    align-items: start;
    padding: var(--m-space-1) var(--m-space-3);
    border-radius: var(--m-radius-1);
    background: var(--m-invalid-soft);
    color: var(--m-invalid);
    font-weight: 600;
  }
  .state m-icon {
    margin-top: 0.15em;
  }
  .state.pass {
    background: var(--m-pass-soft);
    color: var(--m-pass);
  }
  .state.marginal {
    background: var(--m-marginal-soft);
    color: var(--m-marginal);
  }
  .state.fail {
    background: var(--m-fail-soft);
    color: var(--m-fail);
  }
  .state.unsure {
    background: var(--m-unsure-soft);
    color: var(--m-unsure);
  }
`;
