import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { InspectedPoint } from '../../checks/inspection.ts';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import { pageStyles } from '../page-styles.ts';
import type { RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';

const SEEN = ['in order', 'not in order', 'not looked at'] as const;

/** `inspection-part`: the points of an inspection, each looked at and told, with a note. Each answer is kept at once. */
@customElement('inspection-part')
export class InspectionPart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      ol {
        display: grid;
        gap: var(--m-space-4);
      }
      .ask {
        font-size: var(--m-text-l);
        font-weight: 650;
        line-height: 1.3;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) checked!: JudgedCheck;
  @property({ attribute: false }) services!: Services;
  @state() private notes: ReadonlyMap<string, string> = new Map();

  override render() {
    const { measurement } = this.checked;
    if (measurement.kind !== 'inspection') return nothing;
    return html`<ol>
      ${measurement.inspection.points.map((each) => html`<li class="card">${this.#point(each)}</li>`)}
    </ol>`;
  }

  #point({ point, seen, note }: InspectedPoint) {
    return html`<p class="ask" id=${`ask-${point.id}`}>${point.ask}</p>
      <p class="quiet">${point.look}</p>
      <div class="choices" role="radiogroup" aria-labelledby=${`ask-${point.id}`}>
        ${SEEN.map(
          (each) =>
            html`<label
              ><input
                type="radio"
                name=${`seen-${point.id}`}
                value=${each}
                .checked=${each === seen}
                @change=${() => this.#observe(point.id, each, this.notes.get(point.id) ?? note)}
              />${each}</label
            >`,
        )}
      </div>
      <label class="field"
        ><span class="label">Note</span>
        <input
          type="text"
          maxlength="500"
          .value=${note}
          @change=${(event: Event) => this.#noteLeft(point.id, seen, event)}
        />
      </label>`;
  }

  #noteLeft(point: string, seen: (typeof SEEN)[number], event: Event): void {
    const note = (event.target as HTMLInputElement).value.trim();
    this.notes = new Map([...this.notes, [point, note]]);
    this.#observe(point, seen, note);
  }

  #observe(point: string, seen: (typeof SEEN)[number], note: string): void {
    this.desk.enter({
      kind: 'observation',
      atIso: this.desk.nowIso(),
      reason: '',
      point,
      seen,
      note,
      photoIds: [],
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'inspection-part': InspectionPart;
  }
}
