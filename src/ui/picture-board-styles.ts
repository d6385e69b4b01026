import { css, type CSSResult } from 'lit';

/** The board: a sunken pane as high as the window allows, tools as large as gloves below it. */
export const pictureBoardStyles: CSSResult = css`
  :host {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--m-space-2);
  }
  .pane {
    position: relative;
    height: clamp(18rem, 64vh, 48rem);
    overflow: hidden;
    border: var(--m-stroke-1) solid var(--m-line);
    border-radius: var(--m-radius-1);
    background: var(--m-sunken);
    cursor: crosshair;
    touch-action: none;
    user-select: none;
    -webkit-user-select: none;
  }
  canvas {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2);
  }
  .readout {
    min-height: 1.45em;
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
  @media (max-width: 40rem) {
    .pane {
      height: clamp(14rem, 42vh, 26rem);
    }
    .tools {
      flex-wrap: nowrap;
      gap: var(--m-space-1);
    }
    .tools button,
    ::slotted(button) {
      flex: 1 1 0;
      padding-inline: var(--m-space-1);
    }
  }
`;
