import { BehaviorSubject } from 'rxjs';
import { recordingStore } from '../recordings/recording-store.ts';
import { runStore } from '../jobs/run-store.ts';
import type { Problem } from '../problems/problem.ts';
import { openDatabase, type Database } from '../storage/database.ts';
import { createSounds } from '../ui/sounds.ts';
import { adoptDocumentStyles } from '../ui/tokens.ts';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import { millis } from '../quantities/time.ts';
import { browserCapabilities } from './capabilities.ts';
import { routeHash } from './routes.ts';
import type { Services } from './services.ts';
import { Session } from './session.ts';
import { DEFAULT_SETTINGS, loadSettings, SettingsStore } from './settings.ts';
import { sheetShelf } from './sheet-shelf.ts';
import { closedDatabase } from './closed-database.ts';
import './shell.ts';

/** Composition root: the only place of the page with clocks, chance and stores. */
async function start(): Promise<void> {
  adoptDocumentStyles(document);
  const trouble = new BehaviorSubject<Problem | null>(null);
  const opened = await openDatabase('meniscus', {
    onBlocked: (problem) => trouble.next(problem),
    onBlocking: (problem) => trouble.next(problem),
    onTerminated: (problem) => trouble.next(problem),
  });
  if (!opened.ok) trouble.next(opened.problem);
  const database: Database = opened.ok ? opened.value : closedDatabase(opened.problem);
  const settings = new SettingsStore(database, opened.ok ? await loadSettings(database) : DEFAULT_SETTINGS);
  const sounds = createSounds();
  // One subscription for the life of the page: the document follows the settings.
  settings.state$.subscribe(({ appearance, sounds: on }) => {
    sounds.switchTo(on);
    if (appearance === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = appearance;
  });
  const wallMs = () => performance.timeOrigin + performance.now();
  const capabilities = browserCapabilities();
  const startedMs = wallMs();
  const services: Services = {
    session: new Session(wallMs),
    settings,
    sounds,
    runs: runStore(database),
    recordings: recordingStore(database),
    sheets: sheetShelf(database),
    capabilities,
    serial: webSerialAdapter(capabilities.serial, () => millis(wallMs() - startedMs)),
    storageProblem$: trouble.asObservable(),
    pending: new Map(),
    dropped: { file: null, sheetId: null },
    wallMs,
    nowIso: () => new Date().toISOString(),
    newId: () => crypto.randomUUID(),
    newSeed: () => crypto.getRandomValues(new Uint32Array(1))[0]!,
    go: (route) => void (location.hash = routeHash(route)),
  };
  const app = document.createElement('m-app');
  app.services = services;
  document.body.append(app);
}

void start();
