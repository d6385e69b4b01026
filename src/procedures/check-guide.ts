import { z } from 'zod';

const advice = z.strictObject({
  headline: z.string().min(1),
  next: z.array(z.string().min(1)).min(1),
});

/** What a person must know to carry out one kind of check: data, so that it can be read, changed and translated. */
export const CheckGuide = z.strictObject({
  formatVersion: z.literal(1),
  check: z.string().min(1),
  title: z.string().min(1),
  purpose: z.string().min(1),
  /** Dangers, each to be ticked before the check can run. */
  cautions: z.array(z.strictObject({ id: z.string().min(1), text: z.string().min(1) })).min(1),
  preparations: z.array(z.string().min(1)).min(1),
  /** Always shown: what stands above this guide. */
  defersTo: z.string().min(1),
  target: z.strictObject({
    longestCrankSeconds: z.number().positive(),
    leastRestSeconds: z.number().positive(),
  }),
  advice: z.strictObject({
    pass: advice,
    marginal: advice,
    'fail low': advice,
    'fail high': advice,
    'too close to call': advice,
    'not valid': advice,
  }),
});
export type CheckGuide = z.infer<typeof CheckGuide>;
