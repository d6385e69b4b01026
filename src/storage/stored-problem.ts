import { z } from 'zod';
import { CATALOGUE, type ProblemCode } from '../problems/catalogue.ts';
import { problem, type Problem } from '../problems/problem.ts';

const StoredForm = z.strictObject({
  code: z.string(),
  context: z.record(
    z.string(),
    z.union([z.string(), z.custom<number>((value) => typeof value === 'number')]),
  ),
});

/** A problem within a stored document. A code of another version, without a text here, is read as `storage.unknown-code`. */
export const StoredProblem = StoredForm.transform(({ code, context }): Problem =>
  Object.hasOwn(CATALOGUE, code)
    ? problem(code as ProblemCode, context)
    : problem('storage.unknown-code', { code }),
);

/** A number as it was stored: NaN and infinities mean something in measurements. */
export const AnyNumber = z.custom<number>((value) => typeof value === 'number', 'not a number');
