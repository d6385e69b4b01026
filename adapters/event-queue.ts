import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { millis } from '../src/quantities/time.ts';

/** Events waiting to be replayed, from memory or from disk. `peek` is undefined while none has come yet, or at the end. */
export interface EventQueue {
  peek(): LinkEvent | undefined;
  take(): void;
  /** No more will come: all were taken, or reading them failed. */
  ended(): boolean;
  failure(): Problem | null;
  stop(): void;
}

/** Events read ahead from disk: enough for a second of a busy bus, few enough for any memory. */
const AHEAD = 2_000;

/**
 * A queue over recorded events. The first one out is always `open`: a recording that lacks it (its beginning was lost)
 * gets one, with the time of its first event. `wake` is called when the answer of `peek` may have changed.
 */
export function eventQueue(
  events: Iterable<LinkEvent> | AsyncIterable<LinkEvent>,
  device: string,
  wake: () => void,
): EventQueue {
  const inner =
    Symbol.asyncIterator in events ? queueFromDisk(events, wake) : queueFromMemory(events[Symbol.iterator]());
  let opened = false;
  const peek = (): LinkEvent | undefined => {
    const event = inner.peek();
    if (opened || event === undefined || event.kind === 'open') return event;
    return { kind: 'open', atMs: millis(event.atMs), device, write: null };
  };
  const take = () => {
    const made = !opened && inner.peek()?.kind !== 'open';
    opened = true;
    if (!made) inner.take();
  };
  return { ...inner, peek, take };
}

function queueFromMemory(iterator: Iterator<LinkEvent>): EventQueue {
  let next = iterator.next();
  return {
    peek: () => (next.done === true ? undefined : next.value),
    take: () => {
      next = iterator.next();
    },
    ended: () => next.done === true,
    failure: () => null,
    stop: () => void iterator.return?.(),
  };
}

function queueFromDisk(events: AsyncIterable<LinkEvent>, wake: () => void): EventQueue {
  let waiting: LinkEvent[] = [];
  let at = 0;
  let room: (() => void) | null = null;
  let failure: Problem | null = null;
  let done = false;
  let stopped = false;
  const put = async (event: LinkEvent) => {
    waiting.push(event);
    if (waiting.length - at === 1) wake();
    if (waiting.length - at >= AHEAD && !stopped) await new Promise<void>((resolve) => (room = resolve));
    return !stopped;
  };
  const fill = async () => {
    failure = await readInto(events, put);
    done = true;
    wake();
  };
  const take = () => {
    at++;
    if (at < AHEAD) return;
    waiting = waiting.slice(at);
    at = 0;
    room?.();
  };
  const stop = () => {
    stopped = true;
    room?.();
  };
  void fill();
  return {
    peek: () => waiting[at],
    take,
    ended: () => done && at >= waiting.length,
    failure: () => failure,
    stop,
  };
}

/** Hands over one event after the other until there are no more or `put` answers false. @returns why reading failed. */
async function readInto(
  events: AsyncIterable<LinkEvent>,
  put: (event: LinkEvent) => Promise<boolean>,
): Promise<Problem | null> {
  try {
    for await (const event of events) if (!(await put(event))) return null;
    return null;
  } catch (error) {
    return problem('link.replay-unreadable', { detail: String(error) });
  }
}
