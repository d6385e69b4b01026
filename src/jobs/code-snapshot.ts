import { z } from 'zod';
import { AnyNumber } from '../storage/stored-problem.ts';

const Lamp = z.enum(['off', 'on', 'slow flash', 'fast flash', 'notAvailable']);
const spn = z.number().int().nonnegative();

/** One trouble code as stored; contract in j1939/trouble-codes.ts. */
export const StoredTroubleCode = z.strictObject({
  spn,
  fmi: z.number().int().min(0).max(31), // five bits (SAE J1939-73, DM1)
  occurrences: z.number().int().nonnegative().nullable(),
  otherSpns: z.array(spn),
});

/** One DM1 or DM2 of one controller, as plain data. `atMs` is NaN where the log carries no time. */
export const StoredCodeReport = z.strictObject({
  origin: z.number().int(),
  atMs: AnyNumber,
  lamps: z.strictObject({ malfunction: Lamp, redStop: Lamp, amberWarning: Lamp, protect: Lamp }),
  codes: z.array(StoredTroubleCode),
});
export type StoredCodeReport = z.infer<typeof StoredCodeReport>;

/** The codes that controllers report: active ones (DM1) and previously active ones (DM2). */
export interface CodeSnapshot {
  readonly active: readonly StoredCodeReport[];
  readonly previous: readonly StoredCodeReport[];
}

/** Whether two snapshots say the same: who reports which codes with which lamps. Times and counts of occurrence do not matter. */
export const sameCodes = (a: CodeSnapshot, b: CodeSnapshot): boolean => gist(a) === gist(b);

function gist({ active, previous }: CodeSnapshot): string {
  const reports = (kind: readonly StoredCodeReport[]) =>
    kind.map(({ origin, lamps, codes }) => [
      origin,
      lamps.malfunction,
      lamps.redStop,
      lamps.amberWarning,
      lamps.protect,
      codes.map(({ spn, fmi }) => `${spn}/${fmi}`).toSorted(),
    ]);
  return JSON.stringify([reports(active), reports(previous)]);
}
