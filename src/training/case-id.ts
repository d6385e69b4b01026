import { CaseSeed, type CaseSet } from './case-set.ts';

/** What a job keeps as its scenario id: which set, in which wording, and which seed. */
export interface CaseId {
  readonly setId: string;
  /** Of the set's content: a set that was changed since would draw other engines. */
  readonly fingerprint: string;
  readonly seed: number;
}

const FORM = /^training:([a-z][a-z0-9-]*)~([0-9a-f]{8}):(\d{1,10})$/;

/** The scenario id of a case, such as `training:first-steps~1a2b3c4d:4711`. It names no defect. */
export const caseScenarioId = (set: CaseSet, seed: number): string =>
  writeCaseId({ setId: set.id, fingerprint: fingerprintOf(set), seed });

/** The scenario id of these parts. */
export const writeCaseId = ({ setId, fingerprint, seed }: CaseId): string =>
  `training:${setId}~${fingerprint}:${seed}`;

/** Whether a job with this scenario id is practice on a drawn engine; null and other ids are not. */
export const isTraining = (scenarioId: string | null): boolean =>
  scenarioId?.startsWith('training:') === true;

/** The parts of a scenario id; null where it is none of a case. */
export function readCaseId(scenarioId: string | null): CaseId | null {
  const [, setId, fingerprint, digits] = FORM.exec(scenarioId ?? '') ?? [];
  if (setId === undefined || fingerprint === undefined) return null;
  const seed = CaseSeed.safeParse(Number(digits));
  return seed.success ? { setId, fingerprint, seed: seed.data } : null;
}

/** Eight small hexadecimal digits of the set as it was parsed (FNV-1a, 32 bits, over UTF-16 units; from memory). It guards against mix-ups, not against intent. */
export function fingerprintOf(set: CaseSet): string {
  const written = JSON.stringify(sorted(set));
  let hash = 0x811c9dc5;
  for (let at = 0; at < written.length; at += 1) hash = Math.imul(hash ^ written.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** The order in which a file lists its keys does not matter. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, each]) => [key, sorted(each)]));
}
