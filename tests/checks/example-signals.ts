import type { ChosenSignals } from '../../src/checks/chosen-signal.ts';
import { NO_ORIGIN, QUALITIES, type SignalId } from '../../src/quantities/reading.ts';
import { append, columns, createTrace } from '../../src/signals/growing-trace.ts';
import type { TraceColumns } from '../../src/signals/trace.ts';

/** A value at an instant, ms; null where the source said that there is none. */
export type Point = readonly [atMs: number, value: number | null];

export const traceFromPoints = (points: readonly Point[]): TraceColumns =>
  columns(
    append(
      createTrace(),
      points.map(([atMs, value]) => ({
        atMs,
        value: value ?? NaN,
        quality: QUALITIES.indexOf(value === null ? 'notAvailable' : 'valid'),
      })),
    ),
  );

/** A function of the time in seconds, sampled every `stepMs` from 0 (or `fromMs`) to `toMs`. */
export function sampled(
  toMs: number,
  stepMs: number,
  of: (seconds: number) => number | null,
  fromMs = 0,
): readonly Point[] {
  const count = Math.floor((toMs - fromMs) / stepMs) + 1;
  return Array.from({ length: count }, (_, place) => {
    const atMs = fromMs + place * stepMs;
    return [atMs, of(atMs / 1000)] as const;
  });
}

/** Signals as a log without addresses gives them, or from an address on the bus. */
export function signalsFrom(
  each: Partial<Record<SignalId, readonly Point[]>>,
  origin: number = NO_ORIGIN,
): ChosenSignals {
  return Object.fromEntries(
    Object.entries(each).map(([signal, points]) => [signal, { trace: traceFromPoints(points), origin }]),
  );
}

export const codesOf = (problems: readonly { readonly code: string }[]): readonly string[] =>
  problems.map(({ code }) => code);

/** Steps through a list of values that look random and are the same each time (minimal standard generator, 16807 mod 2³¹ − 1). */
export function noiseFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (16_807 * state) % 2_147_483_647;
    return state / 2_147_483_647 - 0.5;
  };
}
