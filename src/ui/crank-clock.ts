import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, panelStyles } from './base-styles.ts';
import {
  CLOCK_STATES,
  clockFigure,
  clockFill,
  clockPrompt,
  WAITING_CLOCK,
  type ClockView,
} from './crank-clock-words.ts';
import './shape-icon.ts';

/** Bar in drawing units: one tick a second would be too fine beyond a minute. */
const BAR_WIDTH = 1000;
const BAR_HEIGHT = 60;

/**
 * `m-crank-clock`: how long the starter has turned, of how long. A tube that fills, a figure for three metres, and one
 * sentence that says what to do. Only the sentence is announced.
 */
@customElement('m-crank-clock')
export class CrankClock extends LitElement {
  static override styles = [
    baseStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel {
        border-top: var(--m-space-1) solid var(--m-mark);
      }
      .cranking {
        border-top-color: var(--m-cranking);
      }
      .done {
        border-top-color: var(--m-pass);
      }
      .over {
        border-top-color: var(--m-fail);
      }
      .top,
      .total {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: 0 var(--m-space-4);
        font-size: var(--m-text-l);
      }
      .total {
        margin-top: var(--m-space-2);
        color: var(--m-quiet);
        font-size: var(--m-text-m);
      }
      .crank {
        font-weight: 700;
      }
      .state {
        display: inline-flex;
        align-items: center;
        gap: var(--m-space-2);
      }
      .cranking .state {
        color: var(--m-cranking);
      }
      .done .state {
        color: var(--m-pass);
      }
      .over .state,
      .over .figure {
        color: var(--m-fail);
      }
      .time {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0 var(--m-space-3);
        line-height: 1.05;
      }
      .figure {
        font-size: var(--m-text-huge);
        font-weight: 600;
        letter-spacing: -0.01em;
      }
      .beside {
        color: var(--m-quiet);
        font-size: var(--m-text-beside);
        padding-bottom: var(--m-space-2);
      }
      svg {
        display: block;
        width: 100%;
        height: var(--m-space-7);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-right-width: var(--m-space-1);
        border-radius: var(--m-radius-1);
        background: var(--m-sunken);
      }
      .fill {
        fill: var(--m-cranking);
      }
      .resting .fill {
        fill: var(--m-stale);
      }
      .done .fill {
        fill: var(--m-pass);
      }
      .over .fill {
        fill: var(--m-fail);
      }
      .tick {
        stroke: var(--m-mark);
        stroke-width: 1;
        vector-effect: non-scaling-stroke;
      }
      .tick.long {
        stroke-width: 2;
      }
      .prompt {
        min-height: 1.3em;
        margin-top: var(--m-space-3);
        padding: var(--m-space-2) var(--m-space-3);
        border-left: var(--m-space-1) solid var(--m-mark);
        background: var(--m-sunken);
        font-size: var(--m-text-xl);
        font-weight: 700;
        line-height: 1.3;
      }
      .soon .prompt {
        border-color: var(--m-marginal);
        background: var(--m-marginal-soft);
        color: var(--m-marginal);
      }
      .now .prompt {
        border-color: var(--m-accent);
        background: var(--m-accent);
        color: var(--m-on-solid);
      }
      .over .prompt {
        border-color: var(--m-fail);
        background: var(--m-fail);
        color: var(--m-on-solid);
      }
    `,
  ];

  @property({ attribute: false }) view: ClockView = WAITING_CLOCK;

  #tone(): string {
    const { state, warn } = this.view;
    if (state === 'over time' || warn === 'over') return 'over';
    if (state !== 'cranking') return state;
    if (warn === 'now') return 'cranking now';
    return warn === null ? 'cranking' : 'cranking soon';
  }

  #bar() {
    const { part, ofSeconds } = clockFill(this.view);
    const step = ofSeconds > 60 ? 5 : 1;
    const ticks = Array.from(
      { length: Math.max(0, Math.ceil(ofSeconds / step) - 1) },
      (_, index) => index + 1,
    );
    return html`<svg viewBox="0 0 ${BAR_WIDTH} ${BAR_HEIGHT}" preserveAspectRatio="none" aria-hidden="true">
      ${svg`<rect class="fill" width=${part * BAR_WIDTH} height=${BAR_HEIGHT} />`}
      ${ticks.map((tick) => {
        const x = ((tick * step) / ofSeconds) * BAR_WIDTH;
        const long = tick % 5 === 0;
        return svg`<line class="tick ${long ? 'long' : ''}" x1=${x} x2=${x} y1=${long ? 26 : 42} y2=${BAR_HEIGHT} />`;
      })}
    </svg>`;
  }

  override render() {
    const { view } = this;
    const { figure, beside } = clockFigure(view);
    const { word, shape } = CLOCK_STATES[view.state];
    return html`<section class="panel ${this.#tone()}" aria-label="Crank clock">
      <p class="top">
        <span class="crank">Crank ${view.crankNumber} of ${view.cranks}</span>
        <span class="state"><m-icon shape=${shape}></m-icon>${word}</span>
      </p>
      <p class="time"><span class="figure number">${figure}</span><span class="beside">${beside}</span></p>
      ${this.#bar()}
      <p class="total number">
        <span>Cranked in all ${view.totalSeconds.toFixed(1)} of ${view.totalTarget} s</span>
        ${view.restSeconds > 0 ? html`<span>rest between cranks ${view.restSeconds} s</span>` : ''}
      </p>
      <p class="prompt" role="status">${clockPrompt(view)}</p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-crank-clock': CrankClock;
  }
}
