import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Verdict } from '../../grading/verdict.ts';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/arithmetic-sheet.ts';
import '../../ui/verdict-panel.ts';
import { entryLine } from '../entry-line.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';
import { shownStep } from '../shown-step.ts';
import { shownUnit, valueWords } from '../value-words.ts';
import { advicePart } from './advice-part.ts';
import { gaugePart } from './gauge-part.ts';
import './measure-part.ts';
import './override-form.ts';
import './photo-strip.ts';

/** `check-result`: the verdict of a check, what it stands on, and what next. Event: `again-wanted`. */
@customElement('check-result')
export class CheckResult extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      dl {
        display: grid;
        gap: var(--m-space-2) var(--m-space-4);
        grid-template-columns: auto 1fr;
      }
      dt {
        color: var(--m-quiet);
      }
      dd.value {
        font-size: var(--m-text-xl);
        font-weight: 700;
      }
      a.button {
        display: inline-flex;
        align-items: center;
        min-height: var(--m-target);
      }
      ul.plain {
        padding-left: var(--m-space-4);
        list-style: disc;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) checked!: JudgedCheck;
  @state() private correcting = false;

  override render() {
    const { verdict } = this.checked;
    if (!verdict) return nothing;
    const { guide, sheet } = this.shown.view;
    const advice = guide.advice[verdict.word];
    const words = {
      ...inShownUnit(verdict, this.checked),
      reasons: verdict.reasons.map(describeProblem),
      warnings: verdict.warnings.map(describeProblem),
    };
    return html`<div class="stack">
      <m-verdict
        .verdict=${words}
        unit=${this.checked.valueSummary ? shownUnit(this.checked.valueSummary.quantity) : ''}
        sheet-line=${sheet && this.checked.limit ? `${sheet.title}, revision ${sheet.revision}` : ''}
      ></m-verdict>
      ${this.#facts()} ${advicePart(advice.headline, advice.next)}
      <override-form .verdict=${verdict} @override-given=${this.#overrideGiven}></override-form>
      ${this.#actions()} ${this.correcting ? this.#correct() : nothing} ${this.#evidence()}
    </div>`;
  }

  #facts() {
    const { valueSummary, measurement } = this.checked;
    const seen =
      measurement.kind === 'inspection'
        ? measurement.inspection.points.map(
            ({ point, seen: word, note, photoIds }) =>
              html`<dt>${point.ask}</dt>
                <dd>
                  ${word}${note ? `, ${note}` : nothing}
                  ${
                    photoIds.length > 0
                      ? html`<photo-strip
                          .photos=${this.services.photos}
                          .ids=${photoIds}
                          label="Photograph: ${point.ask}"
                        ></photo-strip>`
                      : nothing
                  }
                </dd>`,
          )
        : nothing;
    const facts = valueSummary?.facts ?? [];
    if (!valueSummary && seen === nothing) return nothing;
    return html`<dl class="card">
      ${
        valueSummary
          ? html`<dt>Measured</dt>
              <dd class="value number">${valueWords(valueSummary)}</dd>`
          : nothing
      }
      ${facts.map(
        ({ name, value, unit }) =>
          html`<dt>${name}</dt>
            <dd class="number">${Number(value.toPrecision(4))} ${unit}</dd>`,
      )}
      ${seen}
    </dl>`;
  }

  #actions() {
    const { jobId } = this.shown.run;
    return html`<div class="row screen-only">
      ${
        jobId === null
          ? nothing
          : html`<button class="primary" @click=${() => this.services.go({ page: 'job', jobId })}>
              Back to the job
            </button>`
      }
      <button
        @click=${() => this.dispatchEvent(new CustomEvent('again-wanted', { bubbles: true, composed: true }))}
      >
        Again
      </button>
      <button aria-expanded=${this.correcting} @click=${() => (this.correcting = !this.correcting)}>
        Correct what was entered
      </button>
      <button @click=${() => print()}>Print</button>
      ${jobId === null ? html`<a class="button" href=${routeHash({ page: 'runs' })}>All runs</a>` : nothing}
    </div>`;
  }

  #correct() {
    const { kind } = this.checked;
    return kind === 'inspection' || kind === 'collected volume'
      ? html`<measure-part
          .desk=${this.desk}
          .shown=${this.shown}
          .services=${this.services}
          .checked=${this.checked}
        ></measure-part>`
      : gaugePart({ desk: this.desk, view: this.shown.view, services: this.services });
  }

  readonly #overrideGiven = (event: HTMLElementEventMap['override-given']) =>
    this.desk.enter({ kind: 'override', atIso: this.desk.nowIso(), holds: true, ...event.detail });

  #evidence() {
    return html`<m-arithmetic .steps=${this.checked.arithmetic.map(shownStep)}></m-arithmetic>
      <details class="card">
        <summary>What was entered, in order</summary>
        <ol class="stack">
          ${this.shown.run.entries.map((entry) => html`<li class="number">${entryLine(entry)}</li>`)}
        </ol>
      </details>`;
  }
}

/** Times are kept in ms and read in s: the distance to the boundary too. */
function inShownUnit(verdict: Verdict, { valueSummary }: JudgedCheck): Verdict {
  if (valueSummary?.quantity !== 'time' || !verdict.nearest) return verdict;
  const { atValue, distance } = verdict.nearest;
  return { ...verdict, nearest: { ...verdict.nearest, atValue: atValue / 1000, distance: distance / 1000 } };
}

declare global {
  interface HTMLElementTagNameMap {
    'check-result': CheckResult;
  }
}
