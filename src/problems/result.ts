import type { Problem } from './problem.ts';

/** The outcome of a function that can fail in an expected way. */
export type Result<T, P = Problem> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: P };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });
export const failed = <P = Problem>(problem: P): { readonly ok: false; readonly problem: P } => ({
  ok: false,
  problem,
});
