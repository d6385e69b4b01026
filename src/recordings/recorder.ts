import { defer, Subscription, tap, type MonoTypeOperatorFunction, type SchedulerLike } from 'rxjs';
import type { LinkEvent } from '../link/link-event.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import { packChunk, type Chunk } from './chunk.ts';
import type { RecordingWriter } from './recording-store.ts';
import type { RecordingHeader } from './recording.ts';

/** How much of a running recording is safe. `closed`: all is kept and the recording will not change again. */
export interface RecordingReport {
  /** Time of the last event on disk, ms of the source; null before the first. */
  readonly savedUntilMs: number | null;
  readonly savedBytes: number;
  readonly unsavedBytes: number;
  /** Why the last write failed; null once one succeeds again. */
  readonly problem: Problem | null;
  readonly closed: boolean;
}

export interface RecorderMeans {
  readonly scheduler: SchedulerLike;
  readonly onReport: (report: RecordingReport) => void;
}

/** Oldest that an unsaved event may get before it is written, ms: with the write itself it is safe within a second. */
const MAX_AGE_MS = 500;
const MAX_BYTES = 65_536;
const MAX_EVENTS = 4_096;
const RETRY_MS = 1_000;

/** Tries after the source is over; before that there is no limit. */
const LAST_TRIES = 5;

/**
 * Keeps everything that passes, before any decoding, and passes it on untouched at once. Writing never holds up, changes
 * or ends the stream: what cannot be written is kept in memory, reported, and tried again. When the source completes,
 * fails or is let go, the rest is written and the recording is closed. One recording a subscription.
 */
export function recordTo(
  store: RecordingWriter,
  header: RecordingHeader,
  means: RecorderMeans,
): MonoTypeOperatorFunction<LinkEvent> {
  return (source) =>
    defer(() => {
      const recorder = startRecorder(store, header, means);
      return source.pipe(tap({ next: recorder.keep, finalize: recorder.finish }));
    });
}

interface Recorder {
  keep(event: LinkEvent): void;
  finish(): void;
}

function startRecorder(store: RecordingWriter, header: RecordingHeader, means: RecorderMeans): Recorder {
  const queue = startWriteQueue(means);
  queue.add({ run: () => store.create({ ...header, closed: false }), bytes: 0, untilMs: null });
  let events: LinkEvent[] = [];
  let bytes = 0;
  let sequence = 0;
  let timer = Subscription.EMPTY;
  const flush = () => {
    timer.unsubscribe();
    if (events.length === 0) return;
    const chunk: Chunk = packChunk(header.id, sequence++, events);
    queue.add({ run: () => store.append(chunk), bytes, untilMs: events.at(-1)?.atMs ?? null });
    events = [];
    bytes = 0;
  };
  const keep = (event: LinkEvent) => {
    if (events.length === 0) timer = means.scheduler.schedule(flush, MAX_AGE_MS);
    const size = event.kind === 'bytes' ? event.bytes.length : 0;
    if (bytes > 0 && bytes + size > MAX_BYTES) {
      flush();
      timer = means.scheduler.schedule(flush, MAX_AGE_MS);
    }
    events.push(event);
    bytes += size;
    if (bytes >= MAX_BYTES || events.length >= MAX_EVENTS) flush();
  };
  const finish = () => {
    flush();
    queue.end({ run: () => store.close(header.id), bytes: 0, untilMs: null });
  };
  return { keep, finish };
}

interface Write {
  readonly run: () => Promise<Result<void>>;
  readonly bytes: number;
  readonly untilMs: number | null;
}

interface WriteQueue {
  add(write: Write): void;
  /** The last write. After it only LAST_TRIES more are made. */
  end(write: Write): void;
}

/** Writes one after the other, in order; a failed one is tried again before any later one. */
function startWriteQueue({ scheduler, onReport }: RecorderMeans): WriteQueue {
  const waiting: Write[] = [];
  const tell = startReport(onReport, waiting);
  let busy = false;
  let ending = false;
  let tries = 0;
  const failure = (cause: Problem) => {
    const { unsavedBytes } = tell({ problem: cause });
    if (!ending || ++tries <= LAST_TRIES) scheduler.schedule(() => void pump(), RETRY_MS);
    else if (unsavedBytes > 0) tell({ problem: problem('storage.not-saved', { bytes: unsavedBytes }) });
  };
  const pump = async () => {
    for (let write = waiting[0]; write; write = waiting[0]) {
      const outcome = await write.run().catch(brokenWriter);
      if (!outcome.ok) return failure(outcome.problem); // stays busy: the retry goes on, or all tries are used up
      waiting.shift();
      tries = 0;
      tell({ problem: null, closed: ending && waiting.length === 0 }, write);
    }
    busy = false;
  };
  const add = (write: Write) => {
    waiting.push(write);
    if (busy) return;
    busy = true;
    void pump();
  };
  const end = (write: Write) => {
    if (ending) return;
    ending = true;
    tries = 0;
    add(write);
  };
  return { add, end };
}

type Tell = (change: Partial<RecordingReport>, saved?: Write) => RecordingReport;

/** Keeps the report: each change of it, and what one more saved write adds, is told at once. */
function startReport(onReport: RecorderMeans['onReport'], waiting: readonly Write[]): Tell {
  let report: RecordingReport = {
    savedUntilMs: null,
    savedBytes: 0,
    unsavedBytes: 0,
    problem: null,
    closed: false,
  };
  return (change, saved) => {
    report = {
      ...report,
      savedUntilMs: saved?.untilMs ?? report.savedUntilMs,
      savedBytes: report.savedBytes + (saved?.bytes ?? 0),
      unsavedBytes: waiting.reduce((sum, write) => sum + write.bytes, 0),
      ...change,
    };
    onReport(report);
    return report;
  };
}

const brokenWriter = (error: unknown) => failed(problem('storage.failed', { detail: String(error) }));
