import { Observable, Subscription, type MonoTypeOperatorFunction, type SchedulerLike } from 'rxjs';
import type { LinkEvent, WriteBytes } from '../src/link/link-event.ts';
import { slcanDecoder } from '../src/wire/slcan.ts';
import {
  beginSetup,
  closeCommands,
  continueSetup,
  type SetupState,
  type SetupStep,
  type SlcanSettings,
} from '../src/wire/slcan-setup.ts';

/**
 * Sets an SLCAN bridge up after each `open`: one command a write, answers taken from the very bytes that pass through unchanged. A bridge that
 * refuses listen-only (or its bit rate) is told as a `gap` with the problem, and is not opened: never normally behind the person's back.
 * On unsubscribing the channel is closed, as far as the device still takes it.
 */
export function withSlcanSetup(
  settings: SlcanSettings,
  scheduler: SchedulerLike,
): MonoTypeOperatorFunction<LinkEvent> {
  return (source$) =>
    new Observable((subscriber) => {
      let setup: Setup | null = null;
      const running = new Subscription();
      running.add(() => setup?.close());
      running.add(
        source$.subscribe({
          next: (event) => {
            subscriber.next(event);
            if (event.kind === 'open' && event.write) {
              setup?.stop();
              setup = startSetup(settings, event.write, scheduler, (gap) =>
                subscriber.next({ kind: 'gap', atMs: event.atMs, problem: gap }),
              );
            } else if (event.kind === 'bytes') setup?.hear(event);
          },
          error: (problem: unknown) => subscriber.error(problem),
          complete: () => subscriber.complete(),
        }),
      );
      return running;
    });
}

interface Setup {
  hear(event: Extract<LinkEvent, { kind: 'bytes' }>): void;
  stop(): void;
  close(): void;
}

type OnProblem = (problem: Extract<LinkEvent, { kind: 'gap' }>['problem']) => void;

function startSetup(
  settings: SlcanSettings,
  write: WriteBytes,
  scheduler: SchedulerLike,
  onProblem: OnProblem,
): Setup {
  let state: SetupState;
  let decoder = slcanDecoder.initial();
  let over = false;
  let timer = Subscription.EMPTY;
  const take = (step: SetupStep): void => {
    state = step.state;
    timer.unsubscribe();
    if (step.send !== null) void write(asciiBytes(step.send));
    if (step.done === null) {
      timer = scheduler.schedule(() => take(continueSetup(state, 'timeout')), step.waitMs);
      return;
    }
    over = true;
    if (!step.done.ok) onProblem(step.done.problem);
  };
  take(beginSetup(settings));
  const stop = () => {
    over = true;
    timer.unsubscribe();
  };
  return {
    hear: ({ bytes, atMs }) => {
      if (over) return;
      const { state: next, notes } = slcanDecoder.step(decoder, bytes, atMs);
      decoder = next;
      for (const note of notes) if (!over) take(continueSetup(state, note));
    },
    stop,
    close: () => {
      stop();
      for (const command of closeCommands()) void write(asciiBytes(command));
    },
  };
}

const asciiBytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
