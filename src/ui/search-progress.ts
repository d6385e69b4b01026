import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './progress-note.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';

/** `no` is an answer, not a failure: this speed gave nothing readable, so the next one is tried. */
export type StepState = 'ahead' | 'now' | 'yes' | 'no';

/** One step of the search in plain words, e.g. "Trying 500,000 baud". `result`: what came of it. */
export interface SearchStep {
  readonly text: string;
  readonly state: StepState;
  readonly result?: string;
}

/** How the search ended. `facts` stand beside each other, e.g. "115,200 baud", "250 kbit/s", "listen-only". */
export interface SearchOutcome {
  readonly tone: 'found' | 'silent' | 'nothing';
  readonly headline: string;
  readonly facts: readonly string[];
  /** What to do now; empty when nothing is left to do. */
  readonly advice: string;
}

const STEP_SHAPES: Readonly<Record<StepState, { shape: IconShape; word: string }>> = {
  ahead: { shape: 'waiting', word: 'not tried yet' },
  now: { shape: 'opening', word: 'now' },
  yes: { shape: 'pass', word: 'yes' },
  no: { shape: 'none', word: 'no' },
};
const TONES: Readonly<Record<SearchOutcome['tone'], { shape: IconShape; word: string }>> = {
  found: { shape: 'pass', word: 'Found' },
  silent: { shape: 'resting', word: 'Waiting' },
  nothing: { shape: 'unsure', word: 'Not found' },
};

/**
 * `m-search-progress`: what is being tried while a bridge is found, and what was found. Only the step is announced, not the
 * seconds. Says `search-stopped` when the person has had enough.
 */
@customElement('m-search-progress')
export class SearchProgress extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .top {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--m-space-3) var(--m-space-4);
        align-items: center;
      }
      h2 {
        font-size: var(--m-text-xl);
        line-height: 1.15;
        overflow-wrap: anywhere;
      }
      .elapsed {
        font-size: var(--m-text-xxl);
        font-weight: 600;
        line-height: 1;
        white-space: nowrap;
      }
      .elapsed small {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
        font-weight: 400;
      }
      m-progress {
        margin: var(--m-space-4) 0;
      }
      li {
        display: grid;
        grid-template-columns: auto 1fr auto;
        gap: 0 var(--m-space-3);
        align-items: start;
        padding: var(--m-space-1) 0;
        color: var(--m-quiet);
      }
      li.now {
        color: var(--m-ink);
        font-weight: 700;
      }
      li m-icon {
        margin-top: 0.15em;
      }
      ol {
        margin-top: var(--m-space-4);
      }
      li.yes m-icon {
        color: var(--m-pass);
      }
      li.now m-icon {
        color: var(--m-accent);
      }
      .result {
        font-size: var(--m-text-s);
        font-weight: 400;
        text-align: right;
      }
      .outcome {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-1) var(--m-space-3);
        margin-top: var(--m-space-4);
        padding: var(--m-space-4);
        border-left: var(--m-space-1) solid currentColor;
      }
      .outcome.found {
        background: var(--m-pass-soft);
        color: var(--m-pass);
      }
      .outcome.silent {
        background: var(--m-stale-soft);
        color: var(--m-stale);
      }
      .outcome.nothing {
        background: var(--m-unsure-soft);
        color: var(--m-unsure);
      }
      .outcome m-icon {
        font-size: var(--m-text-xl);
      }
      .outcome p {
        grid-column: 2;
        color: var(--m-ink);
      }
      .outcome .headline {
        grid-row: 1;
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .facts span {
        white-space: nowrap;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        margin-top: var(--m-space-4);
      }
      @container (max-width: 26rem) {
        .actions button {
          flex: 1;
        }
        li {
          grid-template-columns: auto 1fr;
        }
        .result {
          grid-column: 2;
          text-align: left;
        }
      }
    `,
  ];

  @property() heading = 'Finding the bridge';
  @property({ attribute: false }) steps: readonly SearchStep[] = [];
  /** 0 to 1; null while it is not known how much there is to try. */
  @property({ attribute: false }) done: number | null = null;
  @property({ attribute: false }) elapsedSeconds = 0;
  @property({ attribute: false }) outcome: SearchOutcome | null = null;

  #stop() {
    this.dispatchEvent(new CustomEvent('search-stopped', { bubbles: true, composed: true }));
  }

  #step({ text, state, result }: SearchStep) {
    const { shape, word } = STEP_SHAPES[state];
    return html`<li class=${state} aria-current=${state === 'now' ? 'step' : nothing}>
      <m-icon shape=${shape} label=${word}></m-icon>
      <span>${text}</span>
      ${result ? html`<span class="result number">${result}</span>` : nothing}
    </li>`;
  }

  #outcome({ tone, headline, facts, advice }: SearchOutcome) {
    const { shape, word } = TONES[tone];
    return html`<div class="outcome ${tone}">
      <m-icon shape=${shape} label=${word}></m-icon>
      <p class="headline">${headline}</p>
      ${
        facts.length > 0
          ? html`<p class="facts number">
              ${facts.map((fact, at) => html`${at > 0 ? ' · ' : nothing}<span>${fact}</span>`)}
            </p>`
          : nothing
      }
      ${advice ? html`<p>${advice}</p>` : nothing}
    </div>`;
  }

  override render() {
    const { outcome } = this;
    const now = this.steps.find(({ state }) => state === 'now')?.text ?? '';
    const going = outcome === null || outcome.tone === 'silent';
    return html`<section class="panel" aria-label=${this.heading}>
      <div class="top">
        <h2>${this.heading}</h2>
        <p class="elapsed number">${this.elapsedSeconds.toFixed(1)}<small> s</small></p>
      </div>
      ${outcome ? nothing : html`<m-progress label=${now || 'Opening'} .done=${this.done}></m-progress>`}
      <p class="unseen" role="status">${outcome ? `${outcome.headline} ${outcome.advice}` : now}</p>
      <ol>
        ${this.steps.map((step) => this.#step(step))}
      </ol>
      ${outcome ? this.#outcome(outcome) : nothing}
      <div class="actions">
        ${going ? html`<button @click=${() => this.#stop()}>Stop</button>` : nothing}
        <slot></slot>
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-search-progress': SearchProgress;
  }
  interface HTMLElementEventMap {
    'search-stopped': CustomEvent<void>;
  }
}
