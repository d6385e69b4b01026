import { RECENT_FRAMES } from '../../src/pipeline/bus-state.ts';
import type { PipelineState } from '../../src/pipeline/pipeline.ts';
import { frameAt } from '../../src/wire/frame-at.ts';

/** FNV-1a over bytes, 32 bits (draft-eastlake-fnv, offset basis 2166136261, prime 16777619). */
export function hashOf(bytes: Uint8Array, start = 0x811c9dc5): number {
  let hash = start;
  for (let at = 0; at < bytes.length; at++) hash = Math.imul(hash ^ bytes[at]!, 0x01000193);
  return hash >>> 0;
}

const bytesOf = (view: ArrayBufferView): Uint8Array =>
  new Uint8Array(view.buffer, view.byteOffset, view.byteLength);

/** A value as text in which NaN, -0, infinities, maps and typed arrays keep what they are; functions are left out. */
export const textOf = (value: unknown): string => JSON.stringify(value, plain);

function plain(_: string, value: unknown): unknown {
  if (typeof value === 'number')
    return Object.is(value, -0) ? '-0' : Number.isFinite(value) ? value : `${value}`;
  if (ArrayBuffer.isView(value)) return `${value.byteLength} bytes, ${hashOf(bytesOf(value))}`;
  if (value instanceof Map) return [...value];
  if (value instanceof Set) return [...value];
  return value;
}

/** All that a pipeline knows, as text: traces by the rows that count, the decoder by its counts, clock and protocol. */
export function digestOf({ traces, wire, options, bus, ...rest }: PipelineState): string {
  const rows = [...traces.traces].map(([key, { length, everValid, store }]) => [
    key,
    length,
    everValid,
    [store.atMs, store.value, store.quality].map((column) => hashOf(bytesOf(column.subarray(0, length)))),
  ]);
  const heard = wire && [wire.counts, wire.clock, wire.protocol];
  const { recent, facts, transport, tally } = bus;
  // Frames without time count in the second of those that came with them, so only without such frames is it the same.
  const told = [transport, { ...tally, seconds: rest.untimedFrames > 0 ? null : tally.seconds }];
  // Time-outs are told at the end of a batch, in the order of their times: on a clock that jumps, another cutting gives another order.
  const learned = { ...facts, broken: null };
  return textOf({ rows, heard, wanted: options.wire, told, learned, recent: lastFrames(recent), rest });
}

/** The last frames kept for showing, however they are cut into batches. */
const lastFrames = (batches: PipelineState['bus']['recent']): readonly unknown[] =>
  batches
    .flatMap((batch) => Array.from({ length: batch.count }, (_, row) => frameAt(batch, row)))
    .slice(-RECENT_FRAMES);

/** Bytes that the traces' columns take: what grows by design, a row of 17 bytes for each reading. */
export const traceBytes = ({ traces }: PipelineState): number =>
  [...traces.traces.values()].reduce(
    (sum, { store }) => sum + store.atMs.byteLength + store.value.byteLength + store.quality.byteLength,
    0,
  );

/** Rows that the traces hold. */
export const traceRows = ({ traces }: PipelineState): number =>
  [...traces.traces.values()].reduce((sum, { length }) => sum + length, 0);

/** Bytes that a value holds, roughly: 8 for each field, 2 for each letter, typed arrays as they are. Functions hide what they hold. */
export function structuralBytes(value: unknown, seen = new Set<object>()): number {
  if (typeof value === 'string') return 2 * value.length;
  if (typeof value !== 'object' || value === null) return 8;
  if (seen.has(value)) return 8;
  seen.add(value);
  if (ArrayBuffer.isView(value)) {
    // A view keeps all of its buffer alive, so all of it counts, once.
    if (seen.has(value.buffer)) return 8;
    seen.add(value.buffer);
    return value.buffer.byteLength;
  }
  const inside: unknown[] =
    value instanceof Map ? [...value].flat() : value instanceof Set ? [...value] : Object.values(value);
  return inside.reduce<number>((sum, each) => sum + 8 + structuralBytes(each, seen), 16);
}
