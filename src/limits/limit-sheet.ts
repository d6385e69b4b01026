import { z } from 'zod';
import { PRINTED_UNITS } from './printed-unit.ts';
import { toCurrentFormat } from './sheet-format.ts';

const text = z.string().min(1);
const point = z.tuple([
  z.number().finite().describe('speed, rpm'),
  z.number().finite().describe('volume, mL'),
]);
const curve = z.array(point).min(2).describe('Points [speed rpm, volume mL], speed rising. At least two.');
const printedCurve = z
  .array(z.tuple([z.string(), z.string()]))
  .describe('The points as printed: [speed in rpm, volume in printedUnit], each as the text that was typed.');

/** A condition under which a limit holds, in the canonical unit of its signal. */
export const LimitCondition = z
  .strictObject({
    signal: z.enum(['fuelTemperature', 'coolantTemperature', 'batteryVoltage', 'railPressure']),
    min: z.number().nullable().describe('Lowest value: °C, V or kPa. Null: no lowest.'),
    max: z.number().nullable().describe('Highest value: °C, V or kPa. Null: no highest.'),
    outside: z.enum(['warn', 'not valid']).describe('What a value outside does to the verdict.'),
  })
  .meta({ id: 'LimitCondition', description: 'A condition under which a limit holds.' });

/** How far a curve that was traced off a picture may be off. */
export const Tracing = z
  .strictObject({
    uVolumeMl: z.number().nonnegative().describe('Standard uncertainty of the curve in volume, mL.'),
    uSpeedRpm: z
      .number()
      .nonnegative()
      .optional()
      .describe('Standard uncertainty in speed, rpm, where it is not part of uVolumeMl already.'),
    picture: z.string().min(1).optional().describe('Which picture: a file name or a note where it lies.'),
    note: z.string().describe('How it was traced and where the uncertainty comes from.'),
  })
  .meta({ id: 'Tracing', description: 'Uncertainty of curves that were traced off a picture of a chart.' });

const common = {
  check: text.describe('The check of the procedure that this limit is for, by its id, e.g. crank-delivery.'),
  title: text,
  operatingPoint: text
    .optional()
    .describe('At which operating point the value is taken, in words, e.g. "at high idle".'),
  printedUnit: z
    .enum(PRINTED_UNITS)
    .optional()
    .describe('Unit in which the numbers were printed. Absent: they were printed in the unit used here.'),
  repeatabilityLimit: z
    .number()
    .positive()
    .optional()
    .describe('Two runs that differ by more than this are not repeatable. Absent: the source states none.'),
  conditions: z.array(LimitCondition).default([]),
};

/** Boundary curves volume(speed): the crank-delivery chart. Points are [speed rpm, volume mL], speed ascending. */
export const SpeedChart = z
  .strictObject({
    kind: z.literal('speed chart'),
    ...common,
    cranks: z.number().int().min(1).max(10).describe('How many cranks are collected together.'),
    crankSeconds: z.number().positive().describe('Time of one crank, s.'),
    timeTolerancePercent: z.number().positive().default(5),
    speedAverage: z.enum(['time-weighted', 'samples']).default('time-weighted'),
    join: z
      .enum(['straight', 'monotone cubic'])
      .default('straight')
      .describe(
        'How the curve runs between its points. Monotone cubic: slopes of Fritsch and Butland (PCHIP).',
      ),
    failBelow: curve,
    passAbove: curve,
    failAbove: curve.nullable().default(null),
    printedNumbers: z
      .strictObject({
        failBelow: printedCurve,
        passAbove: printedCurve,
        failAbove: printedCurve.nullable().default(null),
      })
      .optional(),
    tracing: Tracing.optional(),
  })
  .meta({ id: 'SpeedChart', description: 'A chart of boundary curves: volume over average cranking speed.' });

/** A window on one value: min, max or both, in the canonical unit of its quantity (see `WINDOW_UNIT`). */
export const Window = z
  .strictObject({
    kind: z.literal('window'),
    ...common,
    quantity: z
      .enum(['volume', 'pressure', 'time', 'rate'])
      .describe('Unit of min and max: volume mL, pressure kPa, time ms, rate (a flow) mL/min.'),
    min: z.number().nullable(),
    max: z.number().nullable(),
    durationSeconds: z
      .number()
      .positive()
      .nullable()
      .default(null)
      .describe('Time over which the value is taken, s. Null: none is stated.'),
    timeTolerancePercent: z.number().positive().optional().describe('Absent: 5.'),
    printedNumbers: z
      .strictObject({ min: z.string().nullable(), max: z.string().nullable() })
      .optional()
      .describe('min and max as they were printed, in printedUnit, as the text that was typed.'),
  })
  .meta({ id: 'Window', description: 'A window on one value: lowest, highest or both.' });

export const Limit = z.discriminatedUnion('kind', [SpeedChart, Window]);

/** Serial numbers that a sheet holds for. With a prefix, `from` and `to` are what follows it. */
export const SerialRange = z
  .strictObject({
    prefix: text.optional().describe('What the serial number begins with; from and to are what follows it.'),
    from: text.nullable().describe('First serial number of the range. Null: open.'),
    to: text.nullable().describe('Last serial number of the range, which belongs to it. Null: open.'),
  })
  .meta({ id: 'SerialRange', description: 'A range of serial numbers; both ends belong to it.' });

/** The present format, for the published schema; `LimitSheet` reads older ones too. */
export const LimitSheetFormat2 = z
  .strictObject({
    formatVersion: z.literal(2),
    id: text.describe('Id of this revision. No two revisions share it.'),
    sheetId: text.describe('Id of the sheet: the same in all of its revisions.'),
    replaces: text
      .nullable()
      .default(null)
      .describe('Id of the revision that this one replaces. Null: none.'),
    title: text,
    invented: z.boolean().describe('True where the numbers were made up for practice.'),
    engineFamily: text,
    serialRanges: z
      .array(SerialRange)
      .describe('All ranges that it holds for; between them it does not hold. None: it holds for no engine.'),
    revision: text.describe('As the source names it, or counted.'),
    validFrom: z.iso.date().describe('First day on which it holds, yyyy-mm-dd.'),
    readFrom: text.describe('Where the numbers were read, in words.'),
    confirmedBy: z.string().describe('Who compared the numbers with their source last. Empty: nobody.'),
    confirmedOn: z.iso.date().nullable().describe('On which day; null: never.'),
    limits: z.array(Limit).min(1),
  })
  .meta({
    id: 'LimitSheet',
    description: 'Limits for one engine family and its serial numbers, and where they come from.',
  });

/** The numbers that hold for an engine family and serial range, and where they come from. Reads format 1 as well. */
export const LimitSheet = z.preprocess(toCurrentFormat, LimitSheetFormat2);

export type LimitCondition = z.infer<typeof LimitCondition>;
export type Tracing = z.infer<typeof Tracing>;
export type SpeedChart = z.infer<typeof SpeedChart>;
export type Window = z.infer<typeof Window>;
export type Limit = z.infer<typeof Limit>;
export type SerialRange = z.infer<typeof SerialRange>;
export type LimitSheet = z.infer<typeof LimitSheetFormat2>;
