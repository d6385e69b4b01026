import type { Observable } from 'rxjs';
import type { LogFileChoice } from '../../adapters/log-file.ts';
import type { Part } from '../../simulators/engine/parts.ts';
import type { CharacteristicOption } from '../../adapters/bluetooth-discovery.ts';
import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';
import type { SourceOffer } from '../../adapters/registry.ts';
import type { PhotoStore } from '../jobs/photo-store.ts';
import type { JobStore } from '../jobs/job-store.ts';
import type { ProcedureStore } from '../jobs/procedure-store.ts';
import type { RunStore } from '../jobs/run-store.ts';
import type { LinkEvent } from '../link/link-event.ts';
import type { Problem } from '../problems/problem.ts';
import type { RecordingStore } from '../recordings/recording-store.ts';
import type { TrainingStore } from '../training/training-store.ts';
import type { Sounds } from '../ui/sounds.ts';
import type { Capabilities } from './capabilities.ts';
import type { DeviceMemory } from './device-memory.ts';
import type { JobDrafts } from './job-drafts.ts';
import type { JobFileDesk } from './job-file-desk.ts';
import type { LivePending, LiveSources } from './live-sources.ts';
import type { PickDesk } from './picking.ts';
import type { Route } from './routes.ts';
import type { Session } from './session.ts';
import type { SettingsStore } from './settings.ts';
import type { SheetShelf } from './sheet-shelf.ts';
import type { TabNews } from './tab-news.ts';
import type { WakeLockState } from './wake-lock.ts';

/** What a run will listen to once its cautions are accepted. Held in memory: a port cannot be written down. */
export type PendingSource =
  | {
      readonly kind: 'bench';
      readonly scenarioId: string;
      readonly seed: number;
      /** Parts that were replaced in the job before this run. */
      readonly replaced?: readonly Part[];
    }
  | LivePending
  | { readonly kind: 'typed'; readonly events: readonly LinkEvent[] }
  | { readonly kind: 'log-file'; readonly choice: LogFileChoice; readonly givenIntervalMs: number | null };

/** The world as the pages see it, made once by the composition root: clocks, stores, the one session. */
export interface Services {
  readonly session: Session;
  readonly settings: SettingsStore;
  readonly jobs: JobStore;
  readonly jobFiles: JobFileDesk;
  /** What was typed in jobs and is not entered yet. */
  readonly drafts: JobDrafts;
  readonly runs: RunStore;
  readonly procedures: ProcedureStore;
  /** What was kept, told between the tabs and the pages. */
  readonly news: TabNews;
  readonly recordings: RecordingStore;
  readonly photos: PhotoStore;
  readonly sheets: SheetShelf;
  /** Case sets, and how cases ended. */
  readonly training: TrainingStore;
  readonly sounds: Sounds;
  readonly capabilities: Capabilities;
  readonly live: LiveSources;
  /** All sources there are, and what this browser says to each. */
  readonly offers: readonly SourceOffer[];
  readonly memory: DeviceMemory;
  /** A choice of Bluetooth characteristics that waits for the person. */
  readonly picks: PickDesk<CharacteristicOption, CharacteristicPick>;
  /** Whether the screen is kept awake. */
  readonly wake$: Observable<WakeLockState>;
  readonly storageProblem$: Observable<Problem | null>;
  /** Sources chosen in this tab, by run. */
  readonly pending: Map<string, PendingSource>;
  /** A dropped file on its way to the import screen. */
  readonly dropped: {
    file: DroppedFile | null;
    sheetId: string | null;
    /** The run of a job that the file is for; null for a run of its own. */
    runId?: string | null;
  };
  wallMs(): number;
  nowIso(): string;
  newId(): string;
  /** A seed for the bench. */
  newSeed(): number;
  go(route: Route): void;
}

export interface DroppedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}
