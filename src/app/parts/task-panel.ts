import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { BenchView } from '../../../simulators/bench.ts';
import type { Verdict } from '../../grading/verdict.ts';
import type { LimitSheet } from '../../limits/limit-sheet.ts';
import { notFinalWords } from '../../limits/not-final.ts';
import { LOW_RAIL_PRESSURE } from '../../procedures/library.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/crank-clock.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/search-progress.ts';
import '../../ui/verdict-panel.ts';
import { benchSetUp, setUpCommands } from '../bench-set-up.ts';
import { nextSteps } from '../next-steps.ts';
import { pageStyles } from '../page-styles.ts';
import { promptOf } from '../prompt.ts';
import { REPLAY_SPEEDS, type ReplaySpeed } from '../replay-of.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import { isLiveId } from '../live-sources.ts';
import type { PendingSource, Services } from '../services.ts';
import './bench-panel.ts';
import './connect-panel.ts';
import './override-form.ts';
import { advicePart } from './advice-part.ts';
import { preparePart } from './prepare-part.ts';
import './volume-entry.ts';

/** `task-panel`: what is to be done now, and nothing else. Events: `connect-wanted`, `again-wanted`. */
@customElement('task-panel')
export class TaskPanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .prompt {
        display: grid;
        gap: var(--m-space-1);
        padding: var(--m-space-3) var(--m-space-4);
        border-left: var(--m-stroke-3) solid var(--m-accent);
        background: var(--m-surface);
      }
      .prompt strong {
        font-size: var(--m-text-l);
        line-height: 1.25;
      }
      kbd {
        padding: 0 var(--m-space-2);
        border: var(--m-stroke-1) solid currentColor;
        border-radius: var(--m-radius-1);
        font: inherit;
        font-size: var(--m-text-s);
      }
      @media print {
        .prompt {
          display: none;
        }
      }
      ul.plain {
        padding-left: var(--m-space-4);
        list-style: disc;
      }
      ol.plain {
        padding-left: var(--m-space-5);
        list-style: decimal;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) services!: Services;
  @state() private correcting = false;

  override render() {
    const prompt = promptOf(this.shown);
    return html`<div class="stack">
      ${
        prompt
          ? html`<div class="prompt" role="status">
              <strong>${prompt.title}</strong><span>${prompt.text}</span>
            </div>`
          : nothing
      }
      ${this.#stage()}
    </div>`;
  }

  #stage() {
    switch (this.shown.view.stage) {
      case 'prepare':
        return this.#prepare();
      case 'connect':
        return this.#connect();
      case 'crank':
        return this.#crank();
      case 'read':
        return html`${
          this.shown.view.table.cranks.length > 0
            ? html`<m-crank-clock .view=${this.shown.view.clock}></m-crank-clock>`
            : nothing
        }${this.#read()}`;
      case 'measure':
      case 'verdict':
        return this.#verdict();
    }
  }

  #prepare() {
    const { run, view } = this.shown;
    return preparePart({
      runId: run.id,
      guide: view.guide,
      defersTo: LOW_RAIL_PRESSURE.defersTo,
      actionLabel: 'I have read these. Start listening',
      onAccepted: this.#accepted,
    });
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
    this.#wantConnect(null);
  };

  #connect() {
    const { view, run, search } = this.shown;
    if (view.link === 'opening') return this.#searching();
    if (run.recordingId !== null) return html`<m-progress label="Reading the recording"></m-progress>`;
    if (search?.outcome?.tone === 'nothing') return html`${this.#searching()} ${this.#ways()}`;
    return this.#ways();
  }

  /** After a reload a device is forgotten: it has to be chosen again. The bench is simply started anew. */
  #ways() {
    const { adapter, scenarioId } = this.shown.run.source;
    if (isLiveId(adapter))
      return html`<connect-panel
        .services=${this.services}
        @source-chosen=${(event: HTMLElementEventMap['source-chosen']) => this.#wantConnect(event.detail)}
      ></connect-panel>`;
    const alone = this.shown.run.jobId === null;
    const pending =
      adapter === 'bench' && scenarioId && alone ? ({ kind: 'bench', scenarioId, seed: 1 } as const) : null;
    return html`<div class="row">
      <button class="primary" @click=${() => this.#wantConnect(pending)}>Connect</button>
    </div>`;
  }

  #searching() {
    const { search, wallMs } = this.shown;
    if (!search) return html`<m-progress label="Opening the source"></m-progress>`;
    return html`<m-search-progress
      .steps=${search.steps}
      .outcome=${search.outcome}
      .elapsedSeconds=${(wallMs - search.sinceMs) / 1000}
      @search-stopped=${() => this.desk.stopListening()}
    ></m-search-progress>`;
  }

  #wantConnect(detail: PendingSource | null): void {
    this.dispatchEvent(new CustomEvent('connect-wanted', { detail, bubbles: true, composed: true }));
  }

  #crank() {
    const { view, run, speed, playback, search } = this.shown;
    const bench = run.source.adapter === 'bench' && playback === 'live';
    const waiting = search?.outcome && search.outcome.tone !== 'found' ? this.#searching() : nothing;
    return html`<m-crank-clock .view=${view.clock}></m-crank-clock> ${waiting}
      ${
        bench
          ? html`<bench-panel
              .bench=${this.desk.bench}
              .speed=${speed}
              .setUp=${run.jobId === null ? null : setUpCommands(benchSetUp(run.check))}
              .crankSeconds=${Math.max(1, Math.round(view.clock.targetSeconds))}
              @bench-speed=${(event: HTMLElementEventMap['bench-speed']) => this.desk.setSpeed(event.detail)}
            ></bench-panel>`
          : nothing
      }
      ${
        playback === 'live'
          ? html`<div class="row">
              <button ?hidden=${view.table.cranks.length === 0} @click=${() => this.desk.doneCranking()}>
                Done cranking: read the vessel
              </button>
            </div>`
          : nothing
      }`;
  }

  #read() {
    const { view, playback } = this.shown;
    const { volumeProblem } = view.judged.ok ? view.judged.value : { volumeProblem: null };
    return html`<volume-entry
      .vessel=${view.values.vessel}
      .bench=${playback === 'live' ? this.#benchView() : null}
      error=${volumeProblem ? describeProblem(volumeProblem).message : ''}
      .services=${this.services}
      @number-entered=${this.#entered}
      @volume-photographed=${this.#photographed}
      @vessel-chosen=${this.#vesselChosen}
    ></volume-entry>`;
  }

  #benchView(): BenchView | null {
    return this.shown.run.source.adapter === 'bench' ? this.desk.bench.lastView : null;
  }

  readonly #entered = (event: HTMLElementEventMap['number-entered']) => {
    this.correcting = false;
    this.desk.enterVolume(event.detail.value, event.detail.text);
  };

  readonly #photographed = (event: HTMLElementEventMap['volume-photographed']) => {
    this.correcting = false;
    const { valueMl, typed, photo } = event.detail;
    this.desk.enterVolume(valueMl, typed, photo);
  };

  readonly #vesselChosen = (event: HTMLElementEventMap['vessel-chosen']) => {
    this.desk.enter({ kind: 'vessel', atIso: this.desk.nowIso(), vessel: event.detail, reason: '' });
  };

  #verdict() {
    const { view, run, playback } = this.shown;
    if (!view.judged.ok || !view.judged.value.verdict) return nothing;
    const { verdict } = view.judged.value;
    const words = {
      ...verdict,
      reasons: verdict.reasons.map(describeProblem),
      warnings: verdict.warnings.map(describeProblem),
      notFinal: verdict.word === 'not valid' ? null : notFinalWords(verdict.warnings),
    };
    return html`<m-verdict .verdict=${words} sheet-line=${sheetLine(view.sheet)}></m-verdict>
      ${this.#replayNote(verdict)}
      ${advicePart(view.guide.advice[verdict.word].headline, nextSteps(view.judged.value, view.guide))}
      <override-form .verdict=${verdict} @override-given=${this.#overrideGiven}></override-form>
      <div class="row screen-only">
        ${
          run.jobId === null
            ? nothing
            : html`<button
                class="primary"
                @click=${() => this.services.go({ page: 'job', jobId: run.jobId ?? '' })}
              >
                Back to the job
              </button>`
        }
        <button
          class=${run.jobId === null ? 'primary' : ''}
          @click=${() => this.dispatchEvent(new CustomEvent('again-wanted', { bubbles: true, composed: true }))}
        >
          Again
        </button>
        <button aria-expanded=${this.correcting} @click=${() => (this.correcting = !this.correcting)}>
          Correct the volume
        </button>
        <button @click=${() => print()}>Print</button>
      </div>
      ${this.correcting ? this.#read() : nothing}
      ${run.recordingId && playback !== 'playing' ? this.#replay() : nothing}`;
  }

  /** While a recording plays, or after, the verdict that it gives is held against the one that was kept. */
  #replayNote(verdict: Verdict) {
    const kept = this.shown.run.verdict;
    if (this.shown.playback === 'live' || !kept) return nothing;
    const over = this.shown.session.link.kind === 'ended';
    if (!over) return html`<p class="quiet" role="status">Replaying the recording …</p>`;
    const same = kept.word === verdict.word && kept.nearest?.distance === verdict.nearest?.distance;
    return html`<p class="quiet" role="status">
      ${
        same
          ? `Read again from the recording: the same verdict, ${kept.word}.`
          : `Read again from the recording this version gives ${verdict.word}; kept as graded: ${kept.word}.`
      }
    </p>`;
  }

  readonly #overrideGiven = (event: HTMLElementEventMap['override-given']) => {
    this.desk.enter({ kind: 'override', atIso: this.desk.nowIso(), holds: true, ...event.detail });
  };

  #replay() {
    return html`<details class="card screen-only">
      <summary>Replay the recording</summary>
      <div class="row">
        ${REPLAY_SPEEDS.map(
          (speed: ReplaySpeed) => html`<button @click=${() => this.desk.replay(speed)}>${speed}×</button>`,
        )}
      </div>
    </details>`;
  }
}

const sheetLine = (sheet: LimitSheet | null): string =>
  sheet ? `${sheet.title}, revision ${sheet.revision}` : 'No limit sheet';

declare global {
  interface HTMLElementTagNameMap {
    'task-panel': TaskPanel;
  }
  interface HTMLElementEventMap {
    'connect-wanted': CustomEvent<PendingSource | null>;
    'again-wanted': CustomEvent<void>;
  }
}
