import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatNumber } from '../quantities/format.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { figureSize, liveStyles } from './live-styles.ts';
import './shape-icon.ts';
import { spanWords } from './span-words.ts';
import { tableStyles } from './table-styles.ts';

/** How a band did; `few`: too little time in it to say; `measured`: there is no limit to hold it against. */
export type BandGrade = 'good' | 'short' | 'over' | 'few' | 'measured';

/** One cell of speed by load. Mean shortfall: commanded minus actual, positive where pressure is missing; in the unit shown. */
export interface DeviationCell {
  readonly seconds: number;
  readonly meanShortfall: number | null;
  readonly grade: BandGrade;
}

export interface WorstStretch {
  readonly startMs: number;
  readonly endMs: number;
  readonly meanShortfall: number;
  readonly mostShortfall: number;
  readonly speedRpm: number | null;
  readonly loadPercent: number | null;
}

/** A drive as it is to be shown: pressures in the person's unit. */
export interface DeviationView {
  readonly recording: boolean;
  readonly seconds: number;
  readonly neededSeconds: number;
  /** Worst mean shortfall over a stretch of `stretchSeconds`; null before there is one. */
  readonly worst: number | null;
  readonly stretchSeconds: number;
  readonly unit: string;
  readonly digits: number;
  /** Names of the bands, and cells as rows of speed with a cell for each load. */
  readonly speedBands: readonly string[];
  readonly loadBands: readonly string[];
  readonly cells: readonly (readonly DeviationCell[])[];
  readonly stretches: readonly WorstStretch[];
  readonly words: string;
}

export interface StretchShown {
  readonly startMs: number;
  readonly endMs: number;
}

const GRADES = {
  good: { word: 'follows', shape: 'pass' },
  short: { word: 'falls short', shape: 'falling' },
  over: { word: 'runs over', shape: 'rising' },
  few: { word: 'too little time', shape: 'none' },
  measured: { word: 'measured', shape: 'info' },
} as const;

/**
 * `m-deviation`: actual against commanded pressure over a drive. While it records it is big, dim and has nothing to press, for nobody looks
 * at a screen while driving; afterwards the worst shortfall, a table by speed and load, and the worst stretches.
 * Event: `stretch-show`.
 */
@customElement('m-deviation')
export class Deviation extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    tableStyles,
    liveStyles,
    css`
      .recording {
        min-height: 40vh;
        border-color: var(--m-mark);
        background: var(--m-sunken);
        color: var(--m-quiet);
      }
      .recording .caution {
        font-size: var(--m-text-word);
        font-weight: 700;
        line-height: 1.05;
      }
      .recording .time {
        margin-top: var(--m-space-5);
        font-size: var(--m-text-xl);
      }
      .scroll {
        margin-top: var(--m-space-4);
        overflow-x: auto;
      }
      .cell {
        border: var(--m-stroke-1) solid var(--m-line);
        white-space: nowrap;
      }
      .cell small {
        display: block;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      .cell.good {
        background: var(--m-pass-soft);
      }
      .cell.short {
        background: var(--m-fail-soft);
        font-weight: 700;
      }
      .cell.over {
        background: var(--m-marginal-soft);
      }
      .cell.few {
        color: var(--m-quiet);
      }
      h3 {
        margin-top: var(--m-space-4);
        font-size: var(--m-text-l);
      }
      .stretch {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2) var(--m-space-4);
        align-items: center;
        justify-content: space-between;
        padding: var(--m-space-2) 0;
        border-bottom: var(--m-stroke-1) solid var(--m-line);
      }
    `,
  ];

  @property({ attribute: false }) view: DeviationView | null = null;

  #shown(value: number | null): string {
    return formatNumber(value, { decimals: this.view?.digits ?? 0 });
  }

  #show({ startMs, endMs }: WorstStretch) {
    const detail: StretchShown = { startMs, endMs };
    this.dispatchEvent(new CustomEvent('stretch-show', { detail, bubbles: true, composed: true }));
  }

  #recording({ seconds, neededSeconds }: DeviationView) {
    const left = neededSeconds - seconds;
    return html`<section class="panel recording" aria-label="Recording the drive">
      <p class="caution" role="status">Eyes on the road. Recording goes on by itself.</p>
      <p class="time number">
        ${spanWords(seconds)} recorded${left > 0 ? `, ${spanWords(left)} more at least` : ', enough'}
      </p>
    </section>`;
  }

  #cell(cell: DeviationCell) {
    const { word, shape } = GRADES[cell.grade];
    return html`<td class="cell number ${cell.grade}">
      <m-icon shape=${shape}></m-icon> ${cell.meanShortfall === null ? '–' : this.#shown(cell.meanShortfall)}
      <small>${word}, ${spanWords(cell.seconds)}</small>
    </td>`;
  }

  #table({ speedBands, loadBands, cells, unit }: DeviationView) {
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Shortfall by speed and load">
      <table>
        <caption>
          Mean shortfall, ${unit}, by speed and load
        </caption>
        <thead>
          <tr>
            <th scope="col" class="word">speed</th>
            ${loadBands.map((band) => html`<th scope="col">${band}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${cells.map(
            (row, at) =>
              html`<tr>
                <th scope="row">${speedBands[at]}</th>
                ${row.map((cell) => this.#cell(cell))}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  #stretches({ stretches, unit }: DeviationView) {
    if (stretches.length === 0) return nothing;
    return html`<h3>Worst stretches</h3>
      <ol>
        ${stretches.map((stretch, at) => {
          const { speedRpm, loadPercent } = stretch;
          return html`<li class="stretch number">
            <span
              >${at + 1}. at ${spanWords(stretch.startMs / 1000)}: mean ${this.#shown(stretch.meanShortfall)}
              ${unit} short, most ${this.#shown(stretch.mostShortfall)}
              ${unit}${speedRpm === null ? '' : `, ${formatNumber(speedRpm, { decimals: 0 })} rpm`}${loadPercent === null ? '' : `, ${formatNumber(loadPercent, { decimals: 0 })} % load`}</span
            >
            <button aria-label="Show stretch ${at + 1} in the trace" @click=${() => this.#show(stretch)}>
              Show
            </button>
          </li>`;
        })}
      </ol>`;
  }

  override render() {
    const { view } = this;
    if (!view) return nothing;
    if (view.recording) return this.#recording(view);
    const shown = this.#shown(view.worst);
    return html`<section class="panel" aria-label="Actual against commanded pressure">
      <p class="top"><span class="name">Worst mean shortfall over ${view.stretchSeconds} s</span></p>
      <p class="huge">
        <span class="figure number ${figureSize(shown)} ${view.worst === null ? 'none' : ''}">${shown}</span
        ><span class="beside">${view.unit}</span>
      </p>
      <p class="prompt" role="status">${view.words}</p>
      ${this.#table(view)} ${this.#stretches(view)}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-deviation': Deviation;
  }
  interface HTMLElementEventMap {
    'stretch-show': CustomEvent<StretchShown>;
  }
}
