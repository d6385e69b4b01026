import { problem, type Problem } from '../src/problems/problem.ts';
import type { PortLike } from './serial-port.ts';

/** Errors of a stream after which the port gives a new stream (Web Serial, `readable` of SerialPort); the rest is loss. */
const RECOVERABLE: Readonly<Record<string, Problem['code']>> = {
  FramingError: 'link.framing',
  ParityError: 'link.parity',
  BreakError: 'link.break',
  BufferOverrunError: 'link.overrun',
};

/** Errors that no new stream follows, whatever the port says just then: the device is gone. */
const LOSS: readonly string[] = ['NetworkError', 'NotFoundError'];

/** Unknown errors in a row, without a byte between, that are borne: a port that gives nothing else is broken. */
const STRANGE_IN_A_ROW = 8;

/** Where what was read goes. */
export interface SerialSink {
  bytes(bytes: Uint8Array): void;
  gap(problem: Problem): void;
}

export interface SerialReader {
  /** Reads over disturbances until the port has no more to give or `cancel` was called. Never rejects. */
  readAll(): Promise<void>;
  cancel(): void;
}

/** A reader for an open port that takes a new stream after each disturbance. It holds no lock once `readAll` is done. */
export function serialReader(port: PortLike, device: string, sink: SerialSink): SerialReader {
  let cancelled = false;
  let reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  let strange = 0;
  const readStream = async (stream: ReadableStream<Uint8Array>): Promise<unknown> => {
    reader = stream.getReader();
    const cause = await pump(reader, (bytes) => {
      if (cancelled || bytes.length === 0) return;
      strange = 0;
      sink.bytes(bytes);
    });
    reader.releaseLock();
    reader = null;
    return cause;
  };
  const readAll = async () => {
    for (let stream = port.readable; stream !== null && !cancelled;) {
      const cause = await readStream(stream);
      const next = port.readable;
      // The same stream again would end at once, for ever: a port that recovers always hands out a new one.
      if (cancelled || next === null || next === stream || !recovers(cause)) return;
      if (!(nameOf(cause) in RECOVERABLE) && ++strange > STRANGE_IN_A_ROW) return;
      sink.gap(disturbance(cause, device));
      stream = next;
    }
  };
  const cancel = () => {
    cancelled = true;
    void reader?.cancel().catch(() => undefined);
  };
  return { readAll, cancel };
}

/** Reads until the stream ends. @returns the error that ended it, or null where it ended without one. */
async function pump(
  reader: ReadableStreamDefaultReader<Uint8Array>,
  take: (bytes: Uint8Array) => void,
): Promise<unknown> {
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return null;
      take(value);
    }
  } catch (error) {
    return error ?? 'unknown';
  }
}

const recovers = (cause: unknown): boolean => cause !== null && !LOSS.includes(nameOf(cause));

function nameOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';
}

function disturbance(error: unknown, device: string): Problem {
  const code = RECOVERABLE[nameOf(error)];
  return code ? problem(code) : problem('link.stream-error', { device, detail: String(error) });
}
