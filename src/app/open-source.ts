import { asyncScheduler, concatMap, defer, from, of, switchMap, type Observable } from 'rxjs';
import type { BenchDesk, BenchSpeed } from './bench-desk.ts';
import { withSlcanSetup } from '../../adapters/slcan-session.ts';
import { readLogNumbers } from './read-log-numbers.ts';
import type { ScenarioId } from '../../simulators/scenarios.ts';
import type { Adapter, AdapterId } from '../link/adapter.ts';
import type { LinkEvent } from '../link/link-event.ts';
import type { RecordingWire } from '../recordings/recording.ts';
import type { SerialChoice } from '../../adapters/web-serial.ts';
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
  /** Asked at each tick, so that the bench's clock can be changed while it runs. */
  readonly speed: () => BenchSpeed;
  readonly serial: Adapter<SerialChoice>;
}

const BENCH_SETUP = { bitRate: 250_000, listenOnly: true, stamps: true } as const;
const NO_FILE = { fileName: null, logPlan: null, givenIntervalMs: null } as const;

/** The events of what the person chose. Each adapter is loaded when it is first needed. */
export function openSource(pending: PendingSource, means: SourceMeans): OpenedSource {
  switch (pending.kind) {
    case 'bench':
      return { id: 'bench', wire: 'slcan', event$: bench(pending, means), ...NO_FILE };
    case 'web-serial':
      return { id: 'web-serial', wire: 'slcan', event$: serial(pending, means), ...NO_FILE };
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

function bench(
  { scenarioId, seed }: Pending<'bench'>,
  { bench: desk, speed }: SourceMeans,
): Observable<LinkEvent> {
  return lazily(async () => {
    const { benchAdapter } = await import('../../adapters/bench.ts');
    const choice = {
      scenarioId: scenarioId as ScenarioId,
      seed,
      get speed() {
        return speed();
      },
      key$: desk.key$,
      onView: desk.show,
    };
    return benchAdapter().open(choice).pipe(withSlcanSetup(BENCH_SETUP, asyncScheduler));
  });
}

function serial(
  { choice, bitRate, listenOnly }: Pending<'web-serial'>,
  { serial: adapter }: SourceMeans,
): Observable<LinkEvent> {
  return adapter.open(choice).pipe(withSlcanSetup({ bitRate, listenOnly, stamps: true }, asyncScheduler));
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
