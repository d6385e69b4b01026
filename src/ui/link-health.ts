import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatNumber, NO_VALUE } from '../quantities/format.ts';
import { baseStyles, panelStyles } from './base-styles.ts';
import {
  addressTable,
  loadWords,
  NO_HEALTH,
  rateWords,
  signalTable,
  type LinkHealthView,
} from './link-health-parts.ts';
import './shape-icon.ts';
import { spanWords } from './span-words.ts';
import { tableStyles } from './table-styles.ts';

export interface HealthExpanded {
  readonly expanded: boolean;
}

/**
 * `m-link-health`: how well data comes: one line to glance at, and behind it the figures, the addresses and every signal.
 * Says `health-expanded` when the person opens or closes it. Nothing is announced: the figures never stop.
 */
@customElement('m-link-health')
export class LinkHealth extends LitElement {
  static override styles = [
    baseStyles,
    panelStyles,
    tableStyles,
    css`
      :host {
        container-type: inline-size;
      }
      summary {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--m-space-1) var(--m-space-4);
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        cursor: pointer;
        list-style: none;
      }
      summary::-webkit-details-marker {
        display: none;
      }
      summary:hover {
        background: var(--m-sunken);
      }
      .panel {
        padding: 0;
      }
      .heading {
        display: inline-flex;
        align-items: center;
        gap: var(--m-space-2);
        font-weight: 700;
      }
      .heading m-icon {
        color: var(--m-accent);
      }
      details[open] .heading m-icon {
        transform: rotate(180deg);
      }
      .short {
        color: var(--m-quiet);
        white-space: nowrap;
      }
      .bad {
        color: var(--m-marginal);
        font-weight: 600;
      }
      .body {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-5);
        padding: var(--m-space-4);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      dl {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(8.4rem, 1fr));
        gap: var(--m-space-4);
      }
      dl div {
        padding-left: var(--m-space-3);
        border-left: var(--m-stroke-2) solid var(--m-line);
      }
      dd {
        font-size: var(--m-text-xl);
        font-weight: 600;
        line-height: 1.15;
        white-space: nowrap;
      }
      dd.told {
        color: var(--m-quiet);
        font-weight: 400;
        font-size: var(--m-text-l);
      }
      .unit {
        color: var(--m-quiet);
        font-size: var(--m-text-m);
        font-weight: 400;
      }
      .aside {
        display: block;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        font-weight: 400;
        line-height: 1.3;
        white-space: normal;
      }
      .tables {
        display: grid;
        grid-template-columns: 3fr 2fr;
        gap: var(--m-space-5);
        align-items: start;
      }
      .from {
        display: block;
        color: var(--m-quiet);
        font-size: var(--m-text-s);
        font-weight: 400;
      }
      td.value {
        font-size: var(--m-text-l);
        font-weight: 600;
      }
      .state {
        white-space: nowrap;
      }
      tr.fresh .state m-icon {
        color: var(--m-pass);
      }
      tr.stale,
      tr.lost {
        background: var(--m-stale-soft);
      }
      tr.stale td,
      tr.lost td {
        color: var(--m-stale);
      }
      .addresses .hex {
        white-space: nowrap;
      }
      tr.stale .unit,
      tr.lost .unit {
        color: inherit;
      }
      @container (max-width: 58rem) {
        .tables {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      @container (max-width: 34rem) {
        .addresses th,
        .addresses td {
          padding-inline: var(--m-space-2);
        }
        .signals thead {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
        .signals tbody tr {
          display: grid;
          grid-template-columns: 1fr auto;
          gap: 0 var(--m-space-3);
          padding: var(--m-space-2) 0;
        }
        .signals tbody td,
        .signals tbody th {
          padding: 0 var(--m-space-2);
        }
        .signals .state {
          grid-area: 2 / 1;
        }
        .signals td[data-name] {
          font-size: var(--m-text-s);
        }
        .signals td[data-name]::before {
          content: attr(data-name) ' ';
          color: var(--m-quiet);
        }
        .signals td[data-name='age'] {
          grid-area: 3 / 1;
          text-align: left;
        }
        .signals td[data-name='rate'] {
          grid-area: 2 / 2;
        }
      }
    `,
  ];

