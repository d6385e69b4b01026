import { z } from 'zod';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';

/** Form in which case sets are written. */
export const CASE_SET_FORMAT = 1;

/** How hard a set is meant to be. */
export const LEVELS = ['first steps', 'ordinary work', 'hard'] as const;
export type Level = (typeof LEVELS)[number];

const text = z.string().trim().min(1).max(600);
const share = z.number().min(0).max(1);
const weight = z.number().positive().max(1000);
const kind = z.enum(DEFECT_KINDS);
const span = (least: number, most: number) =>
  z.strictObject({ least: z.number().min(least).max(most), most: z.number().min(least).max(most) });

/** The whole numbers 0 to 2³² - 1: what a generator can start from, short enough to be written on a board. */
export const CaseSeed = z.number().int().min(0).max(0xffff_ffff);

/**
 * Engines to practise on, as data: what may be wrong with one, how badly, and the words around it. A seed draws one of them (draw-case.ts). All
 * of it is invented, and `source` says so.
 */
export const CaseSet = z.strictObject({
  formatVersion: z.literal(CASE_SET_FORMAT),
  id: z
    .string()
    .max(60)
    .regex(/^[a-z][a-z0-9-]*$/, 'small letters, digits and dashes'),
  title: z.string().trim().min(1).max(80),
  level: z.enum(LEVELS),
  /** What a trainee learns with it, without telling what can be wrong. */
  about: text,
  source: text,
  /** What may be wrong, how badly (simulators/engine/defects.ts), and how often beside the others. */
  defects: z
    .array(z.strictObject({ kind, least: share, most: share, weight: weight.default(1) }))
    .min(1)
    .max(DEFECT_KINDS.length),
  /** How many things are wrong at once, and how often beside the others. */
  howMany: z
    .array(z.strictObject({ defects: z.number().int().min(0).max(2), weight }))
    .min(1)
    .max(3),
  /** What the driver says. `fits` names the defects that it fits; empty: any, also none. */
  complaints: z
    .array(z.strictObject({ text, fits: z.array(kind).default([]) }))
    .min(1)
    .max(200),
  /** What stands on the vehicle. Serial numbers and hours are drawn between the two. */
  vehicles: z
    .array(
      z.strictObject({
        unit: z.string().trim().min(1).max(60),
        engineFamily: z.string().trim().min(1).max(80),
        serialNumbers: span(1, 999_999),
        hours: span(0, 99_999),
      }),
    )
    .min(1)
    .max(200),
  /** °C. The battery and the oil are as warm as the day. */
  temperaturesC: z.strictObject({ fuel: span(-30, 70), day: span(-30, 50) }),
});
export type CaseSet = z.infer<typeof CaseSet>;
export type CaseSetInput = z.input<typeof CaseSet>;
