import { css, type CSSResult } from 'lit';
import { stateStyles } from './sheet-state-styles.ts';

/** Families as panels, revisions as rows below each other, the serial numbers as a bar of named pieces. */
export const sheetListStyles: CSSResult = css`
  ${stateStyles}
  :host {
    container-type: inline-size;
  }
  .list,
  .panel,
  .sheets {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-4);
  }
  h2 {
    font-size: var(--m-text-xl);
    line-height: 1.15;
    overflow-wrap: anywhere;
  }
  h3 {
    font-size: var(--m-text-l);
    line-height: 1.2;
    overflow-wrap: anywhere;
  }
  .sheet {
    display: grid;
    gap: var(--m-space-2);
    padding: var(--m-space-4);
    border: var(--m-stroke-1) solid var(--m-line);
    border-left: var(--m-space-1) solid var(--m-line);
  }
  .sheet.holds {
    border-left-color: var(--m-pass);
  }
  .states {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
  }
  .why {
    max-width: var(--m-measure);
  }
  dl {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: 0 var(--m-space-4);
  }
  dt {
    color: var(--m-quiet);
  }
  dd {
    overflow-wrap: anywhere;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
    margin-top: var(--m-space-2);
  }
  .bar ol {
    display: flex;
    gap: var(--m-stroke-2);
    margin-block: var(--m-space-1) var(--m-space-2);
  }
  .piece {
    flex: 1 1 0;
    display: grid;
    align-content: space-between;
    min-width: 0;
    padding: var(--m-space-2) var(--m-space-3);
    border-top: var(--m-space-2) solid var(--m-pass);
    background: var(--m-pass-soft);
    font-weight: 600;
    overflow-wrap: anywhere;
  }
  .piece m-icon {
    margin-right: var(--m-space-1);
  }
  .piece .ends {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    font-weight: 400;
  }
  .piece.gap {
    border-top-color: var(--m-invalid);
    border-top-style: dashed;
    background: var(--m-invalid-soft);
    color: var(--m-invalid);
  }
  .piece.overlap {
    border-top-color: var(--m-marginal);
    border-top-style: double;
    background: var(--m-marginal-soft);
    color: var(--m-marginal);
  }
  .piece.gap .ends,
  .piece.overlap .ends {
    color: var(--m-ink);
  }
  .odd {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: var(--m-space-2);
    font-weight: 600;
  }
  .odd m-icon {
    margin-top: 0.15em;
  }
  .odd.gap {
    color: var(--m-invalid);
  }
  .odd.overlap {
    color: var(--m-marginal);
  }
  .ways {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(15rem, 100%), 1fr));
    gap: var(--m-space-3);
    width: 100%;
    margin-top: var(--m-space-3);
  }
  .way {
    justify-content: start;
    gap: var(--m-space-3);
    width: 100%;
    height: 100%;
    padding: var(--m-space-4);
    text-align: left;
  }
  .way m-icon {
    color: var(--m-accent);
    font-size: var(--m-text-xl);
  }
  .way small {
    display: block;
    margin-top: var(--m-space-1);
    color: var(--m-quiet);
    font-size: var(--m-text-s);
    font-weight: 400;
  }
  @container (max-width: 34rem) {
    .panel {
      padding: var(--m-space-3);
    }
    .sheet {
      padding: var(--m-space-3);
    }
    .bar ol {
      flex-direction: column;
    }
    .piece {
      border-top: 0;
      border-left: var(--m-space-2) solid var(--m-pass);
    }
    .piece.gap {
      border-left-color: var(--m-invalid);
      border-left-style: dashed;
    }
    .piece.overlap {
      border-left-color: var(--m-marginal);
      border-left-style: double;
    }
    .actions button {
      flex: 1 1 auto;
    }
  }
`;
