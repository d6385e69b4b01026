import type { WriteBytes } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { PortLike } from './serial-port.ts';

/** Longest time that closing waits for bytes still being sent, ms: a device that blocks must not hold the port. */
const DRAIN_MS = 500;

/** Sends one message after the other; a message is never cut by the next. */
export interface SerialWriter {
  readonly write: WriteBytes;
  /** From now on nothing more is taken. */
  refuse(): void;
  /** Lets what was taken go out, at most DRAIN_MS, and frees the lock. */
  end(): Promise<void>;
}

/** A writer for an open port. It takes the lock for each message only, so that a stream that was replaced is found again. */
export function serialWriter(port: PortLike, device: string): SerialWriter {
  let closed = false;
  let tail: Promise<unknown> = Promise.resolve();
  let current: WritableStreamDefaultWriter<Uint8Array> | null = null;
  let giveUp: (reason: string) => void = () => undefined;
  const gaveUp = new Promise<never>((_, reject) => (giveUp = reject));
  gaveUp.catch(() => undefined); // heard only by a message that is on its way
  const send = async (bytes: Uint8Array): Promise<Result<void>> => {
    if (port.writable === null) return failed(problem('link.closed'));
    try {
      current = port.writable.getWriter();
      await Promise.race([current.write(bytes), gaveUp]);
      return ok(undefined);
    } catch (error) {
      return failed(problem('link.write-failed', { device, detail: String(error) }));
    } finally {
      current?.releaseLock();
      current = null;
    }
  };
  const write: WriteBytes = (bytes) => {
    if (closed) return Promise.resolve(failed(problem('link.closed')));
    const outcome = tail.then(() => send(bytes));
    tail = outcome;
    return outcome;
  };
  const refuse = () => {
    closed = true;
  };
  const end = async () => {
    refuse();
    if (await endsWithin(tail, DRAIN_MS)) return;
    // Aborting waits for the message on its way, which may be for ever: the lock is given back without that.
    void current?.abort().catch(() => undefined);
    giveUp('the device takes nothing');
    await tail;
  };
  return { write, refuse, end };
}

async function endsWithin(work: Promise<unknown>, limitMs: number): Promise<boolean> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), limitMs);
  });
  const inTime = await Promise.race([work.then(() => true), late]);
  clearTimeout(timer);
  return inTime;
}
