import {
  asyncScheduler,
  BehaviorSubject,
  map,
  merge,
  Subject,
  type Observable,
  type Subscription,
} from 'rxjs';
import type { BusFacts } from '../j1939/bus-facts.ts';
import { runValues } from '../jobs/run-entries.ts';
import type { PhotoOfVolume, RunEntry } from '../jobs/run-entry.ts';
import type { StoredRun } from '../jobs/run.ts';
import { isOpen } from '../link/link-state.ts';
import type { Problem } from '../problems/problem.ts';
import type { RecordingReport } from '../recordings/recorder.ts';
import { recordTo } from '../recordings/recorder.ts';
import { RECORDING_FORMAT, type RecordingHeader } from '../recordings/recording.ts';
import type { BridgeAsk } from '../wire/slcan-ask.ts';
import { identityEntries, identityProposals } from './bus-identity.ts';
import { codesEntry } from './bus-codes.ts';
import type { SearchReport } from '../wire/found-bridge.ts';
import { nextSearch, type SearchView } from './search-view.ts';
import { sheetFor } from './sheet-for.ts';
import { BenchDesk, type BenchSpeed } from './bench-desk.ts';
import { wishesOf } from './live-sources.ts';
import { looksAt } from './looks-at.ts';
import { openSource, sourceOf } from './open-source.ts';
import { replayOf, type ReplaySpeed } from './replay-of.ts';
import { summaryOf, valueSummaryIn } from './run-summary.ts';
import { viewRun, type RunView } from './run-view.ts';
import type { PendingSource, Services } from './services.ts';
import { IDLE_SESSION, neverOpened, sourceNowMs, type SessionState } from './session.ts';

type ValueEntry = Extract<RunEntry, { kind: 'value' }>;

/** The bench starts a little faster than life: a newcomer does not wait half a minute for each crank. */
const BENCH_START_SPEED: BenchSpeed = 4;

/** What the desk knows beside the run and the session. */
export interface DeskState {
  readonly run: StoredRun;
  readonly doneCranking: boolean;
  readonly problem: Problem | null;
  readonly saved: RecordingReport | null;
  /** Where the search for the bridge's language and speeds stands; null without one. */
  readonly search: SearchView | null;
  /** Why the limit sheet is the one it is, or why none was found for the engine; null while the engine is not known. */
  readonly sheetAdvice: string | null;
  /** `kept`: the data on screen come from the stored recording, all at once; `playing`: being replayed. */
  readonly playback: 'live' | 'kept' | 'playing';
  readonly speed: number;
}

export interface DeskView extends DeskState {
  readonly view: RunView;
  readonly session: SessionState;
  readonly wallMs: number;
}

/**
 * One run on the table: connects it, takes what the person does, keeps each entry at once, and shows what follows from it. All that
 * decides a verdict lies in `viewRun`; this is its thin shell.
 */
export class RunDesk {
  readonly bench = new BenchDesk();
  readonly view$: Observable<DeskView>;
  readonly #services: Services;
  readonly #state: BehaviorSubject<DeskState>;
  readonly #ask = new Subject<BridgeAsk>();
  #learned: BusFacts | null = null;
  readonly #keeping: Subscription;
  #session: SessionState = IDLE_SESSION;
  /** What was seen at the last look. */
  #looked: RunView | null = null;
  /** How many entries the kept verdict was formed with; -1 before there is one. */
  #gradedEntries: number;
  #puts: Promise<unknown> = Promise.resolve();

