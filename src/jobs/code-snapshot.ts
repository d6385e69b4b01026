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
