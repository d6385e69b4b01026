import { lowerBound } from '../signals/growing-trace.ts';
import type { TraceColumns } from '../signals/trace.ts';

/** The samples of a stretch, ready for averaging. */
export interface PickedSamples {
  /** Valid samples within the edges without single spikes, in order. */
  readonly inside: { readonly atMs: readonly number[]; readonly rpm: readonly number[] };
  /** The same with interpolated values at the edges where the data reach them: what is integrated. */
  readonly line: { readonly atMs: readonly number[]; readonly rpm: readonly number[] };
  /** Every valid sample within the edges, spikes too. */
  readonly all: readonly number[];
  readonly spikes: number;
}

/** A single sample this far outside the span of both neighbours is no speed of an engine (rpm; or half the greater neighbour, if more). */
const SPIKE_RPM = 100;
const SPIKE_SHARE = 0.5;

/** Samples of a trace within [startMs, endMs], both included. */
export function pickSamples(speed: TraceColumns, startMs: number, endMs: number): PickedSamples {
  const from = lowerBound(speed.atMs, speed.length, startMs);
  const to = firstAfter(speed, endMs);
  const inside = { atMs: [] as number[], rpm: [] as number[] };
  const all: number[] = [];
  for (let row = from; row < to; row++) {
    const rpm = speed.value[row]!;
    if (Number.isNaN(rpm)) continue;
    all.push(rpm);
    if (isSpike(speed, row)) continue;
    inside.atMs.push(speed.atMs[row]!);
    inside.rpm.push(rpm);
  }
  return {
    inside,
    line: withEdges(speed, inside, startMs, endMs),
    all,
    spikes: all.length - inside.rpm.length,
  };
}

/** Single samples far from both of their neighbours. The first and the last of a trace have one neighbour and are believed. */
function isSpike(speed: TraceColumns, row: number): boolean {
  const before = validBefore(speed, row);
  const after = validAfter(speed, row);
  if (before < 0 || after < 0) return false;
  const a = speed.value[before]!;
  const b = speed.value[after]!;
  const rpm = speed.value[row]!;
  const allowed = Math.max(SPIKE_RPM, SPIKE_SHARE * Math.max(a, b));
  return rpm > Math.max(a, b) + allowed || rpm < Math.min(a, b) - allowed;
}

function withEdges(
  speed: TraceColumns,
  { atMs, rpm }: PickedSamples['inside'],
  startMs: number,
  endMs: number,
): PickedSamples['line'] {
  const firstMs = atMs[0];
  const lastMs = atMs.at(-1);
  if (firstMs === undefined || lastMs === undefined) return { atMs, rpm };
  const before = edgeValue(speed, startMs, { ms: firstMs, rpm: rpm[0]! }, 'before');
  const after = edgeValue(speed, endMs, { ms: lastMs, rpm: rpm.at(-1)! }, 'after');
  return {
    atMs: [...(before === null ? [] : [startMs]), ...atMs, ...(after === null ? [] : [endMs])],
    rpm: [...(before === null ? [] : [before]), ...rpm, ...(after === null ? [] : [after])],
  };
}

/** Value at an edge on the line to the next good sample outside; null where the data do not reach beyond the edge. */
function edgeValue(
  speed: TraceColumns,
  edgeMs: number,
  near: { readonly ms: number; readonly rpm: number },
  side: 'before' | 'after',
): number | null {
  if (near.ms === edgeMs) return null;
  const step = side === 'before' ? validBefore : validAfter;
  let row = step(
    speed,
    side === 'before' ? lowerBound(speed.atMs, speed.length, near.ms) : firstAfter(speed, near.ms) - 1,
  );
  while (row >= 0 && isSpike(speed, row)) row = step(speed, row);
  if (row < 0) return null;
  const outMs = speed.atMs[row]!;
  if (side === 'before' ? outMs > edgeMs : outMs < edgeMs) return null;
  return near.rpm + ((speed.value[row]! - near.rpm) * (edgeMs - near.ms)) / (outMs - near.ms);
}

function validBefore({ value }: TraceColumns, row: number): number {
  let at = row - 1;
  while (at >= 0 && Number.isNaN(value[at]!)) at--;
  return at;
}

function validAfter({ value, length }: TraceColumns, row: number): number {
  let at = row + 1;
  while (at < length && Number.isNaN(value[at]!)) at++;
  return at < length ? at : -1;
}

/** Index of the first sample after `t`; `length` where there is none. */
function firstAfter({ atMs, length }: TraceColumns, t: number): number {
  let at = lowerBound(atMs, length, t);
  while (at < length && atMs[at]! <= t) at++;
  return at;
}