  constructor(services: Services, run: StoredRun) {
    this.#services = services;
    this.#gradedEntries = run.verdict === null ? -1 : run.entries.length;
    this.#state = new BehaviorSubject<DeskState>({
      run,
      doneCranking: false,
      problem: null,
      saved: null,
      search: null,
      sheetAdvice: null,
      playback: 'live',
      speed: run.source.adapter === 'bench' ? BENCH_START_SPEED : 1,
    });
    this.#keeping = services.session.state$.subscribe((session) => this.#follow(session));
    this.view$ = merge(this.#state, looksAt(services.session.state$)).pipe(
      map(() => this.#look(this.#state.value)),
    );
  }

  /** The time that an entry carries. */
  nowIso(): string {
    return this.#services.nowIso();
  }

  get run(): StoredRun {
    return this.#state.value.run;
  }

  /** Leaves the table: closes the source, if it is this run's. */
  close(): void {
    this.bench.turnStarter(false);
    this.#keeping.unsubscribe();
    if (this.#session.runId === this.run.id) this.#services.session.stop();
  }

  /** Adds an entry, keeps the run, and lets the verdict follow. */
  enter(...entries: readonly RunEntry[]): void {
    this.#keep(entries);
    this.#settle();
  }

  /** Gives a log without times the interval between two of its speed readings, and reads it again with it. */
  async giveInterval(intervalMs: number): Promise<void> {
    // Not settled here: what is on screen was read without the interval.
    this.#keep([{ kind: 'interval', atIso: this.#services.nowIso(), intervalMs, reason: '' }]);
    await this.replay('instant');
  }

  /** The volume ends the cranking: the source is closed first, so that nothing can come after the verdict. */
  enterVolume(valueMl: number, typed: string, photo?: PhotoOfVolume): void {
    this.stopListening();
    const read = { readingsMl: [valueMl], typed, ...(photo ? { photo } : {}) };
    this.enter({ kind: 'volume', atIso: this.#services.nowIso(), ...read, reason: '' });
  }

  /** A value read off an instrument takes the place of the data: the source is closed, so that nothing comes after the verdict. */
  enterValue(value: Omit<ValueEntry, 'kind' | 'atIso' | 'reason'>): void {
    this.stopListening();
    this.enter({ kind: 'value', atIso: this.#services.nowIso(), reason: '', ...value });
  }

  doneCranking(): void {
    this.bench.turnStarter(false);
    this.#change({ doneCranking: true });
  }

  /** Listens to the source that was chosen for this run and starts its recording. A run has one recording: later calls do nothing. */
  connect(pending: PendingSource): void {
    if (this.run.recordingId !== null) return;
    const services = this.#services;
    const chosen = this.#sourceOf(pending);
    const source = openSource(pending, {
      bench: this.bench,
      speed: () => this.#state.value.speed as BenchSpeed,
      live: services.live,
      drawn: services.training.caseOf,
      wishes: wishesOf(services.settings.value),
      title: `${this.run.title}, started ${this.run.createdAt}`,
      onSearch: (report) => this.#hearSearch(report),
      ask$: this.#ask,
    });
    const header: RecordingHeader = {
      formatVersion: RECORDING_FORMAT,
      id: services.newId(),
      source: source.id,
      wire: source.wire,
      device: chosen.device,
      startedAt: services.nowIso(),
      closed: false,
      givenIntervalMs: source.givenIntervalMs,
      fileName: source.fileName,
      logPlan: source.logPlan,
    };
    this.#change({ run: { ...this.run, source: chosen, recordingId: header.id }, playback: 'live' });
    this.#put();
    services.session.listen({
      runId: this.run.id,
      event$: source.event$,
      options: {
        wire: source.wire,
        crankSettings: this.run.crankSettings,
        givenIntervalMs: this.#interval(header),
      },
      rate: () => (pending.kind === 'bench' ? this.#state.value.speed : 1),
      keep: recordTo(services.recordings, header, {
        scheduler: asyncScheduler,
        onReport: (saved) => {
          this.#change({ saved });
          if (saved.closed && this.run.recordingId !== header.id) void services.recordings.remove(header.id);
        },
      }),
    });
  }

  /** A check of a job learns its source only when it is connected; a run on its own was begun with it. */
  #sourceOf(pending: PendingSource): StoredRun['source'] {
    return this.run.jobId === null ? this.run.source : sourceOf(pending);
  }

  /** Reads the stored recording through the same pipeline, at once or paced. */
  async replay(speed: ReplaySpeed): Promise<void> {
    const { recordingId } = this.run;
    if (recordingId === null) return;
    const loaded = await this.#services.recordings.loadEvents(recordingId);
    if (!loaded.ok) return this.#change({ problem: loaded.problem });
    const { header, events, problems } = loaded.value;
    this.#change({
      playback: speed === 'instant' ? 'kept' : 'playing',
      problem: problems[0] ?? null,
      speed: speed === 'instant' ? 1 : speed,
    });
    this.#services.session.listen({
      runId: this.run.id,
      event$: replayOf(events, header.device, speed),
      options: {
        wire: header.wire,
        crankSettings: this.run.crankSettings,
        givenIntervalMs: this.#interval(header),
      },
      rate: () => (speed === 'instant' ? 1 : speed),
      keep: null,
    });
  }

  /** Closes the source. What was heard stays on screen. */
  stopListening(): void {
    this.bench.turnStarter(false);
    const { session } = this.#services;
    if (this.#session.runId === this.run.id && this.#state.value.playback === 'live') session.end();
  }

  /** Sends requests that the person has just allowed. */
  ask(wish: BridgeAsk): void {
    this.#ask.next(wish);
  }

  setSpeed(speed: BenchSpeed): void {
    this.#change({ speed });
  }

  /** An entry takes the verdict back until it is formed anew: the store refuses a verdict that changes without an entry. */
  #keep(entries: readonly RunEntry[]): void {
    const run: StoredRun = { ...this.run, ...UNGRADED, entries: [...this.run.entries, ...entries] };
    this.#change({ run, problem: null });
    this.#put();
  }

  #interval(header: RecordingHeader): number | null {
    return runValues(this.run.vessel, this.run.entries).givenIntervalMs ?? header.givenIntervalMs;
  }

  #look(state: DeskState): DeskView {
    const session = this.#session;
    const wallMs = this.#services.wallMs();
    const nowMs = sourceNowMs(session, wallMs);
    const { run, doneCranking } = state;
    const view = viewRun({ run, session, nowMs, doneCranking, earlier: this.#looked });
    this.#looked = view;
    return { ...state, view, session, wallMs };
  }

  #follow(session: SessionState): void {
    const wasOver = isOver(this.#session);
    this.#session = session;
    if (session.runId !== this.run.id) return;
    if (neverOpened(session)) return void this.#forgetRecording();
    this.#learn(session);
    if (!wasOver && isOver(session)) this.#settle();
  }

  /** What was found goes into the run once: how its recording was made. */
  #hearSearch(report: SearchReport): void {
    const search = nextSearch(this.#state.value.search, report, this.#services.wallMs());
    const { run } = this;
    const first = report.stage === 'found' && report.found !== null && run.source.found === undefined;
    if (!first) return this.#change({ search });
    this.#change({ search, run: { ...run, source: { ...run.source, found: report.found } } });
    this.#put();
  }

  /** What the bus says of the vehicle and of trouble goes into the run once each; what was typed and what was graded stand. */
  #learn({ pipeline, link }: SessionState): void {
    const facts = pipeline?.bus.facts ?? null;
    if (!facts || facts === this.#learned || this.#state.value.playback !== 'live' || !isOpen(link.kind))
      return;
    this.#learned = facts;
    const atIso = this.#services.nowIso();
    const noted = this.run.entries.findLast((entry) => entry.kind === 'codes') ?? null;
    const codes = codesEntry(noted, facts, atIso);
    const said = identityEntries(this.run.entries, identityProposals(facts), atIso);
    if (said.length > 0 || codes) this.#keep([...said, ...(codes ? [codes] : [])]);
    if (said.some((entry) => entry.kind === 'identity' && entry.field === 'serialNumber'))
      void this.lookUpSheet();
  }

  /** Takes the limit sheet that holds for the engine's serial number, unless one that holds for it is taken already. */
  async lookUpSheet(): Promise<void> {
    const values = runValues(this.run.vessel, this.run.entries);
    const serial = values.identity.get('serialNumber')?.value ?? null;
    const { sheets } = await this.#services.sheets.list();
    const choice = sheetFor(sheets, { serial, run: this.run, values });
    if (choice.take) this.#keep([{ kind: 'sheet', atIso: this.#services.nowIso(), ...choice.take }]);
    this.#change({ sheetAdvice: choice.advice });
  }

  /** The source could not even be opened: the run is as before, and can be connected again. */
  #forgetRecording(): void {
    const { recordingId } = this.run;
    if (recordingId === null || this.#state.value.playback !== 'live') return;
    this.#change({ run: { ...this.run, recordingId: null } });
    this.#put();
  }

  /**
   * Grades what is there, once the data are whole. A verdict stays as it was graded until an entry is added: opening or replaying
   * a run changes nothing.
   */
  #settle(): void {
    const { view } = this.#look(this.#state.value);
    const { verdict, stage } = view;
    const { run } = this;
    // Without a recording nothing more can come: what was typed or seen is whole as soon as it gives a result.
    const whole = run.recordingId === null ? stage === 'verdict' : isOver(this.#session);
    if (!whole || verdict === null || run.entries.length === this.#gradedEntries) return;
    this.#gradedEntries = run.entries.length;
    const graded = {
      verdict: { ...verdict, reasons: [...verdict.reasons], warnings: [...verdict.warnings] },
      gradingRevision: verdict.gradingRevision,
      measurementSummary: summaryOf(view),
      valueSummary: valueSummaryIn(view),
      state: 'graded',
    } as const;
    this.#change({ run: { ...run, ...graded } as StoredRun });
    this.#put();
  }

  #put(): void {
    const { run } = this;
    this.#puts = this.#puts
      .then(() => this.#services.runs.put(run))
      .then((kept) => (kept.ok ? this.#tell(run) : this.#change({ problem: kept.problem })));
  }

  #tell({ id, jobId }: StoredRun): void {
    this.#services.news.tell({ kind: 'run', id, jobId });
  }

  #change(part: Partial<DeskState>): void {
    this.#state.next({ ...this.#state.value, ...part });
  }
}

const UNGRADED = {
  verdict: null,
  gradingRevision: null,
  measurementSummary: null,
  valueSummary: null,
  state: 'open',
} as const;

const isOver = ({ link }: SessionState): boolean => link.kind === 'ended' || link.kind === 'lost';
