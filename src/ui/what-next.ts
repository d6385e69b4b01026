import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './shape-icon.ts';
import { whatNextStyles } from './what-next-look.ts';

/** Something that may be wrong, likeliest first. */
export interface CauseView {
  readonly id: string;
  readonly text: string;
  /** Name of the station where it lies. */
  readonly station: string;
  readonly look: string;
  readonly repair: string;
  /** The findings that speak for it, e.g. "Pump return volume: fail high". */
  readonly because: readonly string[];
}

/** The one thing to do next. `sentence` says what, `why` why. */
export interface NextStepView {
  readonly step: 'do check' | 'repeat check' | 'repair' | 'conclude';
  /** The check that is meant; null for the other steps. */
  readonly checkId: string | null;
  readonly sentence: string;
  readonly why: string;
  /** Words of the button; empty: nothing to press. */
  readonly action: string;
  readonly causes: readonly CauseView[];
}

export interface NextStepTaken {
  readonly step: NextStepView['step'];
  readonly checkId: string | null;
}

/**
 * `m-what-next`: one sentence, why, and what may be wrong, likeliest first, each with where to look. Says `next-step`. The order
 * of the causes tells what to look at first; it is no measured probability, and the element says so.
 */
@customElement('m-what-next')
export class WhatNext extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, whatNextStyles];

  @property({ attribute: false }) next: NextStepView | null = null;
  /** What stands above this advice, e.g. the engine maker's current procedure. */
  @property({ attribute: 'defers-to' }) defersTo = '';

  #take({ step, checkId }: NextStepView) {
    const detail: NextStepTaken = { step, checkId };
    this.dispatchEvent(new CustomEvent('next-step', { detail, bubbles: true, composed: true }));
  }

  #cause({ text, station, look, repair, because }: CauseView, at: number) {
    return html`<li>
      <details>
        <summary>
          <span class="rank number">${at + 1}</span>
          <span class="cause"><span class="text">${text}</span><span class="label">${station}</span></span>
          <m-icon shape="more"></m-icon>
        </summary>
        <dl>
          <dt>Look at</dt>
          <dd>${look}</dd>
          <dt>Put right</dt>
          <dd>${repair}</dd>
          ${
            because.length === 0
              ? nothing
              : html`<dt>Speaks for it</dt>
                  <dd>${because.join('; ')}</dd>`
          }
        </dl>
      </details>
    </li>`;
  }

  #causes(causes: readonly CauseView[]) {
    if (causes.length === 0) return nothing;
    return html`<div class="causes">
      <h3>What it may be, likeliest first</h3>
      <ol>
        ${causes.map((cause, at) => this.#cause(cause, at))}
      </ol>
      <p class="label">
        The order follows from the findings. It says where to look first, not how likely it is.
      </p>
    </div>`;
  }

  override render() {
    const { next } = this;
    if (!next) return nothing;
    return html`<section class="panel" aria-labelledby="next">
      <p class="label">What next</p>
      <h2 id="next">${next.sentence}</h2>
      ${next.why ? html`<p class="why">${next.why}</p>` : nothing}
      ${
        next.action
          ? html`<button class="primary" @click=${() => this.#take(next)}>${next.action}</button>`
          : nothing
      }
      ${this.#causes(next.causes)}
      ${this.defersTo ? html`<p class="defers"><m-icon shape="info"></m-icon><span>${this.defersTo}</span></p>` : nothing}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-what-next': WhatNext;
  }
  interface HTMLElementEventMap {
    'next-step': CustomEvent<NextStepTaken>;
  }
}
