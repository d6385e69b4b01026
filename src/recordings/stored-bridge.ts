import { z } from 'zod';
import { BIT_RATES, type FoundBridge } from '../wire/found-bridge.ts';

/** What was found by recognising a bridge, as stored. Its type is the contract in wire/found-bridge.ts. */
export const StoredFoundBridge = z.strictObject({
  baudRate: z.number().int().positive().nullable(),
  protocol: z.enum(['slcan', 'candump', 'reading-lines']).nullable(),
  bitRate: z.literal(BIT_RATES).nullable(),
  version: z.string().nullable(),
  listenOnly: z.enum(['confirmed', 'unconfirmed', 'off', 'notApplicable']),
}) satisfies z.ZodType<FoundBridge>;
