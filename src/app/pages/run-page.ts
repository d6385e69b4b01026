import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Stretch } from '../../checks/value-measurement.ts';
import type { RunEntry } from '../../jobs/run-entry.ts';
import type { StoredRun } from '../../jobs/run.ts';
import { isOpen } from '../../link/link-state.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles, panelStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import '../../ui/empty-state.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import '../../ui/source-state.ts';
import type { Subscription } from 'rxjs';
import { cueOf } from '../clock-cue.ts';
import { againPending } from '../again-pending.ts';
import { repeatOf } from '../new-run.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/evidence-panel.ts';
import '../parts/interval-form.ts';
import '../parts/live-panel.ts';
import '../../ui/shape-icon.ts';
import { isTyping } from '../is-typing.ts';
import { linkNotices } from '../link-notices.ts';
import { pressureLines } from '../pressure-lines.ts';
import { identityWanted } from '../identity-view.ts';
import '../parts/check-panel.ts';
import '../parts/sheet-choice.ts';
import '../parts/source-panel.ts';
import '../parts/task-panel.ts';
import { routeHash } from '../routes.ts';
import { RunDesk, type DeskView } from '../run-desk.ts';
import { sourceCondition } from '../source-condition.ts';
import { benchOfJob } from '../start-check.ts';
import { viewJob } from '../job-view.ts';
import type { PendingSource, Services } from '../services.ts';
import { DEFAULT_SETTINGS, type Settings } from '../settings.ts';
import type { WakeLockState } from '../wake-lock.ts';
import { frameRate, type FrameRate } from '../frame-rate.ts';
import { runPageStyles } from './run-page-styles.ts';

