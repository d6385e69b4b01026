import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, panelStyles } from './base-styles.ts';
import { lampRow, lampStyles, type LampsView } from './lamp-row.ts';
import './shape-icon.ts';

/** One trouble code in plain words. */
export interface TroubleCodeView {
  readonly spn: number;
  readonly fmi: number;
  /** What the parameter is, e.g. "Rail pressure"; empty where it is not known. */
  readonly what: string;
  /** What is wrong with it, the words of the FMI. */
  readonly how: string;
  /** Null: the controller does not count. */
  readonly occurrences: number | null;
  /** What the number could be as well, when the controller uses an older packing. */
  readonly otherSpns: readonly number[];
  /** Why it matters here, e.g. "Low rail pressure. This is what the check is about."; empty for all others. */
  readonly mark: string;
}

export interface CodeReportView {
  readonly lamps: LampsView;
  readonly codes: readonly TroubleCodeView[];
}

/** One controller. Null: it has not said anything of these codes yet, which is not the same as having none. */
export interface ControllerCodes {
  readonly id: string;
  readonly name: string;
  /** Source address as shown, e.g. "00". */
  readonly address: string;
  readonly active: CodeReportView | null;
  readonly previous: CodeReportView | null;
}

const packingWords = (otherSpns: readonly number[]): string =>
  `Could also be SPN ${otherSpns.join(' or ')}, depending on the controller’s packing. The frame does not say which.`;

/** `m-trouble-codes`: what each controller reports as wrong now and before, with its lamps, in plain words. */
@customElement('m-trouble-codes')
export class TroubleCodesList extends LitElement {
  static override styles = [
    baseStyles,
    panelStyles,
    lampStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-4);
      }
      .panel + .panel {
        margin-top: var(--m-space-4);
      }
      header {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-1) var(--m-space-3);
        align-items: baseline;
      }
      h2 {
        font-size: var(--m-text-l);
        line-height: 1.2;
      }
      .address,
      .said {
        color: var(--m-quiet);
      }
      h3 {
        padding-bottom: var(--m-space-1);
        border-bottom: var(--m-stroke-2) solid var(--m-ink);
        font-size: var(--m-text-m);
      }
      .previous h3 {
        border-bottom: var(--m-stroke-2) dashed var(--m-mark);
      }
      li {
        display: grid;
        grid-template-columns: 11rem 4.5rem minmax(0, 1fr) auto;
        gap: var(--m-space-1) var(--m-space-5);
        align-items: start;
        padding: var(--m-space-3) 0;
        border-bottom: var(--m-stroke-1) solid var(--m-line);
      }
      .figure {
        display: grid;
        line-height: 1.05;
      }
      .figure .number {
        font-size: var(--m-text-xxl);
        font-weight: 600;
      }
      .previous .figure .number {
        font-size: var(--m-text-xl);
        font-weight: 400;
      }
      .what {
        font-size: var(--m-text-l);
        font-weight: 700;
        line-height: 1.25;
      }
      .count {
        color: var(--m-quiet);
        white-space: nowrap;
      }
      .other,
      .mark {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-2);
        margin-top: var(--m-space-2);
        font-size: var(--m-text-s);
      }
      .other {
        color: var(--m-unsure);
      }
      .mark {
        padding: var(--m-space-2) var(--m-space-3);
        background: var(--m-marginal-soft);
        color: var(--m-ink);
        font-size: var(--m-text-m);
        font-weight: 600;
      }
      .mark m-icon,
      .other m-icon {
        margin-top: 0.15em;
      }
      .other m-icon {
        font-size: var(--m-text-l);
      }
      .mark m-icon {
        color: var(--m-marginal);
      }
      li.marked {
        margin-left: calc(-1 * var(--m-space-4));
        padding-left: var(--m-space-3);
        border-left: var(--m-space-1) solid var(--m-marginal);
      }
      .none {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-2);
        padding: var(--m-space-3) 0;
      }
      .none.clean m-icon {
        color: var(--m-pass);
      }
      .none.silent {
        color: var(--m-quiet);
      }
      .none m-icon {
        margin-top: 0.15em;
      }
      .none.clean {
        font-weight: 600;
      }
      .none p {
        color: var(--m-quiet);
        font-size: var(--m-text-s);
      }
      @container (max-width: 38rem) {
        li {
          grid-template-columns: auto minmax(0, 1fr);
        }
        .count {
          grid-column: 1 / -1;
        }
        .words {
          grid-column: 1 / -1;
        }
      }
    `,
  ];

  @property({ attribute: false }) controllers: readonly ControllerCodes[] = [];

  #code({ spn, fmi, what, how, occurrences, otherSpns, mark }: TroubleCodeView) {
    return html`<li class=${mark ? 'marked' : ''}>
      <p class="figure"><span class="label">SPN</span> <span class="number">${spn}</span></p>
      <p class="figure"><span class="label">FMI</span> <span class="number">${fmi}</span></p>
      <div class="words">
        <p class="what">${what || 'A parameter that Meniscus does not know'}</p>
        <p>${how}</p>
        ${
          otherSpns.length > 0
            ? html`<p class="other">
                <m-icon shape="unsure"></m-icon>
                <span>${packingWords(otherSpns)}</span>
              </p>`
            : nothing
        }
        ${mark ? html`<p class="mark"><m-icon shape="falling"></m-icon><span>${mark}</span></p>` : nothing}
      </div>
      <p class="count number">
        ${occurrences === null ? 'not counted' : occurrences === 1 ? 'once' : `${occurrences} times`}
      </p>
    </li>`;
  }

  #report(kind: 'active' | 'previous', report: CodeReportView | null) {
    const heading = kind === 'active' ? 'Active now' : 'Active before';
    return html`<section class=${kind}>
      <h3>${heading}</h3>
      ${
        report === null
          ? this.#silent(kind)
          : report.codes.length === 0
            ? html`<div class="none clean">
                <m-icon shape="pass"></m-icon>
                <span
                  >${kind === 'active' ? 'No trouble code is active.' : 'No earlier trouble code is stored.'}</span
                >
              </div>`
            : html`<ul>
                ${report.codes.map((code) => this.#code(code))}
              </ul>`
      }
    </section>`;
  }

  #silent(kind: 'active' | 'previous') {
    return html`<div class="none silent">
      <m-icon shape="waiting"></m-icon>
      <div>
        ${
          kind === 'active'
            ? html`This controller has not said anything about trouble codes yet.
                <p>Most do so once a second while the key is on. Silence is not a clean bill.</p>`
            : html`Not told.
                <p>Earlier codes are sent on request only. Asking is off until you allow it.</p>`
        }
      </div>
    </div>`;
  }

  #controller({ name, address, active, previous }: ControllerCodes) {
    const lamps = active?.lamps ?? previous?.lamps ?? null;
    return html`<article class="panel">
      <header>
        <h2>${name}</h2>
        <span class="address">address <span class="number">${address}</span></span>
      </header>
      ${lamps ? lampRow(lamps) : nothing}${this.#report('active', active)}${this.#report('previous', previous)}
    </article>`;
  }

  override render() {
    return this.controllers.length > 0
      ? this.controllers.map((controller) => this.#controller(controller))
      : html`<div class="panel">
          <div class="none silent">
            <m-icon shape="waiting"></m-icon>
            <div>
              No controller has been heard yet.
              <p>Trouble codes appear here by themselves once the key is on and the bus is read.</p>
            </div>
          </div>
        </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-trouble-codes': TroubleCodesList;
  }
}
