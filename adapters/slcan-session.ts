import { Observable, Subscription, type MonoTypeOperatorFunction, type SchedulerLike } from 'rxjs';
import type { LinkEvent, WriteBytes } from '../src/link/link-event.ts';
import type { Problem } from '../src/problems/problem.ts';
import { millis, type Millis } from '../src/quantities/time.ts';
import {
  beginSetup,
  closeCommands,
  continueSetup,
  openedProblem,
  type SetupStep,
  type SlcanSettings,
} from '../src/wire/slcan-setup.ts';
import type { WireNote } from '../src/wire/wire-decoder.ts';
import { slcanDecoder, type SlcanState } from '../src/wire/slcan.ts';

/**
 * Sets an SLCAN bridge up when its link opens, and closes its channel when the link is let go. Every event passes through
 * unchanged and at once. The handshake itself is pure (wire/slcan-setup.ts); here it is given the bytes and the time.
 * What the bridge refuses is a `gap` with the reason; a refused listen-only opening is never followed by a normal one,
 * and one that is not certain (no answer, or another kind of bridge) is told once, by a `gap` before any crank.
 * A source that cannot be written to is left alone.
 */
export function withSlcanSetup(
  settings: SlcanSettings,
  scheduler: SchedulerLike,
): MonoTypeOperatorFunction<LinkEvent> {
  return (source) =>
    new Observable<LinkEvent>((subscriber) => {
      const session = startSlcanSession(settings, scheduler, (atMs, problem) =>
        subscriber.next({ kind: 'gap', atMs, problem }),
      );
      // Added first, so that it runs first: the channel is closed while the link can still be written to.
      subscriber.add(session.close);
      subscriber.add(
        source.subscribe({
          next: (event) => {
            subscriber.next(event);
            session.take(event);
          },
          error: (problem: unknown) => {
            session.linkIsOver();
            subscriber.error(problem);
          },
          complete: () => {
            session.linkIsOver();
            subscriber.complete();
          },
        }),
      );
    });
}

interface SlcanSession {
  take(event: LinkEvent): void;
  linkIsOver(): void;
  close(): void;
}

function startSlcanSession(
  settings: SlcanSettings,
  scheduler: SchedulerLike,
  tell: (atMs: Millis, problem: Problem) => void,
): SlcanSession {
  let waiting: SetupStep | null = null;
  const answers = answerReader();
  let timer = Subscription.EMPTY;
  let lastMs = millis(0);
  const commands = commandSender((problem) => tell(lastMs, problem));
  const apply = (step: SetupStep) => {
    timer.unsubscribe();
    waiting = step.done ? null : step;
    if (waiting) timer = scheduler.schedule(() => apply(continueSetup(step.state, 'timeout')), step.waitMs);
    const told = step.done && problemOf(step.done);
    if (told) tell(lastMs, told);
    if (step.send !== null) commands.send(step.send); // last: the answer may come before this returns
  };
  const hear = (note: WireNote) => waiting && apply(continueSetup(waiting.state, note));
  const linkIsOver = () => {
    commands.sendBy(null);
    waiting = null;
    timer.unsubscribe();
  };
  return {
    take: (event) => {
      lastMs = event.atMs;
      if (event.kind === 'bytes' && waiting) answers.read(event, hear);
      if (event.kind !== 'open' || event.write === null) return;
      commands.sendBy(event.write);
      answers.restart();
      apply(beginSetup(settings));
    },
    linkIsOver,
    close: () => {
      for (const command of closeCommands()) commands.send(command);
      linkIsOver();
    },
  };
}

/** What is to be told at the end of the handshake: why it failed, or that listen-only is not certain. */
const problemOf = (done: NonNullable<SetupStep['done']>): Problem | null =>
  done.ok ? openedProblem(done.value) : done.problem;

/** Finds the bridge's answers in the byte stream, however cut. */
function answerReader() {
  let state: SlcanState = slcanDecoder.initial();
  return {
    restart: () => void (state = slcanDecoder.initial()),
    read: ({ bytes, atMs }: { bytes: Uint8Array; atMs: Millis }, hear: (note: WireNote) => void) => {
      const step = slcanDecoder.step(state, bytes, atMs);
      state = step.state;
      step.notes.forEach(hear);
    },
  };
}

/** Sends commands by what the link gave for it. A failure is told, but not once the link is over: that tells itself. */
export function commandSender(tell: (problem: Problem) => void) {
  let write: WriteBytes | null = null;
  const send = async (bytes: Uint8Array) => {
    const outcome = await write?.(bytes);
    if (outcome?.ok === false && write) tell(outcome.problem);
  };
  return {
    sendBy: (next: WriteBytes | null) => void (write = next),
    send: (command: string) => void send(ascii(command)),
    sendBytes: (bytes: Uint8Array) => void send(bytes),
  };
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
