import { z } from 'zod';
import { SIGNAL_IDS } from '../quantities/reading.ts';
import { UNIT_IDS } from '../quantities/unit.ts';
import { ENCODINGS } from './decode-text.ts';
import { DELIMITERS } from './split-cells.ts';
import { DATE_ORDERS, TIME_KINDS } from './time-cell.ts';

/** What the person is to be asked. Those of `BLOCKING_NEEDS` must be answered before the log can be read. */
export const LOG_NEEDS = [
  'interval', // how far apart two rows are, or which column is the time
  'timeUnit',
  'speedColumn',
  'speedUnit',
  'pressureUnit', // the columns concerned are not read until it is answered
  'temperatureUnit',
  'voltageUnit',
  'decimalMark',
  'delimiter',
] as const;
export type LogNeed = (typeof LOG_NEEDS)[number];
export const BLOCKING_NEEDS: readonly LogNeed[] = ['interval', 'timeUnit', 'speedColumn', 'speedUnit'];

/** A problem as plain data: the code and what its text needs. */
const Note = z.strictObject({
  code: z.string(),
  context: z.record(z.string(), z.union([z.string(), z.number()])),
});

/** One column as found. `signal` is null for a column that is not read. */
export const LogColumn = z.strictObject({
  index: z.int().min(0),
  header: z.string(),
  signal: z.enum(SIGNAL_IDS).nullable(),
  unit: z.enum(UNIT_IDS).nullable(),
  /** As written in the file. */
  unitText: z.string().nullable(),
  /** `size`: from the size of the values; to be confirmed. */
  unitFrom: z.enum(['header', 'unitRow', 'cells', 'size', 'person']).nullable(),
  suffix: z.string().nullable(),
  confidence: z.number().min(0).max(1),
  reason: z.string(),
  /** The first cells that are not missing, as written. */
  samples: z.array(z.string()),
  /** Least and greatest number in the sampled rows, as written; null without numbers. */
  lowest: z.number().nullable(),
  highest: z.number().nullable(),
});
export type LogColumn = z.infer<typeof LogColumn>;

/** Time from a column, or from an interval that the person gives (null until then). */
export const LogTime = z.discriminatedUnion('source', [
  z.strictObject({
    source: z.literal('column'),
    column: z.int().min(0),
    kind: z.enum(TIME_KINDS),
    dateOrder: z.enum(DATE_ORDERS),
    confidence: z.number().min(0).max(1),
  }),
  z.strictObject({ source: z.literal('interval'), intervalMs: z.number().positive().nullable() }),
]);
export type LogTime = z.infer<typeof LogTime>;

/**
 * How a speed log is read: all that was found and all that was answered, as plain data. It is kept with the recording, so
 * that the same bytes give the same readings for ever.
 */
export const LogPlan = z.strictObject({
  formatVersion: z.literal(1),
  encoding: z.enum(ENCODINGS),
  delimiter: z.enum(DELIMITERS),
  quotes: z.enum(['standard', 'ignored']),
  decimalMark: z.enum(['.', ',']),
  headerLine: z.int().min(1).nullable(),
  unitLine: z.int().min(1).nullable(),
  firstDataLine: z.int().min(1),
  time: LogTime,
  columns: z.array(LogColumn),
  /** Lines left out that were seen while planning: what stands above the data, summaries at the end. */
  leftOut: z.array(z.strictObject({ line: z.int().min(1), text: z.string() })),
  preview: z.array(z.strictObject({ line: z.int().min(1), cells: z.array(z.string()) })),
  needs: z.array(z.enum(LOG_NEEDS)),
  /** What is not certain or missing, for the person, as problems. */
  notes: z.array(Note),
});
export type LogPlan = z.infer<typeof LogPlan>;
