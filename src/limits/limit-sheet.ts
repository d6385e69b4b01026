import { z } from 'zod';

const point = z.tuple([z.number().finite(), z.number().finite()]);
const curve = z.array(point).min(2);

/** A condition under which a limit holds, in the canonical unit of its signal. */
export const LimitCondition = z.strictObject({
  signal: z.enum(['fuelTemperature', 'coolantTemperature', 'batteryVoltage', 'railPressure']),
  min: z.number().nullable(),
  max: z.number().nullable(),
  outside: z.enum(['warn', 'not valid']),
});

/** Boundary curves volume(speed): the crank-delivery chart. Points are [speed rpm, volume mL], speed ascending. */
export const SpeedChart = z.strictObject({
  kind: z.literal('speed chart'),
  check: z.string().min(1),
  title: z.string().min(1),
  cranks: z.number().int().min(1).max(10),
  crankSeconds: z.number().positive(), // of one crank; the target is cranks * crankSeconds
  timeTolerancePercent: z.number().positive().default(5),
  speedAverage: z.enum(['time-weighted', 'samples']).default('time-weighted'),
  join: z.enum(['straight', 'monotone cubic']).default('straight'),
  failBelow: curve,
  passAbove: curve,
  failAbove: curve.nullable().default(null),
  /** Two runs that differ by more than this (mL) are not repeatable; absent where the sheet states none. */
  repeatabilityLimit: z.number().positive().optional(),
  conditions: z.array(LimitCondition).default([]),
});

/** A window on one value: min, max or both. */
export const Window = z.strictObject({
  kind: z.literal('window'),
  check: z.string().min(1),
  title: z.string().min(1),
  quantity: z.enum(['volume', 'pressure']),
  min: z.number().nullable(), // mL or kPa
  max: z.number().nullable(),
  durationSeconds: z.number().positive().nullable().default(null),
  /** How far the time of collecting may be off, where there is one; 5 where the sheet states none. */
  timeTolerancePercent: z.number().positive().optional(),
  /** Two runs that differ by more than this (mL or kPa) are not repeatable; absent where the sheet states none. */
  repeatabilityLimit: z.number().positive().optional(),
  conditions: z.array(LimitCondition).default([]),
});

export const Limit = z.discriminatedUnion('kind', [SpeedChart, Window]);

/** The numbers that hold for an engine family and serial range, and where they come from. */
export const LimitSheet = z.strictObject({
  formatVersion: z.literal(1),
  id: z.string().min(1),
  title: z.string().min(1),
  /** True for sheets whose numbers were made up for practice; shown wherever a verdict stands on them. */
  invented: z.boolean(),
  engineFamily: z.string().min(1),
  serialRanges: z.array(z.strictObject({ from: z.string().nullable(), to: z.string().nullable() })),
  revision: z.string().min(1),
  validFrom: z.iso.date(),
  readFrom: z.string().min(1), // where the numbers were read, free text
  confirmedBy: z.string(),
  confirmedOn: z.iso.date().nullable(),
  limits: z.array(Limit).min(1),
});

export type LimitCondition = z.infer<typeof LimitCondition>;
export type SpeedChart = z.infer<typeof SpeedChart>;
export type Window = z.infer<typeof Window>;
export type Limit = z.infer<typeof Limit>;
export type LimitSheet = z.infer<typeof LimitSheet>;
