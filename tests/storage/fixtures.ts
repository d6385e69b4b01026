import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDatabase, type Database, type DatabaseEvents } from '../../src/storage/database.ts';
import type { Problem } from '../../src/problems/problem.ts';
import type { Upgrade } from '../../src/storage/upgrades.ts';

/** Puts a fresh IndexedDB in the place where the browser has its own. */
export function freshIndexedDb(): void {
  Object.assign(globalThis, { indexedDB: new IDBFactory() });
}

/** Events of a database, written down. */
export interface Notes extends DatabaseEvents {
  readonly codes: string[];
  readonly releases: (() => void)[];
}

export function notes(): Notes {
  const codes: string[] = [];
  const releases: (() => void)[] = [];
  const note = (problem: Problem) => void codes.push(problem.code);
  return {
    codes,
    releases,
    onBlocked: note,
    onTerminated: note,
    onBlocking: (problem, release) => {
      note(problem);
      releases.push(release);
    },
  };
}

/** An open database, or a thrown problem: for tests in which opening is not the matter. */
export async function opened(name: string, upgrades?: readonly Upgrade[]): Promise<Database> {
  const result = await openDatabase(name, notes(), upgrades);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}
