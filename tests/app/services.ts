import { BehaviorSubject, of, type Observable } from 'rxjs';
import type { CharacteristicOption } from '../../adapters/bluetooth-discovery.ts';
import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';
import { sourceList } from '../../adapters/registry.ts';
import { deviceMemory } from '../../src/app/device-memory.ts';
import { jobDrafts } from '../../src/app/job-drafts.ts';
import { jobFileDesk } from '../../src/app/job-file-desk.ts';
import type { LivePending, LiveSources } from '../../src/app/live-sources.ts';
import { pickDesk } from '../../src/app/picking.ts';
import { newRun } from '../../src/app/new-run.ts';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import type { Services } from '../../src/app/services.ts';
import { Session } from '../../src/app/session.ts';
import { DEFAULT_SETTINGS, SettingsStore } from '../../src/app/settings.ts';
import { sheetShelf } from '../../src/app/sheet-shelf.ts';
import { tabNews } from '../../src/app/tab-news.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { photoStore } from '../../src/jobs/photo-store.ts';
import { jobStore } from '../../src/jobs/job-store.ts';
import { procedureStore } from '../../src/jobs/procedure-store.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { failed } from '../../src/problems/result.ts';
import { SHIPPED_CASE_SETS } from '../../src/training/library.ts';
import { trainingStore } from '../../src/training/training-store.ts';
import { millis } from '../../src/quantities/time.ts';
import { recordingStore } from '../../src/recordings/recording-store.ts';
import { RECORDING_FORMAT, type RecordingHeader } from '../../src/recordings/recording.ts';

export const NOW_ISO = '2026-11-25T08:00:00.000Z';

export interface FakeServices extends Services {
  readonly went: string[];
  readonly played: string[];
  readonly trouble$: BehaviorSubject<Problem | null>;
}

/** Live sources whose only device delivers what the test gives; choosing is refused. */
export const fakeLive = (event$: Observable<LinkEvent>): LiveSources => ({
  choose: () => Promise.resolve(failed(problem('link.refused'))),
  recall: () => Promise.resolve(null),
  open: () => event$,
});

export const LIVE_PENDING: LivePending = {
  kind: 'live',
  adapter: 'web-serial',
  choice: { device: 'bridge' },
  device: 'bridge',
  key: 'bridge-1',
};

/** The world of the pages without a browser's stores: everything in memory, ids counted, the clock given. */
export function fakeServices(
  wallMs: () => number = () => Date.now(),
  part: Partial<Services> = {},
): FakeServices {
  const database = memoryDatabase();
  const trouble$ = new BehaviorSubject<Problem | null>(null);
  const went: string[] = [];
  const played: string[] = [];
  let ids = 0;
  return {
    session: new Session(wallMs),
    settings: new SettingsStore(database, DEFAULT_SETTINGS),
    jobs: jobStore(database),
    jobFiles: jobFileDesk(database, { nowIso: () => NOW_ISO, newId: () => `id-${++ids}` }),
    drafts: jobDrafts(database),
    runs: runStore(database),
    procedures: procedureStore(database, [LOW_RAIL_PRESSURE]),
    news: tabNews(null),
    recordings: recordingStore(database),
    photos: photoStore(database),
    sheets: sheetShelf(database),
    training: trainingStore(database, SHIPPED_CASE_SETS),
    sounds: {
      play: (cue: string) => void played.push(cue),
      switchTo: () => undefined,
    } as unknown as Services['sounds'],
    capabilities: {
      serial: undefined,
      usb: undefined,
      bluetooth: undefined,
      webSocket: true,
      secure: true,
      android: false,
      wakeLock: undefined,
      channel: () => null,
      copy: () => Promise.resolve(true),
      askToKeep: () => Promise.resolve(true),
    },
    live: fakeLive(of<LinkEvent>()),
    offers: sourceList({
      serial: undefined,
      usb: undefined,
      bluetooth: undefined,
      webSocket: true,
      secure: true,
    }),
    memory: deviceMemory(database),
    picks: pickDesk<CharacteristicOption, CharacteristicPick>(),
    wake$: of('not held' as const),
    storageProblem$: trouble$,
    pending: new Map(),
    dropped: { file: null, sheetId: null },
    wallMs,
    nowIso: () => NOW_ISO,
    newId: () => `id-${++ids}`,
    newSeed: () => 7,
    go: (route) => void went.push(route.page === 'run' ? `run ${route.runId}` : route.page),
    ...part,
    went,
    played,
    trouble$,
  };
}

export function run(source: Partial<StoredRun['source']> = {}, id = 'run-1'): StoredRun {
  return newRun({
    id,
    createdAt: NOW_ISO,
    source: { adapter: 'log-file', device: 'crank.log', ...source },
    sheet: DEMONSTRATION_SHEET,
    vessel: vesselById('cylinder-500')!,
  });
}

export const header = (id: string, change: Partial<RecordingHeader> = {}): RecordingHeader => ({
  formatVersion: RECORDING_FORMAT,
  id,
  source: 'log-file',
  wire: 'readings',
  device: 'crank.log',
  startedAt: NOW_ISO,
  closed: false,
  givenIntervalMs: null,
  fileName: null,
  logPlan: null,
  ...change,
});

export const open = (atMs = 0): LinkEvent => ({
  kind: 'open',
  atMs: millis(atMs),
  device: 'bridge',
  write: null,
});

export const speed = (atMs: number, value: number | null, origin = 0): LinkEvent => ({
  kind: 'reading',
  atMs: millis(atMs),
  reading: {
    signal: 'engineSpeed',
    atMs: millis(atMs),
    value,
    quality: value === null ? 'notAvailable' : 'valid',
    origin,
  },
});

/** Speed every 100 ms from 0 to `untilS`: 160 rpm within the spans given in seconds, else 0. */
export function speeds(
  untilS: number,
  spans: readonly (readonly [number, number])[],
  origin = 0,
): LinkEvent[] {
  return Array.from({ length: untilS * 10 + 1 }, (_, place) => {
    const at = place / 10;
    return speed(at * 1000, spans.some(([from, to]) => at > from && at < to) ? 160 : 0, origin);
  });
}

/** Two cranks of 15 s with a rest, as the demonstration sheet asks. */
export const TWO_CRANKS: readonly LinkEvent[] = [
  open(),
  ...speeds(80, [
    [2, 17],
    [60, 75],
  ]),
];

/** A CAN bus dump line of engine speed (EEC1, PGN 61444): bytes 4 and 5, 0.125 rpm a bit (SPN 190, SAE J1939-71). */
export const eec1Line = (rpm: number): string => {
  const raw = Math.round(rpm / 0.125);
  const low = (raw & 0xff).toString(16).padStart(2, '0');
  const high = (raw >> 8).toString(16).padStart(2, '0');
  return `FFFFFF${low}${high}FFFFFF`.toUpperCase();
};
