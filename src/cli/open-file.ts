import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** A file, unpacked where it is gzip, to be looked at and then read in pieces or whole. */
export interface OpenedFile {
  /** Its first bytes, enough to recognise what it is. */
  readonly beginning: Uint8Array;
  /** All of it in order, cut after line ends. A piece holds only until the next one is asked for: its memory is used again. */
  pieces(): Generator<Uint8Array, void, undefined>;
  all(): Uint8Array;
  close(): void;
}

/** Small enough to stay in the processor's cache and out of fresh memory, which costs more than the reading itself. */
const PIECE_BYTES = 1 << 18;
const BEGINNING_BYTES = 1 << 14;
const LF = 0x0a;

/** Opens a file. A folder, a missing or empty file and broken gzip give a problem. */
export function openFile(name: string): Result<OpenedFile> {
  try {
    const descriptor = openSync(name, 'r');
    if (fstatSync(descriptor).isDirectory()) {
      closeSync(descriptor);
      return failed(problem('log.is-a-folder', { name }));
    }
    const beginning = new Uint8Array(BEGINNING_BYTES);
    const length = readSync(descriptor, beginning, 0, BEGINNING_BYTES, 0);
    if (length === 0) {
      closeSync(descriptor);
      return failed(problem('log.empty', { name }));
    }
    if (beginning[0] !== 0x1f || beginning[1] !== 0x8b)
      return ok(plainFile(name, descriptor, beginning.subarray(0, length)));
    closeSync(descriptor);
    return ok(unpackedFile(gunzipSync(readFileSync(name))));
  } catch (error) {
    return failed(problem('log.unreadable', { name, detail: reasonOf(error) }));
  }
}

function plainFile(name: string, descriptor: number, beginning: Uint8Array): OpenedFile {
  return {
    beginning,
    pieces: function* () {
      let buffer = new Uint8Array(PIECE_BYTES);
      let kept = 0;
      let position = 0;
      for (;;) {
        const read = readSync(descriptor, buffer, kept, buffer.length - kept, position);
        if (read === 0) break;
        position += read;
        const length = kept + read;
        const end = buffer.lastIndexOf(LF, length - 1) + 1;
        if (end > 0) yield buffer.subarray(0, end);
        buffer.copyWithin(0, end, length);
        kept = length - end;
        if (kept === buffer.length) buffer = doubled(buffer);
      }
      if (kept > 0) yield buffer.subarray(0, kept);
    },
    all: () => readFileSync(name),
    close: () => closeSync(descriptor),
  };
}

function doubled(buffer: Uint8Array): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(buffer.length * 2);
  larger.set(buffer);
  return larger;
}

function unpackedFile(bytes: Uint8Array): OpenedFile {
  return {
    beginning: bytes.subarray(0, BEGINNING_BYTES),
    pieces: function* () {
      for (let from = 0; from < bytes.length;) {
        const wanted = Math.min(bytes.length, from + PIECE_BYTES);
        const cut = bytes.lastIndexOf(LF, wanted - 1) + 1;
        const to = wanted === bytes.length || cut <= from ? wanted : cut;
        yield bytes.subarray(from, to);
        from = to;
      }
    },
    all: () => bytes,
    close: () => undefined,
  };
}

/** The first sentence of an error of the system, without its path and call. */
const reasonOf = (error: unknown): string =>
  error instanceof Error ? error.message.replace(/^\w+: /, '').replace(/, \w+ '.*$/, '') : String(error);
