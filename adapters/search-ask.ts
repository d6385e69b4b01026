import { Subscription, type SchedulerLike } from 'rxjs';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import type { FoundBridge } from '../src/wire/found-bridge.ts';
import { beginAsk, stepAsk, type AskState, type AskStep, type BridgeAsk } from '../src/wire/slcan-ask.ts';
import type { WireNote } from '../src/wire/wire-decoder.ts';
import { slcanDecoder, type SlcanState } from '../src/wire/slcan.ts';

/** Carries out requests one after the other through one connection. */
export interface AskRunner {
  request(ask: BridgeAsk): void;
  /** The bridge that requests go through; null while it is not known: they are refused then. */
  use(found: FoundBridge | null): void;
  hear(bytes: Uint8Array, atMs: Millis): void;
  /** The link is over: what was asked and not carried out is told so. */
  stop(cause: Problem): void;
}

interface AskDesk {
  readonly scheduler: SchedulerLike;
  readonly send: (bytes: Uint8Array) => void;
  readonly onTransmit: () => void;
  found: FoundBridge | null;
  waiting: readonly BridgeAsk[];
  running: { readonly ask: BridgeAsk; readonly state: AskState } | null;
  timer: Subscription;
  wire: SlcanState;
}

/** `send` writes to the bridge; `onTransmit` is told before the first frame of each request. */
export function askRunner(
  scheduler: SchedulerLike,
  send: (bytes: Uint8Array) => void,
  onTransmit: () => void,
): AskRunner {
  const idle = { found: null, waiting: [], running: null, timer: Subscription.EMPTY };
  const desk: AskDesk = { scheduler, send, onTransmit, ...idle, wire: slcanDecoder.initial() };
  return {
    request: (ask) => {
      desk.waiting = [...desk.waiting, ask];
      nextAsk(desk);
    },
    use: (bridge) => void (desk.found = bridge),
    hear: (bytes, atMs) => {
      if (!desk.running) return;
      const step = slcanDecoder.step(desk.wire, bytes, atMs);
      desk.wire = step.state;
      pass(desk, step.notes);
    },
    stop: (cause) => {
      desk.timer.unsubscribe();
      const left = desk.running ? [desk.running.ask, ...desk.waiting] : desk.waiting;
      desk.running = null;
      desk.waiting = [];
      for (const ask of left) ask.done(failed(cause));
    },
  };
}

function nextAsk(desk: AskDesk): void {
  const ask = desk.waiting[0];
  if (desk.running || ask === undefined) return;
  desk.waiting = desk.waiting.slice(1);
  const step = beginAsk(desk.found, ask.frames, desk.scheduler.now());
  if (!step.done) desk.onTransmit();
  desk.wire = slcanDecoder.initial();
  apply(desk, ask, step);
}

function apply(desk: AskDesk, ask: BridgeAsk, step: AskStep): void {
  desk.timer.unsubscribe();
  desk.running = step.done ? null : { ask, state: step.state };
  if (desk.running) desk.timer = desk.scheduler.schedule(() => pass(desk, []), step.waitMs);
  if (step.send !== null) desk.send(step.send); // the answer may come before this returns
  if (!step.done) return;
  ask.done(step.done);
  nextAsk(desk);
}

function pass(desk: AskDesk, notes: readonly WireNote[]): void {
  const { running, scheduler } = desk;
  if (running) apply(desk, running.ask, stepAsk(running.state, { nowMs: scheduler.now(), notes }));
}

/** Why a request made while no bridge is known is not carried out. */
export const notFoundYet = (): Problem =>
  problem('search.ask-not-possible', { why: 'the bridge is still being searched for.' });
