import { storedEqual } from '../jobs/stored-equal.ts';
import type { TrainingResult } from './training-result.ts';

export interface MergedResults {
  /** All that there is, oldest end first. */
  readonly all: readonly TrainingResult[];
  /** Those that were not there before, under the id by which they are kept. */
  readonly added: readonly TrainingResult[];
  /** How many were there already, exactly the same. */
  readonly same: number;
}

/**
 * Puts results of another machine beside those that are here. Nothing is lost or replaced: what is here already is passed over, and a result that
 * bears the id of another one is kept beside it, under the id with a number (`#2`, `#3`). The order of files does not matter for what is kept, and
 * the same file twice changes nothing.
 */
export function mergeResults(
  here: readonly TrainingResult[],
  brought: readonly TrainingResult[],
): MergedResults {
  const added: TrainingResult[] = [];
  let same = 0;
  for (const result of brought) {
    const kept = [...here, ...added];
    const bare = bareId(result.id);
    const kin = kept.filter(({ id }) => bareId(id) === bare);
    if (kin.some((each) => isSame(each, result))) same += 1;
    else added.push({ ...result, id: freeId(bare, kin) });
  }
  return { all: byEnd([...here, ...added]), added, same };
}

/** The number behind an id says only that two share it. */
const bareId = (id: string): string => id.replace(/#\d+$/, '');
const isSame = (a: TrainingResult, b: TrainingResult): boolean =>
  storedEqual({ ...a, id: '' }, { ...b, id: '' });

function freeId(bare: string, kin: readonly TrainingResult[]): string {
  const taken = new Set(kin.map(({ id }) => id));
  if (!taken.has(bare)) return bare;
  let number = 2;
  while (taken.has(`${bare}#${number}`)) number += 1;
  return `${bare}#${number}`;
}

/** Oldest end first; of equal ones by id. */
export const byEnd = (results: readonly TrainingResult[]): readonly TrainingResult[] =>
  results.toSorted((a, b) => Date.parse(a.endedAt) - Date.parse(b.endedAt) || (a.id < b.id ? -1 : 1));
