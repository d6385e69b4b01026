import { Observable, type SchedulerLike } from 'rxjs';
import type { Adapter } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, type Result } from '../src/problems/result.ts';
import type { WireProtocol } from '../src/wire/wire-decoder.ts';
import { millis } from '../src/quantities/time.ts';
import { deliverInSlices } from './deliver-in-slices.ts';
import { logChunks } from './log-chunks.ts';
import { unpackGzip } from './unpack-gzip.ts';

/** A dropped file and how it is to be read. `plan` is how the person confirmed that a file of numbers is read. */
export interface LogFileChoice {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly wire: WireProtocol | 'readings';
  readonly plan: unknown;
}

export interface LogFileMeans {
  readonly scheduler: SchedulerLike;
  /** Asks the person for a file and, for numbers, how to read it. Null when they choose none. */
  readonly pick: () => Promise<LogFileChoice | null>;
  /** Reads a file of numbers by its plan (src/logs): `reading` and `gap` events in order of time, or why not. */
  readonly readNumbers: (bytes: Uint8Array, plan: unknown) => Result<Iterable<LinkEvent>>;
}

/**
 * A log as a source. Bus text goes out as bytes in pieces, stamped by the log's own clock for pacing; numbers as readings.
 * All is delivered as fast as it is taken, without blocking the page, then it completes. A `.gz` is unpacked first.
 */
export function logFileAdapter(means: LogFileMeans): Adapter<LogFileChoice> {
  return {
    id: 'log-file',
    availability: () => ({ usable: true }),
    choose: () => choose(means.pick),
    open: (choice) => openLog(choice, means),
  };
}

async function choose(pick: LogFileMeans['pick']): Promise<Result<LogFileChoice>> {
  try {
    const choice = await pick();
    return choice ? { ok: true, value: choice } : failed(problem('link.refused'));
  } catch (error) {
    return failed(problem('link.file-unreadable', { name: '', detail: String(error) }));
  }
}

function openLog(choice: LogFileChoice, means: LogFileMeans): Observable<LinkEvent> {
  return new Observable((subscriber) => {
    const start = async () => {
      const unpacked = await unpackGzip(choice.name, choice.bytes);
      if (subscriber.closed) return;
      const events = unpacked.ok ? eventsOf(choice, unpacked.value, means) : unpacked;
      if (!events.ok) return subscriber.error(events.problem);
      const iterator = opening(choice.name, events.value)[Symbol.iterator]();
      subscriber.add(deliverInSlices(iterator, subscriber, means.scheduler));
    };
    void start();
  });
}

function eventsOf(
  { wire, plan }: LogFileChoice,
  bytes: Uint8Array,
  means: LogFileMeans,
): Result<Iterable<LinkEvent>> {
  if (wire === 'readings') return means.readNumbers(bytes, plan);
  return { ok: true, value: byteEvents(bytes, wire) };
}

function* byteEvents(bytes: Uint8Array, wire: WireProtocol): Generator<LinkEvent> {
  for (const chunk of logChunks(bytes, wire))
    yield { kind: 'bytes', atMs: millis(chunk.atMs), bytes: chunk.bytes };
}

/** The same events with `open` before them and with time that never falls. An `open` of the reader's own is dropped. */
function* opening(device: string, events: Iterable<LinkEvent>): Generator<LinkEvent> {
  let lastMs = NaN;
  for (const event of events) {
    if (event.kind === 'open') continue;
    if (Number.isNaN(lastMs))
      yield { kind: 'open', atMs: ((lastMs = event.atMs), event.atMs), device, write: null };
    lastMs = Math.max(lastMs, event.atMs);
    yield { ...event, atMs: millis(lastMs) };
  }
  if (Number.isNaN(lastMs)) yield { kind: 'open', atMs: millis(0), device, write: null };
}
