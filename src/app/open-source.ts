import { asyncScheduler, concatMap, defer, from, of, switchMap, type Observable } from 'rxjs';
import { openBridge } from '../../adapters/open-bridge.ts';
import type { ScenarioId } from '../../simulators/scenarios.ts';
import type { RunSource } from '../jobs/run.ts';
import type { AdapterId } from '../link/adapter.ts';
import type { LinkEvent } from '../link/link-event.ts';
import type { RecordingWire } from '../recordings/recording.ts';
import type { Result } from '../problems/result.ts';
import { millis } from '../quantities/time.ts';
import { isTraining } from '../training/case-id.ts';
import type { TrainingCase } from '../training/draw-case.ts';
import type { SearchReport } from '../wire/found-bridge.ts';
import type { BridgeAsk } from '../wire/slcan-ask.ts';
import type { BenchDesk, BenchSpeed } from './bench-desk.ts';
import type { BridgeWishes, LivePending, LiveSources } from './live-sources.ts';
import { readLogNumbers } from './read-log-numbers.ts';
import type { PendingSource } from './services.ts';

/** A source ready to be listened to: its events and how they are to be read. Nothing is opened before it is subscribed to. */
export interface OpenedSource {
  readonly id: AdapterId;
  readonly wire: RecordingWire;
  readonly event$: Observable<LinkEvent>;
  readonly fileName: string | null;
  readonly logPlan: unknown;
  readonly givenIntervalMs: number | null;
}

export interface SourceMeans {
  readonly bench: BenchDesk;
  /** The engine of a training case. */
  readonly drawn: (scenarioId: string) => Promise<Result<TrainingCase>>;
  /** Asked at each tick, so that the bench's clock can be changed while it runs. */
  readonly speed: () => BenchSpeed;
  readonly live: LiveSources;
  readonly wishes: BridgeWishes;
  /** What a port is held for, in words for another tab. */
  readonly title: string;
  readonly onSearch: (report: SearchReport) => void;
  /** Requests for information that the person allowed. */
  readonly ask$: Observable<BridgeAsk>;
}

/** What a run keeps of the source that was chosen for it. */
export function sourceOf(pending: PendingSource): RunSource {
  switch (pending.kind) {
    case 'bench':
      return { adapter: 'bench', device: 'Bench simulator', scenarioId: pending.scenarioId };
    case 'live':
      return { adapter: pending.adapter, device: pending.device, deviceKey: pending.key };
    case 'typed':
      return { adapter: 'typed', device: 'typed numbers' };
    case 'log-file':
      return { adapter: 'log-file', device: pending.choice.name };
  }
}

const NO_FILE = { fileName: null, logPlan: null, givenIntervalMs: null } as const;

/** The events of what the person chose. Each adapter is loaded when it is first needed. */
export function openSource(pending: PendingSource, means: SourceMeans): OpenedSource {
  switch (pending.kind) {
    case 'bench':
      return { id: 'bench', wire: 'slcan', event$: bench(pending, means), ...NO_FILE };
    case 'live':
      return { id: pending.adapter, wire: 'auto', event$: live(pending, means), ...NO_FILE };
    case 'typed':
      return { id: 'typed', wire: 'readings', event$: from(pending.events), ...NO_FILE };
    case 'log-file': {
      const { choice, givenIntervalMs } = pending;
      return {
        id: 'log-file',
        wire: choice.wire,
        event$: logFile(pending),
        fileName: choice.name,
        logPlan: choice.plan,
        givenIntervalMs,
      };
    }
  }
}

type Pending<K extends PendingSource['kind']> = Extract<PendingSource, { kind: K }>;

const live = (pending: LivePending, { live: sources, wishes, title, onSearch, ask$ }: SourceMeans) =>
  sources.open(pending, { wishes, title, onSearch, ask$ });

/** The simulated bridge is found like a real one: at its only speed, by the same search. */
function bench(pending: Pending<'bench'>, means: SourceMeans): Observable<LinkEvent> {
  const { scenarioId, seed, replaced } = pending;
  const { bench: desk, speed, wishes, onSearch, ask$ } = means;
  return lazily(async () => {
    const { benchAdapter } = await import('../../adapters/bench.ts');
    const drawn = isTraining(scenarioId) ? await means.drawn(scenarioId) : null;
    if (drawn && !drawn.ok) return of<LinkEvent>({ kind: 'gap', atMs: millis(0), problem: drawn.problem });
    const choice = {
      scenario: drawn ? drawn.value.scenario : (scenarioId as ScenarioId),
      seed,
      get speed() {
        return speed();
      },
      key$: desk.key$,
      command$: desk.commands$(replaced ?? []),
      onView: desk.show,
    };
    return openBridge(() => benchAdapter().open(choice), {
      scheduler: asyncScheduler,
      speeds: null,
      remembered: null,
      wanted: wishes,
      onReport: onSearch,
      ask$,
    });
  });
}

function logFile({ choice }: Pending<'log-file'>): Observable<LinkEvent> {
  return lazily(async () => {
    const { logFileAdapter } = await import('../../adapters/log-file.ts');
    const means = {
      scheduler: asyncScheduler,
      pick: () => Promise.resolve(null),
      readNumbers: readLogNumbers,
    };
    const event$ = logFileAdapter(means).open(choice);
    return choice.wire === 'readings'
      ? event$.pipe(concatMap((event) => of(...withFile(event, choice.bytes))))
      : event$;
  });
}

/** The file itself goes into the recording before its readings: what was received is kept, not only what was read from it. */
const withFile = (event: LinkEvent, bytes: Uint8Array): readonly LinkEvent[] =>
  event.kind === 'open' ? [event, { kind: 'bytes', atMs: event.atMs, bytes }] : [event];

const lazily = (make: () => Promise<Observable<LinkEvent>>): Observable<LinkEvent> =>
  defer(() => from(make()).pipe(switchMap((event$) => event$)));
