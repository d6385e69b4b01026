import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ADVICE_WORDS, type Procedure, type ProcedureCheck } from '../procedures/procedure.ts';
import { STATIONS } from '../procedures/station.ts';
import { baseStyles } from './base-styles.ts';
import './shape-icon.ts';
import { VERDICT_MEANING } from './verdict-panel.ts';

/** `m-procedure-view`: a procedure to be read: its order, and each check with everything that it says. */
@customElement('m-procedure-view')
export class ProcedureView extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .whole,
      details > div {
        display: grid;
        gap: var(--m-space-3);
      }
      .quiet {
        color: var(--m-quiet);
      }
      details {
        border: var(--m-stroke-1) solid var(--m-line);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
      }
      summary {
        display: flex;
        gap: var(--m-space-3);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        cursor: pointer;
        font-weight: 600;
      }
      details > div {
        padding: 0 var(--m-space-4) var(--m-space-4);
      }
      .place {
        min-width: 2ch;
        color: var(--m-quiet);
      }
      h3 {
        font-size: var(--m-text-m);
      }
      ul.plain,
      ol.plain {
        display: grid;
        gap: var(--m-space-1);
        padding-left: var(--m-space-5);
        list-style: disc;
      }
      ol.plain {
        list-style: decimal;
      }
      .verdict {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-1) var(--m-space-3);
      }
      .verdict > :nth-child(n + 3) {
        grid-column: 2;
      }
    `,
  ];

  @property({ attribute: false }) procedure: Procedure | null = null;

  override render() {
    const { procedure } = this;
    if (!procedure) return nothing;
    return html`<div class="whole">
      <p>${procedure.complaint}</p>
      <p class="quiet">${procedure.source} ${procedure.defersTo}</p>
      ${procedure.checks.map((check, place) => this.#check(check, place))}
      <details>
        <summary>After work on the fuel path</summary>
        <div>
          <ol class="plain">
            ${procedure.priming.map((step) => html`<li>${step}</li>`)}
          </ol>
        </div>
      </details>
    </div>`;
  }

  #check(check: ProcedureCheck, place: number) {
    const titleOf = (id: string) => this.procedure?.checks.find((each) => each.id === id)?.title ?? id;
    return html`<details>
      <summary><span class="place number">${place + 1}</span>${check.title}</summary>
      <div>
        <p>${check.purpose}</p>
        <p class="quiet">
          ${check.stations.map((station) => STATIONS[station].name).join(', ')} · ${check.settings.kind}
          ${check.needs.length > 0 ? html` · after ${check.needs.map(titleOf).join(', ')}` : nothing}
        </p>
        ${list(
          'Cautions',
          check.cautions.map(({ text }) => text),
        )}
        ${list('Prepare', check.preparations, true)} ${list('Measure', check.howTo, true)}
        <h3>What the verdicts suggest</h3>
        ${ADVICE_WORDS.map((word) => this.#advice(check, word))}
      </div>
    </details>`;
  }

  #advice(check: ProcedureCheck, word: (typeof ADVICE_WORDS)[number]) {
    const { headline, causes, next } = check.advice[word];
    const textOf = (id: string) => this.procedure?.causes.find((each) => each.id === id)?.text ?? id;
    return html`<div class="verdict">
      <m-icon shape=${VERDICT_MEANING[word]}></m-icon>
      <p><strong>${word}</strong>: ${headline}</p>
      ${causes.length > 0 ? html`<p class="quiet">Likely: ${causes.map(textOf).join('; ')}.</p>` : nothing}
      <ul class="plain">
        ${next.map((step) => html`<li>${step}</li>`)}
      </ul>
    </div>`;
  }
}

function list(heading: string, items: readonly string[], ordered = false) {
  const rows = items.map((item) => html`<li>${item}</li>`);
  return html`<h3>${heading}</h3>
    ${
      ordered
        ? html`<ol class="plain">
            ${rows}
          </ol>`
        : html`<ul class="plain">
            ${rows}
          </ul>`
    }`;
}

declare global {
  interface HTMLElementTagNameMap {
    'm-procedure-view': ProcedureView;
  }
}
