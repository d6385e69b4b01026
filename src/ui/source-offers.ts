import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';

/** One way to connect. Without `problem` it can be used here; with one it says why not, and what cures it. */
export interface SourceOffer {
  readonly id: string;
  readonly shape: IconShape;
  readonly title: string;
  /** One line: what it is for. */
  readonly line: string;
  readonly problem: ProblemText | null;
}

/** What worked the last time. `worked` holds the facts in the order they are read: speed, bit rate, mode. */
export interface LastSource {
  readonly id: string;
  readonly deviceName: string;
  readonly worked: readonly string[];
  readonly problem: ProblemText | null;
}

export interface SourceWanted {
  readonly id: string;
}

const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

/**
 * `m-source-offers`: the ways to connect as cards for gloves, what worked last time first. Says `source-wanted`. What
 * cannot be used here keeps its place with the reason and the cure. Tab and the arrow keys reach every card.
 */
@customElement('m-source-offers')
export class SourceOffers extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .last {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--m-space-3) var(--m-space-5);
        align-items: center;
        margin-bottom: var(--m-space-5);
        padding-block: var(--m-space-5);
      }
      h2 {
        font-size: var(--m-text-xl);
        line-height: 1.15;
        overflow-wrap: anywhere;
      }
      .worked {
        margin-top: var(--m-space-1);
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .worked span {
        white-space: nowrap;
      }
      .last button {
        min-width: 12rem;
        min-height: var(--m-key);
      }
      .last .cure {
        grid-column: 1 / -1;
      }
      h3 {
        margin-bottom: var(--m-space-2);
        color: var(--m-quiet);
        font-size: var(--m-text-m);
      }
      ul {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(19rem, 100%), 1fr));
        gap: var(--m-space-3);
      }
      .offer {
        display: grid;
        grid-template-columns: auto 1fr;
        grid-template-rows: auto 1fr;
        gap: var(--m-space-1) var(--m-space-4);
        align-items: start;
        justify-content: start;
        width: 100%;
        height: 100%;
        min-height: 6.5rem;
        padding: var(--m-space-4);
        border: var(--m-stroke-1) solid var(--m-line);
        border-radius: var(--m-radius-1);
        font-weight: 400;
        text-align: left;
      }
      .offer > m-icon {
        grid-row: 1 / span 2;
        color: var(--m-accent);
        font-size: var(--m-text-xl);
      }
      .title {
        font-size: var(--m-text-l);
        font-weight: 700;
        line-height: 1.25;
      }
      .line {
        color: var(--m-quiet);
        line-height: 1.4;
      }
      .offer:hover {
        border-color: var(--m-accent);
      }
      .offer[aria-disabled='true'] .title,
      .offer[aria-disabled='true'] > m-icon {
        color: var(--m-quiet);
      }
      .cure {
        display: grid;
        grid-template-columns: auto 1fr;
        grid-column: 1 / -1;
        gap: 0 var(--m-space-2);
        margin-top: var(--m-space-2);
        padding-top: var(--m-space-2);
        border-top: var(--m-stroke-1) solid var(--m-line);
        color: var(--m-ink);
        font-size: var(--m-text-s);
        line-height: 1.4;
      }
      .cure m-icon {
        margin-top: 0.15em;
        color: var(--m-invalid);
      }
      .cure strong {
        font-weight: 600;
      }
      .cure .remedy {
        grid-column: 2;
      }
      @container (max-width: 34rem) {
        .last {
          grid-template-columns: 1fr;
        }
        .last button {
          width: 100%;
        }
      }
    `,
  ];

  @property({ attribute: false }) offers: readonly SourceOffer[] = [];
  @property({ attribute: false }) last: LastSource | null = null;

  #want(id: string, problem: ProblemText | null) {
    if (problem) return;
    const detail: SourceWanted = { id };
    this.dispatchEvent(new CustomEvent('source-wanted', { detail, bubbles: true, composed: true }));
  }

  readonly #walk = (event: KeyboardEvent) => {
    const cards = [...this.renderRoot.querySelectorAll<HTMLButtonElement>('button')];
    const at = cards.indexOf(event.target as HTMLButtonElement);
    const ends: Readonly<Record<string, number>> = { Home: 0, End: cards.length - 1 };
    const next = ends[event.key] ?? at + (STEPS[event.key] ?? 0);
    if (at < 0 || next === at) return;
    event.preventDefault();
    cards[(next + cards.length) % cards.length]?.focus();
  };

  #cure(problem: ProblemText | null) {
    return problem
      ? html`<span class="cure">
          <m-icon shape="invalid"></m-icon><strong>${problem.message}</strong>
          <span class="remedy">${problem.remedy}</span>
        </span>`
      : nothing;
  }

  #lastCard({ id, deviceName, worked, problem }: LastSource) {
    return html`<section class="last panel graduated" aria-labelledby="last">
      <div>
        <p class="label">Last time</p>
        <h2 id="last">${deviceName}</h2>
        <p class="worked number">
          ${worked.map((fact, at) => html`${at > 0 ? ' · ' : nothing}<span>${fact}</span>`)}
        </p>
      </div>
      <button
        class="primary"
        aria-disabled=${problem !== null}
        aria-describedby="last"
        @click=${() => this.#want(id, problem)}
        @keydown=${this.#walk}
      >
        Connect
      </button>
      ${this.#cure(problem)}
    </section>`;
  }

  #card({ id, shape, title, line, problem }: SourceOffer) {
    return html`<li>
      <button
        class="offer"
        aria-disabled=${problem !== null}
        @click=${() => this.#want(id, problem)}
        @keydown=${this.#walk}
      >
        <m-icon shape=${shape}></m-icon>
        <span class="title">${title}</span>
        <span class="line">${line}</span>
        ${this.#cure(problem)}
      </button>
    </li>`;
  }

  /** What can be used comes first; within that the app's order stays. */
  #ordered(): readonly SourceOffer[] {
    return [...this.offers].sort(
      (one, other) => Number(one.problem !== null) - Number(other.problem !== null),
    );
  }

  override render() {
    return html`${this.last ? this.#lastCard(this.last) : nothing}
      ${this.last ? html`<h3>Another way</h3>` : nothing}
      <ul>
        ${this.#ordered().map((offer) => this.#card(offer))}
      </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-source-offers': SourceOffers;
  }
  interface HTMLElementEventMap {
    'source-wanted': CustomEvent<SourceWanted>;
  }
}
