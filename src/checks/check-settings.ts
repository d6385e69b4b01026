import { z } from 'zod';
import { SIGNAL_IDS } from '../quantities/reading.ts';

const positive = z.number().positive();
const signal = z.enum(SIGNAL_IDS);

/** A window of engine speed that an operating point means, rpm. Null: open on that side. */
export const SpeedWindow = z.strictObject({
  minRpm: z.number().nonnegative().nullable(),
  maxRpm: positive.nullable(),
});

/** What must hold while something is collected or measured: else the result is warned of. */
export const HeldSignal = z.strictObject({
  signal,
  min: z.number().nullable(),
  max: z.number().nullable(),
});

/** Crank delivery: the target is the chart's; here is what the starter stands. */
export const CrankDeliverySettings = z.strictObject({
  kind: z.literal('crank delivery'),
  longestCrankSeconds: positive,
  leastRestSeconds: positive,
});

/**
 * A volume collected over a time. The clock starts and stops by hand, where a signal rises through `trigger.above` (and falls through it
 * again), or counts the cranks. The limit's own time comes first; `seconds` holds where the limit states none.
 */
export const CollectedVolumeSettings = z.strictObject({
  kind: z.literal('collected volume'),
  seconds: positive,
  startedBy: z.enum(['hand', 'signal', 'cranks']),
  trigger: z.strictObject({ signal, above: z.number() }).nullable(),
  /** Where it is done, e.g. rail pressure raised while idling. */
  speed: SpeedWindow.nullable(),
  holds: HeldSignal.nullable(),
});

/** A pressure (or another signal in kPa) held at an operating point: mean and spread of its steady stretch. */
export const SteadyPressureSettings = z.strictObject({
  kind: z.literal('steady pressure'),
  signal,
  speed: SpeedWindow.nullable(),
  /** Shortest stretch that counts as steady. */
  leastSeconds: positive,
  /** Widest range of the values within a steady stretch, kPa. */
  steadyWithinKPa: positive,
  /** A pressure that is read below the atmosphere, as suction restriction is: shown and typed as a positive number. */
  vacuum: z.boolean(),
});

/** From the start of the crank (or of the rise through `fromKPa`) to `toKPa`. */
export const PressureBuildSettings = z.strictObject({
  kind: z.literal('pressure build'),
  signal,
  fromKPa: z.number().nonnegative(),
  toKPa: positive,
  from: z.enum(['crank start', 'pressure']),
});

/** From the fall through `fromKPa` to the fall through `toKPa`; the exponential between them is fitted. */
export const PressureDecaySettings = z.strictObject({
  kind: z.literal('pressure decay'),
  signal,
  fromKPa: positive,
  toKPa: z.number().nonnegative(),
});

/** Actual against commanded pressure over a drive. The graded value is the worst mean shortfall over `stretchSeconds`, kPa. */
export const PressureDeviationSettings = z.strictObject({
  kind: z.literal('pressure deviation'),
  actual: signal,
  commanded: signal,
  stretchSeconds: positive,
  /** Upper ends of the bands, ascending; what lies above the last is one more band. */
  speedBandsRpm: z.array(positive),
  loadBandsPercent: z.array(positive),
  /** Commanded pressure that must have been reached for the drive to say something, kPa. */
  leastCommandedKPa: positive,
  leastSeconds: positive,
});

/** Things to look at, each in order or not. `whenNot` is the verdict where it is not. */
export const InspectionSettings = z.strictObject({
  kind: z.literal('inspection'),
  points: z
    .array(
      z.strictObject({
        id: z.string().min(1),
        ask: z.string().min(1),
        look: z.string().min(1),
        whenNot: z.enum(['fail low', 'fail high', 'marginal']),
        /** The cause (of the procedure) that this point speaks for where it is not in order. */
        cause: z.string().min(1).nullable(),
      }),
    )
    .min(1),
});

/** The settings of a check, by its kind. */
export const CheckSettings = z.discriminatedUnion('kind', [
  CrankDeliverySettings,
  CollectedVolumeSettings,
  SteadyPressureSettings,
  PressureBuildSettings,
  PressureDecaySettings,
  PressureDeviationSettings,
  InspectionSettings,
]);

export type SpeedWindow = z.infer<typeof SpeedWindow>;
export type HeldSignal = z.infer<typeof HeldSignal>;
export type CrankDeliverySettings = z.infer<typeof CrankDeliverySettings>;
export type CollectedVolumeSettings = z.infer<typeof CollectedVolumeSettings>;
export type SteadyPressureSettings = z.infer<typeof SteadyPressureSettings>;
export type PressureBuildSettings = z.infer<typeof PressureBuildSettings>;
export type PressureDecaySettings = z.infer<typeof PressureDecaySettings>;
export type PressureDeviationSettings = z.infer<typeof PressureDeviationSettings>;
export type InspectionSettings = z.infer<typeof InspectionSettings>;
export type CheckSettings = z.infer<typeof CheckSettings>;
