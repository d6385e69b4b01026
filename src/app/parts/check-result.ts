import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/arithmetic-sheet.ts';
import '../../ui/deviation.ts';
import '../../ui/fact-list.ts';
import '../../ui/pressure-curve.ts';
import '../../ui/value-window.ts';
import '../../ui/verdict-panel.ts';
import { curveView } from '../curve-view.ts';
import { deviationView } from '../deviation-view.ts';
import { entryLine } from '../entry-line.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';
import { shownStep } from '../shown-step.ts';
import { factRows, resultScale, verdictInUnit, windowView, type ResultScale } from '../result-view.ts';
import { valueWords } from '../value-words.ts';
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
      .measured {
        font-size: var(--m-text-xxl);
        font-weight: 700;
        line-height: 1.1;
      }
      dl {
        display: grid;
        gap: var(--m-space-2) var(--m-space-4);
      }
      dt {
        color: var(--m-quiet);
      }
      dd {
        margin: 0;
        font-weight: 600;
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
    const scale = this.#scale();
    const words = {
      ...(scale ? verdictInUnit(verdict, scale) : verdict),
      reasons: verdict.reasons.map(describeProblem),
      warnings: verdict.warnings.map(describeProblem),
    };
    return html`<div class="stack">
      <m-verdict
        .verdict=${words}
        unit=${scale?.unit ?? ''}
        sheet-line=${sheet && this.checked.limit ? `${sheet.title}, revision ${sheet.revision}` : ''}
      ></m-verdict>
      ${scale ? this.#value(scale) : nothing} ${this.#seen()} ${this.#trace()}
      ${advicePart(advice.headline, advice.next)}
      <override-form .verdict=${verdict} @override-given=${this.#overrideGiven}></override-form>
      ${this.#actions()} ${this.correcting ? this.#correct() : nothing} ${this.#evidence()}
    </div>`;
  }

  #scale(): ResultScale | null {
    const { valueSummary } = this.checked;
    const units = this.services.settings.value;
    return valueSummary && resultScale(valueSummary.quantity, this.shown.view.guide.settings, units);
  }

  /** The value against its window, and what was measured besides. */
  #value(scale: ResultScale) {
    const { settings } = this.shown.view.guide;
    const { valueSummary } = this.checked;
    const window = windowView(this.checked, settings, scale);
    const pressures = resultScale('pressure', settings, this.services.settings.value);
    return html`<section class="card" aria-label="Measured">
      <p class="label">Measured</p>
      <p class="measured number">${valueWords(valueSummary, scale)}</p>
      ${
        window
          ? html`<m-value-window
              label=${window.label}
              unit=${window.unit}
              .digits=${window.digits}
              .min=${window.min}
              .max=${window.max}
              .value=${window.value}
              caption="Bar: ± 2 standard uncertainties"
            ></m-value-window>`
          : nothing
      }
      <m-facts .facts=${factRows(valueSummary?.facts ?? [], pressures)}></m-facts>
    </section>`;
  }

  #seen() {
    const { measurement } = this.checked;
    if (measurement.kind !== 'inspection') return nothing;
    return html`<dl class="card">
      ${measurement.inspection.points.map(
        ({ point, seen, note, photoIds }) =>
          html`<dt>${point.ask}</dt>
            <dd>
              ${seen}${note ? `, ${note}` : nothing}
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
      )}
    </dl>`;
  }

  /** The trace that a time was found on, and the tables of a drive. */
  #trace() {
    const { checked } = this;
    const { view } = this.shown;
    if (!view.pipeline || view.values.value !== null) return nothing;
    const units = this.services.settings.value;
    const curve = curveView(checked, view, units);
    if (curve)
      return html`<m-pressure-curve
        can-choose
        .view=${curve}
        @stretch-chosen=${this.#stretchChosen}
      ></m-pressure-curve>`;
    const drive = deviationView(checked, view, units);
    return drive ? html`<m-deviation .view=${drive}></m-deviation>` : nothing;
  }

  /** The axis of the trace begins with the first data. */
  readonly #stretchChosen = ({ detail }: HTMLElementEventMap['stretch-chosen']) => {
    const zeroMs = this.shown.view.pipeline?.firstMs ?? 0;
    const { startMs, endMs, reason } = detail;
    const at = { atIso: this.desk.nowIso(), reason };
    this.desk.enter({ ...at, kind: 'stretch', startMs: startMs + zeroMs, endMs: endMs + zeroMs });
  };

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

declare global {
  interface HTMLElementTagNameMap {
    'check-result': CheckResult;
  }
}
