import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { deliveryArithmetic } from '../../grading/arithmetic.ts';
import type { PhotoStore } from '../../jobs/photo-store.ts';
import type { JudgedRun } from '../../jobs/judge-run.ts';
import { drawnBoundaries, drawnNearest, drawnPoint } from '../chart-drawing.ts';
import { describeProblem } from '../../problems/problem.ts';
import { NO_ORIGIN } from '../../quantities/reading.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/arithmetic-sheet.ts';
import type { ArithmeticStep } from '../../ui/arithmetic-sheet.ts';
import '../../ui/crank-table.ts';
import type { CrankCountsChange, CrankRow } from '../../ui/crank-table.ts';
import { originsOf } from '../../signals/trace-set.ts';
import '../../ui/limit-chart.ts';
import '../../ui/problem-note.ts';
import { pageStyles } from '../page-styles.ts';
import type { RunView } from '../run-view.ts';
import { entryLine } from '../entry-line.ts';
import { shownStep } from '../shown-step.ts';
import './edge-form.ts';
import { entryWanted } from './entry-wanted.ts';
import './origin-choice.ts';
import { photoEvidence } from './photo-evidence.ts';
import './reason-form.ts';

/** `evidence-panel`: everything a verdict stands on: the chart with the point, the cranks, the arithmetic, what was typed. Event: `entry-wanted`. */
@customElement('evidence-panel')
export class EvidencePanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      .grid {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr));
        align-items: start;
      }
      ol {
        display: grid;
        gap: var(--m-space-1);
      }
      .wide {
        overflow-x: auto;
      }
    `,
  ];

  @property({ attribute: false }) view!: RunView;
  /** Where the photographs are kept. */
  @property({ attribute: false }) photos: PhotoStore | null = null;
  /** Number of the crank that is about to be left out, once there is a reason. */
  @state() private leavingOut: number | null = null;

  override render() {
    const { judged } = this.view;
    if (!judged.ok)
      return html`<m-problem tone="error" .problem=${describeProblem(judged.problem)}></m-problem>`;
    return html`<div class="stack">
      <div class="grid">
        <section class="card" aria-label="Limit chart">${this.#chart(judged.value)}</section>
        <section class="card wide" aria-label="Cranks">${this.#cranks(judged.value)}</section>
      </div>
      ${photoEvidence(this.view.values.volume, this.photos)}
      ${judged.value.verdict ? this.#arithmetic(judged.value) : nothing} ${this.#entries()}
    </div>`;
  }

  #chart(judged: JudgedRun) {
    const { sheet } = this.view;
    return html`<m-limit-chart
      caption=${sheet ? `${judged.chart.title}. ${sheet.title}, revision ${sheet.revision}` : judged.chart.title}
      .boundaries=${drawnBoundaries(judged.chart)}
      .point=${drawnPoint(judged)}
      .nearest=${drawnNearest(judged)}
    ></m-limit-chart>`;
  }

  #cranks({ delivery }: JudgedRun) {
    const firstMs = this.view.pipeline?.firstMs ?? 0;
    const origin = this.view.table.origin ?? NO_ORIGIN;
    const rows = delivery.cranks.map((each, place): CrankRow => ({
      number: place + 1,
      startSeconds: (each.startMs - firstMs) / 1000,
      durationSeconds: (each.endMs - each.startMs) / 1000,
      meanRpm: each.average.meanRpm,
      samples: each.average.samples,
      coverage: each.average.coverage,
      endedBy: each.crank.endedBy,
      counts: each.counts,
      ...(each.reason ? { note: each.reason } : {}),
    }));
    const { average } = delivery;
    const differ = average && Math.abs(average.meanRpm - average.sampleMeanRpm) > 1;
    return html`<m-crank-table
        caption="Cranks"
        .rows=${rows}
        @crank-counts-changed=${this.#countsChanged}
      ></m-crank-table>
      ${this.#leaveOut()} ${this.#origin()}
      ${
        differ
          ? html`<p class="quiet">
              Mean over time ${average.meanRpm.toFixed(1)} rpm; plain mean of the samples, as a spreadsheet
              gives it, ${average.sampleMeanRpm.toFixed(1)} rpm.
            </p>`
          : nothing
      }
      ${
        delivery.cranks.some(({ crank }) => crank.startSign === 'speed' && !crank.cutAtStart)
          ? html`<p class="quiet">
              The controller reports its first speed a turn or two late, so each crank may have been up to 0.6
              s longer. That is in the uncertainty.
            </p>`
          : nothing
      }
      ${delivery.cranks.map(
        ({ crank, startMs, endMs }, place) =>
          html`<edge-form
            .edges=${{ place, origin, firstMs, startMs, endMs, foundStartMs: crank.starterOn.atMs, foundEndMs: crank.end.atMs }}
          ></edge-form>`,
      )}`;
  }

  #leaveOut() {
    const number = this.leavingOut;
    if (number === null) return nothing;
    return html`<reason-form
      question="Why is crank ${number} left out?"
      action-label="Leave crank ${number} out"
      @reason-given=${(event: HTMLElementEventMap['reason-given']) => this.#choose(number, false, event.detail)}
      @reason-cancelled=${() => (this.leavingOut = null)}
    ></reason-form>`;
  }

  /** A crank goes on counting until a reason has been given. */
  readonly #countsChanged = (event: CustomEvent<CrankCountsChange>) => {
    const { number, counts } = event.detail;
    if (counts) return this.#choose(number, true, 'counts again');
    this.leavingOut = number;
    const table = event.currentTarget as HTMLElement;
    const tick = table.shadowRoot?.querySelector<HTMLInputElement>(`[aria-label='Crank ${number} counts']`);
    if (tick) tick.checked = true;
  };

  #choose(number: number, counts: boolean, reason: string): void {
    this.leavingOut = null;
    const origin = this.view.table.origin ?? NO_ORIGIN;
    const crank = number - 1;
    this.dispatchEvent(entryWanted({ kind: 'crank-left-out', crank, origin, leftOut: !counts, reason }));
  }

  #origin() {
    const { pipeline, table } = this.view;
    const origins = pipeline ? originsOf(pipeline.traces, 'engineSpeed').map(({ origin }) => origin) : [];
    return html`<origin-choice .origins=${origins} .chosen=${table.origin}></origin-choice>`;
  }

  #arithmetic(judged: JudgedRun) {
    const { delivery, chart, verdict } = judged;
    const steps: readonly ArithmeticStep[] = verdict
      ? deliveryArithmetic(delivery, chart, verdict).map(shownStep)
      : [];
    return html`<details class="card">
      <summary>Show the arithmetic</summary>
      <m-arithmetic .steps=${steps}></m-arithmetic>
    </details>`;
  }

  #entries() {
    const { entries } = this.view.run;
    if (entries.length === 0) return nothing;
    return html`<details class="card">
      <summary>What was entered, in order</summary>
      <ol>
        ${entries.map((entry) => html`<li class="number">${entryLine(entry)}</li>`)}
      </ol>
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evidence-panel': EvidencePanel;
  }
}