  @property({ attribute: false }) health: LinkHealthView = NO_HEALTH;
  @property({ type: Boolean }) expanded = false;

  readonly #toggled = (event: Event) => {
    const expanded = (event.target as HTMLDetailsElement).open;
    if (expanded === this.expanded) return;
    this.expanded = expanded;
    const detail: HealthExpanded = { expanded };
    this.dispatchEvent(new CustomEvent('health-expanded', { detail, bubbles: true, composed: true }));
  };

  #glance() {
    const { framesPerSecond, busLoadPercent, malformed, lost, brokenTransfers, signals } = this.health;
    const silent = signals.filter(({ state }) => state === 'stale' || state === 'lost').length;
    const troubles = [
      malformed > 0 ? `${formatNumber(malformed, { decimals: 0 })} malformed` : '',
      lost !== null && lost > 0 ? `${formatNumber(lost, { decimals: 0 })} lost` : '',
      brokenTransfers > 0 ? `${formatNumber(brokenTransfers, { decimals: 0 })} broken off` : '',
      silent > 0 ? `${silent} of ${signals.length} signals stale` : '',
    ].filter((words) => words !== '');
    return html`<span class="heading"><m-icon shape="more"></m-icon>Link</span>
      <span class="short number">${rateWords(framesPerSecond)} frames/s</span>
      ${busLoadPercent ? html`<span class="short number">bus ${loadWords(busLoadPercent)} %</span>` : nothing}
      ${
        troubles.length > 0
          ? troubles.map((words) => html`<span class="short number bad">${words}</span>`)
          : html`<span class="short">nothing malformed</span>`
      }`;
  }

  #figure(label: string, value: string, unit = '', aside = '') {
    return html`<div>
      <dt class="label">${label}</dt>
      <dd class="number">
        ${value}
        <span class="unit">${unit}</span>${aside ? html`<span class="aside">${aside}</span>` : nothing}
      </dd>
    </div>`;
  }

  #figures() {
    const { health } = this;
    const whole = (value: number | null) => formatNumber(value, { decimals: 0 });
    return html`<dl>
      ${this.#figure('Frames', rateWords(health.framesPerSecond), '/s')}
      ${this.#figure('Bus load', loadWords(health.busLoadPercent), health.busLoadPercent ? '%' : '', 'estimate')}
      ${this.#figure('Bytes', whole(health.bytesPerSecond), '/s')}
      ${this.#figure('Silent for', health.secondsSinceLast === null ? NO_VALUE : spanWords(health.secondsSinceLast))}
      ${this.#figure('Malformed', whole(health.malformed), '', 'lines that could not be read')}
      ${
        health.lost === null
          ? html`<div>
              <dt class="label">Lost</dt>
              <dd class="told">not told</dd>
              <dd class="aside">this bridge does not say</dd>
            </div>`
          : this.#figure('Lost', whole(health.lost), '', 'told by the bridge')
      }
      ${this.#figure('Broken off', whole(health.brokenTransfers), '', 'messages in several packets')}
    </dl>`;
  }

  override render() {
    return html`<details class="panel" ?open=${this.expanded} @toggle=${this.#toggled}>
      <summary>${this.#glance()}</summary>
      ${
        this.expanded
          ? html`<div class="body">
              ${this.#figures()}
              <div class="tables">
                ${signalTable(this.health.signals)}${addressTable(this.health.addresses)}
              </div>
            </div>`
          : nothing
      }
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-link-health': LinkHealth;
  }
  interface HTMLElementEventMap {
    'health-expanded': CustomEvent<HealthExpanded>;
  }
}
