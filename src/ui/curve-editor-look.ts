import { css, type CSSResult } from 'lit';

/** Table beside the chart where there is room, below it on a phone. */
export const curveEditorStyles: CSSResult = css`
  :host {
    container-type: inline-size;
  }
  .toolbar {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-3) var(--m-space-5);
    justify-content: space-between;
    margin-bottom: var(--m-space-3);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
  }
  m-curve-paste {
    margin-bottom: var(--m-space-4);
  }
  .both {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(22rem, 27rem);
    gap: var(--m-space-5);
    align-items: start;
  }
  m-curve-chart.panel {
    padding: var(--m-space-3);
  }
  .side {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
    min-width: 0;
  }
  [role='tablist'] {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    border-bottom: var(--m-stroke-2) solid var(--m-ink);
  }
  [role='tab'] {
    gap: var(--m-space-1) var(--m-space-2);
    padding: var(--m-space-2);
    border: 0;
    border-radius: 0;
    background: transparent;
    text-align: left;
  }
  [role='tab'][aria-selected='true'] {
    background: var(--m-ink);
    color: var(--m-surface);
  }
  /* The cut of a shape is drawn in the ground's colour, which is ink here. */
  [role='tab'][aria-selected='true'] m-icon {
    --m-surface: var(--m-ink);
  }
  [role='tab'] small {
    display: block;
    font-size: var(--m-text-s);
    font-weight: 400;
  }
  [role='tab'][aria-selected='false'] .is-pass {
    color: var(--m-pass);
  }
  [role='tab'][aria-selected='false'] .is-fail {
    color: var(--m-fail);
  }
  @container (max-width: 52rem) {
    .both {
      grid-template-columns: minmax(0, 1fr);
      gap: var(--m-space-4);
    }
    m-curve-chart.panel {
      padding: var(--m-space-2) 0;
      border-inline: 0;
    }
  }
  @container (max-width: 30rem) {
    .row button {
      flex: 1 1 auto;
    }
    .toolbar fieldset {
      width: 100%;
    }
    .choices label {
      flex: 1 1 auto;
      padding: 0 var(--m-space-2);
    }
    [role='tab'] m-icon {
      display: none;
    }
  }
  .printed {
    display: none;
  }
  @media print {
    .printed {
      display: block;
    }
    .toolbar,
    m-curve-try {
      display: none;
    }
  }
`;
