import { problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import {
  jobFileLines,
  MOST_JOB_FILE_BYTES,
  startJobFileReader,
  type JobFileContents,
  type JobFileOrigin,
  type JobFileReader,
} from './job-file.ts';

/** The job as a file: its lines, packed as they are made, so that the whole text never lies in memory. */
export async function writeJobFile(contents: JobFileContents, origin: JobFileOrigin): Promise<Blob> {
  const lines = jobFileLines(contents, origin);
  const text = new ReadableStream<BufferSource>({
    pull: (controller) => {
      const next = lines.next();
      if (next.done) controller.close();
      else controller.enqueue(next.value as Uint8Array<ArrayBuffer>);
    },
  });
  const packed = text.pipeThrough(new CompressionStream('gzip'));
  return new Response(packed, { headers: { 'content-type': 'application/gzip' } }).blob();
}

/**
 * Reads a job file, line by line as it unpacks. Whatever is wrong with it is one problem, and then nothing of it is given. Beside the problems of
 * `startJobFileReader`: `job.file-too-large`. `mostBytes` is given by tests.
 */
export async function readJobFile(
  file: Blob,
  mostBytes: number = MOST_JOB_FILE_BYTES,
): Promise<Result<JobFileContents>> {
  const most = Math.round(mostBytes / 1_000_000);
  if (file.size > mostBytes) return failed(problem('job.file-too-large', { most }));
  const reader = startJobFileReader();
  const pieces = file.stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  const split = startLines(reader);
  let total = 0;
  try {
    for (let next = await pieces.read(); !next.done; next = await pieces.read()) {
      total += next.value.length;
      const stop = total > mostBytes ? problem('job.file-too-large', { most }) : split.take(next.value);
      if (!stop) continue;
      await pieces.cancel();
      return failed(stop);
    }
  } catch {
    // What cannot be unpacked: no gzip at all, or one that is cut or changed on its way.
    const cut = problem('job.file-damaged', { detail: 'it cannot be unpacked to its end' });
    return failed(total === 0 ? problem('job.not-a-job-file') : cut);
  }
  return split.rest() ? failed(problem('job.file-damaged', { detail: 'its end is cut' })) : reader.end();
}

/** Cuts pieces into lines. What is left of a line waits for the next piece. */
function startLines(reader: JobFileReader) {
  let held: Uint8Array[] = [];
  const take = (piece: Uint8Array) => {
    let from = 0;
    for (let at = piece.indexOf(10); at >= 0; at = piece.indexOf(10, from)) {
      const stop = reader.take(joined([...held, piece.subarray(from, at)]));
      if (stop) return stop;
      held = [];
      from = at + 1;
    }
    if (from < piece.length) held.push(piece.subarray(from));
    return null;
  };
  return { take, rest: () => held.length > 0 };
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  if (pieces.length === 1) return pieces[0]!;
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
