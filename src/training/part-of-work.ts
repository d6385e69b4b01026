import { PARTS, PARTS_OF, type Part } from '../../simulators/engine/parts.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import type { WorkEntry } from '../jobs/job-values.ts';
import type { StationId } from '../procedures/station.ts';

/** What the stations of a procedure are called at the bench; the others carry the same name. */
const PART_OF_STATION: Partial<Record<StationId, Part>> = { rail: 'rail sensor' };

/** Causes that lie beside the fuel path: their station is where they show, not what is replaced. */
const PART_OF_CAUSE: Readonly<Record<string, Part | null>> = {
  'weak-battery': 'battery',
  'cranking-drag': 'starter',
  'bridge-cable': 'bridge',
  'wrong-set-up': null,
};

/** The bench part that is replaced against a cause at a station; null where nothing is. */
export function partAgainst(cause: string | null, station: StationId): Part | null {
  if (cause !== null && Object.hasOwn(PART_OF_CAUSE, cause)) return PART_OF_CAUSE[cause] ?? null;
  return PART_OF_STATION[station] ?? PARTS.find((part) => part === station) ?? null;
}

/** The bench part that a work of a job put in; null for work that leaves the old part there. */
export const partOfWork = ({
  what,
  cause,
  station,
}: Pick<WorkEntry, 'what' | 'cause' | 'station'>): Part | null =>
  what === 'replaced' || what === 'repaired' ? partAgainst(cause, station) : null;

/** Which of the defects are gone once these parts are new. */
export const cured = (defects: readonly Defect[], parts: readonly Part[]): readonly Defect[] =>
  defects.filter(({ kind }) => PARTS_OF[kind].some((part) => parts.includes(part)));

/** What is still wrong once these parts are new. */
export const leftOver = (defects: readonly Defect[], parts: readonly Part[]): readonly Defect[] =>
  defects.filter(({ kind }) => !PARTS_OF[kind].some((part) => parts.includes(part)));
