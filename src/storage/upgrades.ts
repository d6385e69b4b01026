/** One step of the database's form, from version n to n + 1, where n is its place in the list. */
export type Upgrade = (db: IDBDatabase, tx: IDBTransaction) => void;

/**
 * All steps so far. Only ever append: a browser may hold any older version. A step does its work at once or through
 * requests of `tx`; it must not wait for anything else.
 */
export const UPGRADES: readonly Upgrade[] = [
  (db) => {
    db.createObjectStore('recordings', { keyPath: 'id' });
    db.createObjectStore('chunks', { keyPath: ['recordingId', 'sequence'] });
    db.createObjectStore('runs', { keyPath: 'id' });
    db.createObjectStore('sheets', { keyPath: 'id' });
    db.createObjectStore('settings', { keyPath: 'id' });
  },
  // Nothing moves: recordings and runs of format 2 may lie here from now on. A Meniscus that knows only format 1 would call such
  // recordings damaged; by the database's version it learns that they are newer (`storage.newer-version`).
  () => undefined,
  (db, tx) => {
    db.createObjectStore('jobs', { keyPath: 'id' });
    db.createObjectStore('jobSummaries', { keyPath: 'id' });
    db.createObjectStore('photos', { keyPath: 'id' });
    db.createObjectStore('procedures', { keyPath: 'id' });
    tx.objectStore('runs').createIndex('jobId', 'jobId');
  },
  // The rows of jobs lie in packs from now on (jobs/job-rows.ts). Those of one job each go; the first list makes all again from the jobs.
  (_db, tx) => void tx.objectStore('jobSummaries').clear(),
  (db) => {
    db.createObjectStore('caseSets', { keyPath: 'id' });
    db.createObjectStore('trainingResults', { keyPath: 'id' });
  },
];
