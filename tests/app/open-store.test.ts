import { Subject } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { beforeEach, expect, test } from 'vitest';
import { calmOf, CALM_MS, openStore } from '../../src/app/open-store.ts';
import { IDLE_SESSION, type SessionState } from '../../src/app/session.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import type { LinkKind } from '../../src/link/link-state.ts';
import { openDatabase } from '../../src/storage/database.ts';
import { UPGRADES } from '../../src/storage/upgrades.ts';
import { freshIndexedDb, notes } from '../storage/fixtures.ts';
import { run } from './services.ts';

beforeEach(freshIndexedDb);

function listener() {
  const told: (string | null)[] = [];
  const release$ = new Subject<() => void>();
  return {
    told,
    release$,
    means: {
      tell: (trouble: { code: string } | null) => void told.push(trouble?.code ?? null),
      onBlocking: (release: () => void) => release$.next(release),
    },
  };
}

test('an ordinary store keeps a run over a reopening, and no trouble is told', async () => {
  const { told, means } = listener();
  const first = await openStore('kept', means);
  await runStore(first).put(run());
  first.close();
  expect((await runStore(await openStore('kept', means)).get('run-1')).ok).toBe(true);
  expect(told).toEqual([null, null]);
});

test('without IndexedDB a run is still possible, and the notice says that nothing is kept', async () => {
  Object.assign(globalThis, { indexedDB: undefined });
  const { told, means } = listener();
  const database = await openStore('private', means);
  expect(told).toEqual(['storage.unavailable']);
  const runs = runStore(database);
  expect((await runs.put(run())).ok).toBe(true);
  expect((await runs.get('run-1')).ok).toBe(true);
});

test('a store of a newer version is left alone, and the run goes on in memory', async () => {
  const newer = await openDatabase('newer', notes(), [...UPGRADES, () => undefined]);
  if (newer.ok) newer.value.close();
  const { told, means } = listener();
  const database = await openStore('newer', means);
  expect(told).toEqual(['storage.newer-version']);
  expect((await runStore(database).put(run())).ok).toBe(true);
});

test('a newer version in another tab waits until this one gives the store away, and this one says that it is closed', async () => {
  const { told, release$, means } = listener();
  const database = await openStore('shared', means);
  let release: (() => void) | null = null;
  const asked = new Promise<void>((done) => release$.subscribe((given) => ((release = given), done())));
  const newer = openDatabase('shared', notes(), [...UPGRADES, () => undefined]);
  await asked;
  expect(told).toEqual([null, 'storage.blocking']);
  expect((await runStore(database).put(run())).ok).toBe(true);
  release!();
  expect((await newer).ok).toBe(true);
  expect(told.at(-1)).toBe('storage.closed');
  expect(await runStore(database).put(run())).toMatchObject({ problem: { code: 'storage.closed' } });
});

test('the store is given away only after nothing has been listened to for a while, and once', () => {
  const at = (kind: LinkKind): SessionState => ({ ...IDLE_SESSION, link: { ...IDLE_SESSION.link, kind } });
  new TestScheduler((actual, expected) => expect(actual).toEqual(expected)).run(
    ({ hot, expectObservable }) => {
      const states = { w: at('waiting'), l: at('live'), e: at('ended'), n: at('none') };
      const session$ = hot(`w 9s l 9s e ${CALM_MS - 2000}ms e 9s n`, states);
      expectObservable(calmOf(session$)).toBe(
        `1ms 9s 1ms 9s ${CALM_MS - 2000}ms 1ms ${CALM_MS}ms (e|)`,
        states,
      );
    },
  );
});
