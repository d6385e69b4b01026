import { QUALITIES, SIGNAL_IDS, type Reading, type SignalId } from '../quantities/reading.ts';
import { millis } from '../quantities/time.ts';
import {
  columns,
  createTrace,
  putRow,
  traceFrom,
  writerOf,
  type Trace,
  type TraceWriter,
} from './growing-trace.ts';
import type { ReadingBatch } from './reading-batch.ts';
import type { TraceColumns } from './trace.ts';

/** Traces by signal and origin, never mixed. A value: appending gives a new set, and the old one still reads right. */
export interface TraceSet {
  readonly traces: ReadonlyMap<number, Trace>;
}

/** Who sends a signal, and whether a number ever came from there. */
export interface SignalOrigin {
  readonly origin: number;
  readonly everValid: boolean;
}

const ORIGINS = 0x100000; // more than channel * 256 + address can reach
const keyOf = (signal: number, origin: number): number => signal * ORIGINS + origin + 1; // NO_ORIGIN is -1
const EMPTY = createTrace();

/** A set without traces. */
export const createTraceSet = (): TraceSet => ({ traces: new Map() });

/** The set with a batch of readings added. Rows without a time are left out. Makes no object a row. */
export function appendReadings(set: TraceSet, batch: ReadingBatch): TraceSet {
  const { signal, atMs, value, quality, origin } = batch;
  const writers = new Map<number, TraceWriter>();
  const lastHeard: (Heard | undefined)[] = []; // by signal: most rows come from where the last one did
  for (let row = 0; row < batch.count; row++) {
    if (Number.isNaN(atMs[row])) continue; // not heard: it must not decide who was heard first
    const from = origin[row]!;
    let heard = lastHeard[signal[row]!];
    if (heard?.origin !== from) {
      heard = { origin: from, writer: writerFor(set, writers, keyOf(signal[row]!, from)) };
      lastHeard[signal[row]!] = heard;
    }
    putRow(heard.writer, atMs[row]!, value[row]!, quality[row]!);
  }
  return withWritten(set, writers);
}

interface Heard {
  readonly origin: number;
  readonly writer: TraceWriter;
}

function writerFor(set: TraceSet, writers: Map<number, TraceWriter>, key: number): TraceWriter {
  const writer = writers.get(key) ?? writerOf(set.traces.get(key) ?? EMPTY);
  writers.set(key, writer);
  return writer;
}

/** The set with one reading added. */
export function appendReading(set: TraceSet, { signal, atMs, value, quality, origin }: Reading): TraceSet {
  const key = keyOf(SIGNAL_IDS.indexOf(signal), origin);
  const writer = writerOf(set.traces.get(key) ?? EMPTY);
  putRow(writer, atMs, value ?? NaN, QUALITIES.indexOf(quality));
  return withWritten(set, new Map([[key, writer]]));
}

function withWritten(set: TraceSet, writers: ReadonlyMap<number, TraceWriter>): TraceSet {
  if (writers.size === 0) return set;
  const traces = new Map(set.traces);
  // A trace of which no row had a time was not heard.
  for (const [key, writer] of writers) if (writer.length > 0) traces.set(key, traceFrom(writer));
  return { traces };
}

/** One signal of one origin as columns; length 0 where nothing was heard. */
export const traceOf = (set: TraceSet, signal: SignalId, origin: number): TraceColumns =>
  columns(set.traces.get(keyOf(SIGNAL_IDS.indexOf(signal), origin)) ?? EMPTY);

/** Who sends a signal, in the order first heard. */
export function originsOf(set: TraceSet, signal: SignalId): readonly SignalOrigin[] {
  const first = keyOf(SIGNAL_IDS.indexOf(signal), -1);
  return [...set.traces]
    .filter(([key, trace]) => key >= first && key < first + ORIGINS && trace.length > 0)
    .map(([key, { everValid }]) => ({ origin: key - first - 1, everValid }));
}

/**
 * The one origin used for a signal: the person's `preference` where it was heard; else address 00 (the engine, any channel) if it
 * ever gave a number; else the lowest origin that did; else address 00, else who was heard first. Null when nobody was.
 */
export function chosenOrigin(set: TraceSet, signal: SignalId, preference?: number): number | null {
  const heard = originsOf(set, signal);
  if (heard.some(({ origin }) => origin === preference)) return preference ?? null;
  const valid = heard
    .filter(({ everValid }) => everValid)
    .map(({ origin }) => origin)
    .sort((a, b) => a - b);
  const silent = heard.map(({ origin }) => origin);
  return valid.find(isEngine) ?? valid[0] ?? silent.find(isEngine) ?? silent[0] ?? null;
}

const isEngine = (origin: number): boolean => origin >= 0 && origin % 256 === 0;

/** The last reading of the chosen origin, valid or not; null when nothing was heard. */
export function latest(set: TraceSet, signal: SignalId, preference?: number): Reading | null {
  const origin = chosenOrigin(set, signal, preference);
  if (origin === null) return null;
  const { length, atMs, value, quality } = traceOf(set, signal, origin);
  const last = value[length - 1]!;
  return {
    signal,
    atMs: millis(atMs[length - 1]!),
    value: Number.isNaN(last) ? null : last,
    quality: QUALITIES[quality[length - 1]!] ?? 'notAvailable',
    origin,
  };
}
