import type { Part } from '../../simulators/engine/parts.ts';
import type { CheckKind } from '../checks/check-kind.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

/** What a run takes, minutes: with its set-up, and again while everything is still set up. */
export interface RunMinutes {
  readonly first: number;
  readonly again: number;
}

/** Minutes of each check of the shipped procedure: common practice, no source; invented where practice differs. They compare ways, no more. */
export const CHECK_MINUTES: Readonly<Record<string, RunMinutes>> = {
  'fuel-quality': { first: 10, again: 5 },
  filters: { first: 15, again: 10 },
  'air-in-fuel': { first: 15, again: 10 },
  'suction-restriction': { first: 20, again: 8 },
  'supply-cranking': { first: 15, again: 5 },
  'supply-idle': { first: 10, again: 5 },
  'supply-high-idle': { first: 5, again: 5 },
  'supply-load': { first: 20, again: 15 },
  'rail-build': { first: 10, again: 5 },
  'pump-return': { first: 25, again: 10 },
  'injector-return-cranking': { first: 30, again: 10 },
  'injector-return-idle': { first: 25, again: 10 },
  'relief-valve-leak': { first: 25, again: 10 },
  'rail-decay': { first: 15, again: 10 },
  'crank-delivery': { first: 60, again: 15 },
  'final-drive': { first: 45, again: 40 },
};

/** For checks of other procedures, by kind. */
const KIND_MINUTES: Readonly<Record<CheckKind, RunMinutes>> = {
  inspection: { first: 15, again: 10 },
  'steady pressure': { first: 15, again: 5 },
  'pressure build': { first: 10, again: 5 },
  'pressure decay': { first: 15, again: 10 },
  'pressure deviation': { first: 45, again: 40 },
  'collected volume': { first: 25, again: 10 },
  'crank delivery': { first: 60, again: 15 },
};

/** What a part takes: minutes with priming, and points. A part point is invented and stands for no money. */
export interface PartCost {
  readonly minutes: number;
  readonly points: number;
}

/** Common practice, no source; the points are invented so that the order of size is right. */
export const PART_COSTS: Readonly<Record<Part, PartCost>> = {
  'suction line': { minutes: 45, points: 4 },
  'suction filter': { minutes: 20, points: 2 },
  'supply pump': { minutes: 90, points: 25 },
  'pressure filter': { minutes: 20, points: 2 },
  'metering valve': { minutes: 75, points: 20 },
  'high-pressure pump': { minutes: 300, points: 100 },
  'rail sensor': { minutes: 30, points: 8 },
  'relief valve': { minutes: 60, points: 15 },
  injectors: { minutes: 240, points: 80 },
  battery: { minutes: 30, points: 12 },
  starter: { minutes: 120, points: 30 },
  bridge: { minutes: 10, points: 3 },
};

/** Work that puts in no part: cleaning, adjusting. */
export const OTHER_WORK: PartCost = { minutes: 20, points: 0 };

/** What one run of a check takes, from the table, else by its kind. */
export const runMinutes = ({ id, settings }: Pick<ProcedureCheck, 'id' | 'settings'>): RunMinutes =>
  Object.hasOwn(CHECK_MINUTES, id) ? CHECK_MINUTES[id]! : KIND_MINUTES[settings.kind];

/** So many runs in a row: set up once. */
export const minutesOf = (check: Pick<ProcedureCheck, 'id' | 'settings'>, runs: number): number => {
  const { first, again } = runMinutes(check);
  return runs === 0 ? 0 : first + (runs - 1) * again;
};
