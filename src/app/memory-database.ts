import { failed, type Result } from '../problems/result.ts';
import type {
  Database,
  KeyRange,
  StoreKey,
  StoreName,
  StoreReader,
  StoreWriter,
} from '../storage/database.ts';
import { storageProblem } from '../storage/storage-failure.ts';

type Row = readonly [key: StoreKey, document: object];
/** The rows of each store by the text of their key. */
type Stores = ReadonlyMap<StoreName, ReadonlyMap<string, Row>>;

/** Which fields make a document's key; the same as in storage/upgrades.ts. */
const KEY_OF: Readonly<Record<StoreName, (document: Record<string, unknown>) => StoreKey>> = {
  recordings: ({ id }) => String(id),
  chunks: ({ recordingId, sequence }) => [String(recordingId), Number(sequence)],
  runs: ({ id }) => String(id),
  sheets: ({ id }) => String(id),
  settings: ({ id }) => String(id),
  jobs: ({ id }) => String(id),
  jobSummaries: ({ id }) => String(id),
  photos: ({ id }) => String(id),
  procedures: ({ id }) => String(id),
  caseSets: ({ id }) => String(id),
  trainingResults: ({ id }) => String(id),
};

/**
 * Stands in where the browser keeps nothing (a private window): everything works as with the real database, held in memory, and is
 * gone with the page. Writes are whole or not at all, one after the other. The page says that nothing is kept.
 */
export function memoryDatabase(): Database {
  let stores: Stores = new Map();
  let turn: Promise<unknown> = Promise.resolve();
  return {
    read: (_names, work) => guarded(() => work(readerOf(() => stores))),
    write: (_names, work) => {
      const outcome = turn.then(async () => {
        let staged = stores;
        const written = await guarded(() =>
          work(
            writerOf(
              () => staged,
              (next) => (staged = next),
            ),
          ),
        );
        if (written.ok) stores = staged;
        return written;
      });
      turn = outcome;
      return outcome;
    },
    close: () => undefined,
  };
}

async function guarded<T>(work: () => Promise<Result<T>>): Promise<Result<T>> {
  try {
    return await work();
  } catch (error) {
    return failed(storageProblem(error));
  }
}

function readerOf(now: () => Stores): StoreReader {
  return {
    get: async (store, key) => structuredClone(now().get(store)?.get(textOf(key))?.[1]),
    list: async (store, range) =>
      [...(now().get(store)?.values() ?? [])]
        .filter(([key]) => !range || isWithin(key, range))
        .toSorted(([a], [b]) => compareKeys(a, b))
        .map(([, document]) => structuredClone(document)),
    keys: async (store) => [...(now().get(store)?.values() ?? [])].map(([key]) => key).toSorted(compareKeys),
    count: async (store) => now().get(store)?.size ?? 0,
    listRunsOf: async (jobId) =>
      [...(now().get('runs')?.values() ?? [])]
        .filter(([, document]) => (document as { jobId?: unknown }).jobId === jobId)
        .toSorted(([a], [b]) => compareKeys(a, b))
        .map(([, document]) => structuredClone(document)),
  };
}

function writerOf(now: () => Stores, set: (next: Stores) => void): StoreWriter {
  const change = (store: StoreName, rows: Iterable<readonly [string, Row]>) =>
    set(new Map([...now(), [store, new Map(rows)]]));
  return {
    ...readerOf(now),
    put: async (store, document) => {
      const key = KEY_OF[store](document as Record<string, unknown>);
      change(store, [...(now().get(store) ?? []), [textOf(key), [key, structuredClone(document)]]]);
    },
    remove: async (store, keys) => {
      const goes = (key: StoreKey) => (isRange(keys) ? isWithin(key, keys) : textOf(key) === textOf(keys));
      change(
        store,
        [...(now().get(store) ?? [])].filter(([, [key]]) => !goes(key)),
      );
    },
  };
}

const textOf = (key: StoreKey): string => JSON.stringify(key);
const isRange = (keys: StoreKey | KeyRange): keys is KeyRange => typeof keys === 'object' && 'from' in keys;
const isWithin = (key: StoreKey, { from, to }: KeyRange): boolean =>
  compareKeys(key, from) >= 0 && compareKeys(key, to) <= 0;

/** The order of IndexedDB, for the keys used here: text after number, place by place in a list. */
function compareKeys(a: StoreKey, b: StoreKey): number {
  const [left, right] = [[a].flat() as (string | number)[], [b].flat() as (string | number)[]];
  for (const [place, value] of left.entries()) {
    const other = right[place];
    if (other === undefined) return 1;
    if (value !== other) return value < other ? -1 : 1;
  }
  return left.length - right.length;
}