/** `run-page`: one screen for one run, from its cautions to its verdict. */
@customElement('run-page')
export class RunPage extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles, panelStyles, runPageStyles];

  @property({ attribute: false }) services!: Services;
  @property() runId = '';
  @state() private desk: RunDesk | null = null;
  @state() private shown: DeskView | null = null;
  @state() private missing: Problem | null = null;
  @state() private settings: Settings = DEFAULT_SETTINGS;
  /** The worst stretch of a drive that is looked at closely. */
  @state() private stretch: Stretch | null = null;
  readonly #wake = new Bound<WakeLockState>(this, () => this.services.wake$, 'not held');
  #watching: Subscription | null = null;
  #rate: FrameRate | null = null;
  #cue: string | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('keydown', this.#keyed);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('keydown', this.#keyed);
    this.#leave();
  }

  override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('runId')) void this.#open(this.runId);
  }

  async #open(runId: string): Promise<void> {
    this.#leave();
    this.missing = null;
    this.settings = this.services.settings.value;
    const loaded = await this.services.runs.get(runId);
    if (runId !== this.runId || !this.isConnected) return;
    if (!loaded.ok) return void (this.missing = loaded.problem);
    this.#sit(loaded.value);
  }

  #sit(run: StoredRun): void {
    const desk = new RunDesk(this.services, run);
    this.desk = desk;
    this.#watching = desk.view$.subscribe((view) => this.#show(view));
    const pending = this.services.pending.get(run.id);
    if (run.recordingId !== null) void desk.replay('instant');
    else if (pending?.kind === 'log-file') desk.connect(pending);
  }

  #leave(): void {
    this.#watching?.unsubscribe();
    this.desk?.close();
    this.desk = null;
    this.shown = null;
    this.stretch = null;
    this.#rate = null;
  }

  #show(view: DeskView): void {
    this.shown = view;
    this.#rate = frameRate(this.#rate, view.view.pipeline?.wire?.counts.frames ?? 0, view.wallMs);
    const cue = cueOf(view.view.clock.warn);
    if (cue && cue !== this.#cue && view.view.stage === 'crank') this.services.sounds.play(cue);
    this.#cue = cue;
  }

  override render() {
    if (this.missing)
      return html`<div class="column">
        <m-problem tone="error" .problem=${describeProblem(this.missing)}
          ><a href="#/runs">Go to the runs</a></m-problem
        >
      </div>`;
    const { shown, desk } = this;
    if (!shown || !desk)
      return html`<div class="column"><m-progress label="Opening the run"></m-progress></div>`;
    return html`<div class="run">
      ${this.#bar(shown)}
      ${
        shown.problem
          ? html`<m-problem
              class="notice"
              tone="error"
              .problem=${describeProblem(shown.problem)}
            ></m-problem>`
          : nothing
      }
      ${linkNotices(shown).map(
        (each) => html`<m-problem class="notice" tone="warn" .problem=${describeProblem(each)}></m-problem>`,
      )}
      ${this.#vehicleNotes(shown)} ${this.#interval(shown)} ${this.#board(shown, desk)}
      ${this.#sheetChoice(shown)} ${this.#source(shown, desk)}
    </div>`;
  }

  #board(shown: DeskView, desk: RunDesk) {
    const alone = shown.run.kind === 'inspection';
    return html`<div class="board ${shown.view.stage} ${alone ? 'alone' : ''}">
      <div class="left">
        ${
          alone
            ? nothing
            : html`<live-panel
                  .desk=${shown}
                  .settings=${this.settings}
                  .stretch=${this.stretch}
                ></live-panel>
                ${this.stretch ? html`<button @click=${() => (this.stretch = null)}>Show the whole trace</button>` : nothing}`
        }
        ${this.#evidence(shown)}
      </div>
      ${
        shown.view.checked
          ? html`<check-panel
              class="task"
              .desk=${desk}
              .shown=${shown}
              .services=${this.services}
              @connect-wanted=${this.#connect}
              @again-wanted=${this.#again}
              @stretch-show=${this.#showStretch}
            ></check-panel>`
          : html`<task-panel
              class="task"
              .desk=${desk}
              .shown=${shown}
              .services=${this.services}
              @connect-wanted=${this.#connect}
              @again-wanted=${this.#again}
            ></task-panel>`
      }
    </div>`;
  }

  /** Its axis begins with the first data. */
  readonly #showStretch = ({ detail }: HTMLElementEventMap['stretch-show']) => {
    const zeroMs = this.shown?.view.pipeline?.firstMs ?? 0;
    this.stretch = { startMs: zeroMs + detail.startMs, endMs: zeroMs + detail.endMs };
  };

  /** What a crank delivery stands on; a check of another kind shows it with its result. */
  #evidence({ run, view }: DeskView) {
    const heard = view.table.cranks.length > 0 || (view.pipeline?.finders.size ?? 0) > 1;
    if (run.kind !== 'crank delivery' || !heard) return nothing;
    return html`<evidence-panel
      .view=${view}
      .photos=${this.services.photos}
      @entry-wanted=${this.#entryWanted}
    ></evidence-panel>`;
  }

  /** Which limits the run is judged on; an inspection needs none. */
  #sheetChoice({ run, view }: DeskView) {
    if (run.kind === 'inspection' || view.stage === 'prepare') return nothing;
    return html`<sheet-choice
      .services=${this.services}
      .view=${view}
      @entry-wanted=${this.#entryWanted}
    ></sheet-choice>`;
  }

  /** The source of the run: closed on the page until the person wants it, but for a bridge that is not understood. */
  #source({ session, view, search, wallMs, run }: DeskView, desk: RunDesk) {
    if (session.runId !== run.id || !view.pipeline) return nothing;
    return html`<details class="card screen-only">
      <summary>Source, vehicle and trouble codes</summary>
      <source-panel
        .services=${this.services}
        .session=${session}
        .nowMs=${view.nowMs}
        .wallMs=${wallMs}
        .search=${search}
        .values=${view.values}
        @search-stopped=${() => desk.stopListening()}
        @ask-wanted=${(event: HTMLElementEventMap['ask-wanted']) => desk.ask(event.detail)}
        @identity-changed=${this.#identityChanged}
      ></source-panel>
    </details>`;
  }

  readonly #identityChanged = (event: HTMLElementEventMap['identity-changed']) => {
    const wanted = identityWanted(event.detail);
    if (!wanted || !this.desk) return;
    this.desk.enter({ ...wanted, atIso: this.services.nowIso() } as RunEntry);
    void this.desk.lookUpSheet();
  };

  #bar(shown: DeskView) {
    const { run, view } = shown;
    const { sheet } = view;
    const counts = view.pipeline?.wire?.counts;
    const condition = sourceCondition(shown);
    return html`<div class="bar">
      <div>
        ${
          run.jobId === null
            ? nothing
            : html`<a class="screen-only" href=${routeHash({ page: 'job', jobId: run.jobId })}>‹ The job</a>`
        }
        <h1>${run.title}</h1>
        <p class="quiet">
          ${sheet ? `${sheet.title}, revision ${sheet.revision}` : 'No limit sheet'} · started
          ${new Date(run.createdAt).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })}
        </p>
      </div>
      ${this.#wakeNote(shown)}
      <m-source-state
        state=${condition.state}
        .deviceName=${view.pipeline?.device ?? run.source.device}
        .framesPerSecond=${condition.state === 'live' ? (this.#rate?.perSecond ?? null) : null}
        .malformed=${counts ? Object.values(counts.malformed).reduce((sum, each) => sum + each, 0) : 0}
        .secondsSinceLast=${condition.secondsSinceLast}
        .secondsSinceLoss=${condition.secondsSinceLast}
      ></m-source-state>
    </div>`;
  }

  /** Whether the screen stays on by itself while the source is open: in the cab nobody touches it for minutes. */
  #wakeNote({ view, playback }: DeskView) {
    if (playback !== 'live' || !isOpen(view.link)) return nothing;
    const words: Readonly<Record<WakeLockState, string>> = {
      held: 'Screen stays on',
      'not held': '',
      'not possible': 'This browser may let the screen go dark: keep it on by hand',
    };
    return html`<span class="quiet screen-only">${words[this.#wake.value]}</span>`;
  }

  /** What vehicle and serial number change for this run: low rail pressure codes, and which limit sheet holds. */
  #vehicleNotes({ view, sheetAdvice }: DeskView) {
    const { codes } = view.values;
    const low = codes ? pressureLines(codes) : [];
    return html`${low.map(
      (line) => html`<p class="note screen-only"><m-icon shape="engine"></m-icon>${line}</p>`,
    )}${sheetAdvice ? html`<p class="note screen-only"><m-icon shape="info"></m-icon>${sheetAdvice}</p>` : nothing}`;
  }

  /** A log without times is read again once the interval is given; not before all of it is kept. */
  #interval({ view, saved, playback }: DeskView) {
    const whole = view.link === 'ended' && (playback !== 'live' || saved?.closed === true);
    if (!whole || (view.pipeline?.untimedFrames ?? 0) === 0) return nothing;
    return html`<interval-form
      @interval-given=${(event: HTMLElementEventMap['interval-given']) => this.desk?.giveInterval(event.detail)}
    ></interval-form>`;
  }

  readonly #connect = async (event: HTMLElementEventMap['connect-wanted']) => {
    const pending = event.detail ?? this.services.pending.get(this.runId) ?? (await this.#benchAgain());
    if (pending) this.desk?.connect(pending);
  };

  /** After a reload the bench of a job is set up anew, with the parts that were replaced since. */
  async #benchAgain(): Promise<PendingSource | null> {
    const jobId = this.desk?.run.jobId ?? null;
    if (jobId === null) return null;
    const loaded = await this.services.jobs.withRuns(jobId);
    if (!loaded.ok) return null;
    return benchOfJob(viewJob(loaded.value.job, loaded.value.runs.items), this.services.newSeed());
  }

  readonly #entryWanted = (event: HTMLElementEventMap['entry-wanted']) => {
    const atIso = this.services.nowIso();
    this.desk?.enter(...event.detail.map((entry): RunEntry => ({ ...entry, atIso })));
  };

  /** The next repeat, with everything kept: same source, sheet and vessel. */
  readonly #again = async () => {
    const { services, desk } = this;
    if (!desk) return;
    const run = repeatOf(desk.run, services.newId(), services.nowIso());
    const pending = againPending(services.pending.get(desk.run.id), run, services.newSeed());
    if (pending) services.pending.set(run.id, pending);
    const kept = await services.runs.put(run);
    if (kept.ok) services.go({ page: 'run', runId: run.id });
    else this.missing = kept.problem;
  };

  readonly #keyed = (event: KeyboardEvent) => {
    const { desk, shown } = this;
    if (!desk || !shown || isTyping(event)) return;
    const { stage } = shown.view;
    const key = event.key.toLowerCase();
    const onBench = desk.run.source.adapter === 'bench' && (stage === 'crank' || stage === 'measure');
    if (key === 'k' && onBench) desk.bench.turnStarter(!desk.bench.cranking);
    if (key === 'd' && stage === 'crank') desk.doneCranking();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'run-page': RunPage;
  }
}
