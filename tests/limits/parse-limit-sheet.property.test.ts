import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { describeProblem } from '../../src/problems/problem.ts';

/** Every place in a JSON value, as paths. */
function places(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => places(inner, [...path, key]))];
}

function replaced(value: unknown, path: readonly (string | number)[], by: unknown): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return by;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string, unknown>;
  copy[String(first)] = replaced(copy[String(first)], rest, by);
  return copy;
}

describe('any input to the reader of sheets', () => {
  it('never throws, and a refusal always has its two texts filled in', () => {
    fc.assert(
      fc.property(fc.anything(), (json) => {
        const parsed = parseLimitSheet(json);
        expect(parsed.ok).toBe(false);
        if (!parsed.ok) expect(describeProblem(parsed.problem).message).not.toMatch(/\{\w+\}/);
      }),
    );
  });

  it('with anything put at any place of a good sheet gives a sheet or a problem that names a place', () => {
    const everywhere = fc.constantFrom(...places(DEMONSTRATION_SHEET));
    const anything = fc.oneof(fc.anything(), fc.constantFrom(null, -1, 0, 1e308, '', [], [[]], NaN));
    fc.assert(
      fc.property(everywhere, anything, (path, by) => {
        const parsed = parseLimitSheet(replaced(DEMONSTRATION_SHEET, path, by));
        if (parsed.ok) return;
        const { message, remedy } = describeProblem(parsed.problem);
        expect(message.length).toBeGreaterThan(20);
        expect(remedy.length).toBeGreaterThan(10);
      }),
      { numRuns: 600 },
    );
  });
});
