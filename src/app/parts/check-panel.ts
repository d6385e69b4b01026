import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { LOW_RAIL_PRESSURE } from '../../procedures/library.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/search-progress.ts';
import { pageStyles } from '../page-styles.ts';
import { isLiveId } from '../live-sources.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import type { PendingSource, Services } from '../services.ts';
import './bench-controls.ts';
import './check-result.ts';
import './connect-panel.ts';
import { gaugePart } from './gauge-part.ts';
import './measure-part.ts';
import { preparePart } from './prepare-part.ts';

/** `check-panel`: what is to be done now in a check of any kind but crank delivery. Events: `connect-wanted`, `again-wanted`. */
@customElement('check-panel')
export class CheckPanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      ol.plain {
        padding-left: var(--m-space-5);
        list-style: decimal;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) services!: Services;
  /** The person has no bridge for this run: it is measured by hand and typed. */
  @state() private byHand = false;

  override render() {
    const { checked } = this.shown.view;
    if (!checked) return nothing;
    if (!checked.ok)
      return html`<m-problem tone="error" .problem=${describeProblem(checked.problem)}></m-problem>`;
    return html`<div class="stack">${this.#stage(checked.value)}</div>`;
  }

  #stage(checked: JudgedCheck) {
    const { view, run } = this.shown;
    switch (view.stage) {
      case 'prepare':
        return preparePart({
          runId: run.id,
          guide: view.guide,
          defersTo: LOW_RAIL_PRESSURE.defersTo,
          actionLabel: run.kind === 'inspection' ? 'I have read these. Begin' : 'I have read these. Measure',
          onAccepted: this.#accepted,
        });
      case 'connect':
        return this.byHand ? this.#measure(checked) : this.#connect();
      case 'verdict':
        return html`<check-result
          .desk=${this.desk}
          .shown=${this.shown}
          .services=${this.services}
          .checked=${checked}
        ></check-result>`;
      case 'measure':
      case 'crank':
      case 'read':
        return html`${this.#bench()} ${this.#measure(checked)}`;
    }
  }

  readonly #accepted = () => {
    const atIso = this.desk.nowIso();
    this.desk.enter(
      ...this.shown.view.guide.cautions.map(({ id }) => ({
        kind: 'caution-ticked' as const,
        atIso,
        caution: id,
        reason: '',
      })),
    );
    if (this.shown.run.source.adapter === 'bench') this.#wantConnect(null);
  };

  #connect() {
    const { view, run, search } = this.shown;
    if (view.link === 'opening')
      return search
        ? html`<m-search-progress
            .steps=${search.steps}
            .outcome=${search.outcome}
            .elapsedSeconds=${(this.shown.wallMs - search.sinceMs) / 1000}
            @search-stopped=${() => this.desk.stopListening()}
          ></m-search-progress>`
        : html`<m-progress label="Opening the source"></m-progress>`;
    if (run.recordingId !== null) return html`<m-progress label="Reading the recording"></m-progress>`;
    if (run.source.adapter === 'bench')
      return html`<div class="row">
        <button class="primary" @click=${() => this.#wantConnect(null)}>Start the bench</button>
      </div>`;
    return html`<section class="card">
        <h2>Connect a bridge</h2>
        <connect-panel
          ?compact=${!isLiveId(run.source.adapter)}
          .services=${this.services}
          @source-chosen=${(event: HTMLElementEventMap['source-chosen']) => this.#wantConnect(event.detail)}
        ></connect-panel>
      </section>
      <section class="card">
        <h2>Or open a log of it</h2>
        <p class="quiet">A candump log or a CSV that any logger wrote while it was done.</p>
        <div class="row"><button @click=${this.#openLog}>Open a log</button></div>
      </section>
      <section class="card">
        <h2>Or read your own instrument</h2>
        <p class="quiet">A gauge, a stopwatch, a vessel: type what they show.</p>
        <div class="row"><button @click=${() => (this.byHand = true)}>Type it by hand</button></div>
      </section>`;
  }

  readonly #openLog = () => {
    this.services.dropped.runId = this.shown.run.id;
    this.services.dropped.file = null;
    this.services.go({ page: 'import' });
  };

  #wantConnect(detail: PendingSource | null): void {
    this.dispatchEvent(new CustomEvent('connect-wanted', { detail, bubbles: true, composed: true }));
  }

  #bench() {
    const { run, playback, speed, view } = this.shown;
    if (run.source.adapter !== 'bench' || playback !== 'live') return nothing;
    return html`<bench-controls
      .bench=${this.desk.bench}
      .speed=${speed}
      .guide=${view.guide}
      @bench-speed=${(event: HTMLElementEventMap['bench-speed']) => this.desk.setSpeed(event.detail)}
    ></bench-controls>`;
  }

  #measure(checked: JudgedCheck) {
    return html`<measure-part
        .desk=${this.desk}
        .shown=${this.shown}
        .services=${this.services}
        .checked=${checked}
      ></measure-part>
      ${this.#byGauge()}`;
  }

  /** Open at once where the person has no bridge: then it is what the check waits for. */
  #byGauge() {
    const { desk, services } = this;
    const part = gaugePart({ desk, view: this.shown.view, services });
    if (part === nothing || this.byHand) return part;
    return html`<details class="card">
      <summary>Type what an instrument showed</summary>
      ${part}
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'check-panel': CheckPanel;
  }
}
