import { html } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { ProcedureCheck } from '../../procedures/procedure.ts';
import '../../ui/caution-list.ts';

export interface Preparing {
  readonly runId: string;
  readonly guide: ProcedureCheck;
  /** What stands above the check. */
  readonly defersTo: string;
  readonly actionLabel: string;
  readonly onAccepted: () => void;
}

/** What must be known before a check can run: purpose, preparations, how to measure, and the cautions to be ticked. */
export function preparePart({ runId, guide, defersTo, actionLabel, onAccepted }: Preparing) {
  return html`<details class="card" open>
      <summary>What it shows, and how</summary>
      <p>${guide.purpose}</p>
      <h2>Prepare</h2>
      <ol class="plain stack">
        ${guide.preparations.map((step) => html`<li>${step}</li>`)}
      </ol>
      <h2>Measure</h2>
      <ol class="plain stack">
        ${guide.howTo.map((step) => html`<li>${step}</li>`)}
      </ol>
    </details>
    ${keyed(
      runId,
      html`<m-cautions
        .cautions=${guide.cautions}
        action-label=${actionLabel}
        @cautions-accepted=${onAccepted}
      ></m-cautions>`,
    )}
    <p class="quiet">${defersTo}</p>`;
}
