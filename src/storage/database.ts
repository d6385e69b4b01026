import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { storageProblem } from './storage-failure.ts';
import { UPGRADES, type Upgrade } from './upgrades.ts';

/** The kinds of things kept. Keys: id, except chunks [recordingId, sequence]. */
export type StoreName =
  | 'recordings'
  | 'chunks'
  | 'runs'
  | 'sheets'
  | 'settings'
  | 'jobs'
  | 'jobSummaries'
  | 'photos'
  | 'procedures'
  | 'caseSets'
  | 'trainingResults';
export type StoreKey = string | readonly (string | number)[];

/** A stretch of keys, both ends within it. */
export interface KeyRange {
  readonly from: StoreKey;
  readonly to: StoreKey;
}

/** What can be done within one transaction. Await nothing else in it: the browser ends a transaction that idles. */
export interface StoreReader {
  /** The document as stored, undefined where there is none. Parse it: it may come from another version. */
  get(store: StoreName, key: StoreKey): Promise<unknown>;
  /** All documents in order of their keys. */
  list(store: StoreName, range?: KeyRange): Promise<readonly unknown[]>;
  /** The keys of all documents, in order. */
  keys(store: StoreName): Promise<readonly StoreKey[]>;
  /** How many documents there are. */
  count(store: StoreName): Promise<number>;
  /** The runs of a job, in order of their keys. */
  listRunsOf(jobId: string): Promise<readonly unknown[]>;
}

export interface StoreWriter extends StoreReader {
  put(store: StoreName, document: object): Promise<void>;
  remove(store: StoreName, keys: StoreKey | KeyRange): Promise<void>;
}

/**
 * Everything that Meniscus keeps in this browser. Each call is one transaction; a `write` has happened wholly, and is on
 * the disk (strict durability), when it answers ok, and not at all when it answers with a problem.
 */
export interface Database {
  read<T>(
    stores: readonly StoreName[],
    work: (reader: StoreReader) => Promise<Result<T>>,
  ): Promise<Result<T>>;
  write<T>(
    stores: readonly StoreName[],
    work: (writer: StoreWriter) => Promise<Result<T>>,
  ): Promise<Result<T>>;
  close(): void;
}

/** What other tabs and the browser can do to an open database. Each is told as a problem that a person can act on. */
export interface DatabaseEvents {
  /** Another tab holds an older version open: opening waits for it. */
  readonly onBlocked: (problem: Problem) => void;
  /** This tab keeps a newer one waiting. `release` closes here; call it when nothing is being recorded. */
  readonly onBlocking: (problem: Problem, release: () => void) => void;
  readonly onTerminated: (problem: Problem) => void;
}

/**
 * Opens, makes or upgrades the database. Problems: `storage.unavailable`, `storage.newer-version`,
 * `storage.upgrade-failed` (then all stands as before). `upgrades` is given by tests only.
 */
export async function openDatabase(
  name: string,
  events: DatabaseEvents,
  upgrades: readonly Upgrade[] = UPGRADES,
): Promise<Result<Database>> {
  let upgradeError: unknown = null;
  try {
    const connection = await openDB(name, upgrades.length, {
      upgrade: (db, from, _to, tx) => {
        try {
          for (const step of upgrades.slice(from))
            step(db as unknown as IDBDatabase, tx as unknown as IDBTransaction);
        } catch (error) {
          // A throw alone would commit what was done so far under the new version number.
          upgradeError = error;
          tx.done.catch(() => undefined); // told by the opening, which fails with it
          tx.abort();
        }
      },
      blocked: () => events.onBlocked(problem('storage.blocked')),
      blocking: (_current, _wanted, event) =>
        events.onBlocking(problem('storage.blocking'), () => (event.target as IDBDatabase).close()),
      terminated: () => events.onTerminated(problem('storage.terminated')),
    });
    return ok(databaseOver(connection));
  } catch (error) {
    return failed(openingProblem(error, upgradeError));
  }
}

function openingProblem(error: unknown, upgradeError: unknown): Problem {
  if (upgradeError !== null) return problem('storage.upgrade-failed', { detail: String(upgradeError) });
  if (error instanceof Error && error.name === 'VersionError') return problem('storage.newer-version');
  return problem('storage.unavailable', { detail: error instanceof Error ? error.message : String(error) });
}

function databaseOver(connection: IDBPDatabase): Database {
  return {
    read: (stores, work) => transact(connection, 'readonly', stores, work),
    write: (stores, work) => transact(connection, 'readwrite', stores, work),
    close: () => connection.close(),
  };
}

async function transact<T>(
  connection: IDBPDatabase,
  mode: 'readonly' | 'readwrite',
  stores: readonly StoreName[],
  work: (writer: StoreWriter) => Promise<Result<T>>,
): Promise<Result<T>> {
  let tx: IDBPTransaction<unknown, string[], typeof mode>;
  try {
    tx = connection.transaction([...stores], mode, { durability: 'strict' });
  } catch (error) {
    return failed(storageProblem(error));
  }
  // Watched from the start: an abort while `work` still runs must not be an unhandled rejection.
  const done = tx.done.then(
    () => null,
    (error: unknown) => ({ error }),
  );
  try {
    const outcome = await work(writerOver(tx as IDBPTransaction<unknown, string[], 'readwrite'>));
    if (!outcome.ok) abort(tx);
    const trouble = await done;
    return outcome.ok && trouble ? failed(storageProblem(trouble.error)) : outcome;
  } catch (error) {
    abort(tx);
    const trouble = await done;
    // A request that died with its transaction says only AbortError; the cause (no room left) is then the transaction's.
    return failed(storageProblem(isAbort(error) && trouble ? trouble.error : error));
  }
}

const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError';

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // Over already: then there is nothing to undo.
  }
}

function writerOver(tx: IDBPTransaction<unknown, string[], 'readwrite'>): StoreWriter {
  return {
    get: (store, key) => tx.objectStore(store).get(validKey(key)),
    list: (store, range) => tx.objectStore(store).getAll(range ? nativeRange(range) : undefined),
    keys: (store) => tx.objectStore(store).getAllKeys() as Promise<StoreKey[]>,
    count: (store) => tx.objectStore(store).count(),
    listRunsOf: (jobId) => tx.objectStore('runs').index('jobId').getAll(jobId),
    put: async (store, document) => {
      await tx.objectStore(store).put(document);
    },
    remove: (store, keys) =>
      tx.objectStore(store).delete(isRange(keys) ? nativeRange(keys) : validKey(keys)) as Promise<void>,
  };
}

const isRange = (keys: StoreKey | KeyRange): keys is KeyRange => typeof keys === 'object' && 'from' in keys;
const validKey = (key: StoreKey): IDBValidKey => (typeof key === 'string' ? key : [...key]);
const nativeRange = ({ from, to }: KeyRange): IDBKeyRange => IDBKeyRange.bound(validKey(from), validKey(to));
