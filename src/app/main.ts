import { asyncScheduler, BehaviorSubject, distinctUntilChanged, map, shareReplay } from 'rxjs';
import type { CharacteristicOption } from '../../adapters/bluetooth-discovery.ts';
import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';
import { recordingStore } from '../recordings/recording-store.ts';
import { photoStore } from '../jobs/photo-store.ts';
import { jobStore } from '../jobs/job-store.ts';
import { procedureStore } from '../jobs/procedure-store.ts';
import { runStore } from '../jobs/run-store.ts';
import { describeProblem, type Problem } from '../problems/problem.ts';
import { LOW_RAIL_PRESSURE } from '../procedures/library.ts';
import { SHIPPED_CASE_SETS } from '../training/library.ts';
import { trainingStore } from '../training/training-store.ts';
import '../ui/problem-note.ts';
import { createSounds } from '../ui/sounds.ts';
import { adoptDocumentStyles } from '../ui/tokens.ts';
import { sourceList } from '../../adapters/registry.ts';
import { millis } from '../quantities/time.ts';
import { isOpen } from '../link/link-state.ts';
import { browserCapabilities } from './capabilities.ts';
import { deviceMemory } from './device-memory.ts';
import { jobDrafts } from './job-drafts.ts';
import { jobFileDesk } from './job-file-desk.ts';
import { liveAdapters } from './live-adapters.ts';
import { liveSources } from './live-sources.ts';
import { pickDesk } from './picking.ts';
import { HOLDERS_CHANNEL, portHolders } from './port-holders.ts';
import { followWakeLock, pageVisible$ } from './wake-lock.ts';
import { routeHash } from './routes.ts';
import type { Services } from './services.ts';
import { Session } from './session.ts';
import { loadSettings, SettingsStore } from './settings.ts';
import { sheetShelf } from './sheet-shelf.ts';
import { NEWS_CHANNEL, tabNews } from './tab-news.ts';
import { calmOf, openStore } from './open-store.ts';
import './shell.ts';

/** Composition root: the only place of the page with clocks, chance and stores. */
async function start(): Promise<void> {
  adoptDocumentStyles(document);
  const trouble = new BehaviorSubject<Problem | null>(null);
  const wallMs = () => performance.timeOrigin + performance.now();
  const session = new Session(wallMs);
  // Until the store is open there is no page: what keeps it waiting is said in its place.
  const waiting = trouble.subscribe(showAlone);
  const database = await openStore('meniscus', {
    tell: (problem) => trouble.next(problem),
    onBlocking: (release) => calmOf(session.state$).subscribe(release),
  });
  waiting.unsubscribe();
  document.querySelector('body > m-problem')?.remove();
  const settings = new SettingsStore(database, await loadSettings(database));
  const sounds = createSounds();
  // For the life of the page: the document follows the settings.
  const following = settings.state$.subscribe(({ appearance, sounds: on }) => {
    sounds.switchTo(on);
    if (appearance === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = appearance;
  });
  const capabilities = browserCapabilities();
  const startedMs = wallMs();
  const memory = deviceMemory(database);
  const picks = pickDesk<CharacteristicOption, CharacteristicPick>();
  const nowIso = () => new Date().toISOString();
  const live = liveSources({
    load: liveAdapters({ capabilities, clock: () => millis(wallMs() - startedMs), memory, picks }),
    memory,
    holders: portHolders(capabilities.channel(HOLDERS_CHANNEL)),
    scheduler: asyncScheduler,
    nowIso,
  });
  const wanted$ = session.state$.pipe(
    map(({ link }) => isOpen(link.kind)),
    distinctUntilChanged(),
  );
  const wake$ = followWakeLock(wanted$, capabilities.wakeLock, pageVisible$(document)).pipe(
    shareReplay({ bufferSize: 1, refCount: false }),
  );
  const waking = wake$.subscribe();
  const services: Services = {
    session,
    settings,
    sounds,
    jobs: jobStore(database),
    jobFiles: jobFileDesk(database, { nowIso, newId: () => crypto.randomUUID() }),
    drafts: jobDrafts(database),
    runs: runStore(database),
    procedures: procedureStore(database, [LOW_RAIL_PRESSURE]),
    news: tabNews(capabilities.channel(NEWS_CHANNEL)),
    recordings: recordingStore(database),
    photos: photoStore(database),
    sheets: sheetShelf(database),
    training: trainingStore(database, SHIPPED_CASE_SETS),
    capabilities,
    live,
    offers: sourceList(capabilities),
    memory,
    picks,
    wake$,
    storageProblem$: trouble.asObservable(),
    pending: new Map(),
    dropped: { file: null, sheetId: null },
    wallMs,
    nowIso,
    newId: () => crypto.randomUUID(),
    newSeed: () => crypto.getRandomValues(new Uint32Array(1))[0]!,
    go: (route) => void (location.hash = routeHash(route)),
  };
  const app = document.createElement('m-app');
  app.services = services;
  addEventListener('pagehide', (event) => {
    // Kept in the back-forward cache the page may come back and goes on following.
    if (event.persisted) return;
    following.unsubscribe();
    waking.unsubscribe();
  });
  document.body.append(app);
}

function showAlone(trouble: Problem | null): void {
  if (!trouble) return;
  const note = document.createElement('m-problem');
  note.problem = describeProblem(trouble);
  document.body.append(note);
}

void start();
