import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';
import { canLogDecoder } from '../wire/can-log.ts';
import type { FrameBatch } from '../wire/frame-batch.ts';
import { slcanDecoder } from '../wire/slcan.ts';
import type {
  WireClock,
  WireCounts,
  WireDecoder,
  WireNote,
  WireProtocol,
  WireStep,
} from '../wire/wire-decoder.ts';

/** A decoder together with where it stands, so that the pipeline need not know which protocol it is. */
export interface RunningWire {
  readonly counts: WireCounts;
  readonly clock: WireClock;
  /** The protocol being read; null while it has not been recognised yet. */
  readonly protocol: WireProtocol | null;
  restart(): RunningWire;
  step(bytes: Uint8Array, arrivalMs: Millis): RunningStep;
  finish(): RunningStep;
}

export interface RunningStep {
  readonly next: RunningWire;
  readonly batches: readonly FrameBatch[];
  readonly readings: readonly Reading[];
  readonly notes: readonly WireNote[];
}

/** A decoder for the protocol, at its beginning. */
export function startWire(protocol: WireProtocol | 'auto'): RunningWire {
  return protocol === 'slcan'
    ? running(slcanDecoder, slcanDecoder.initial())
    : running(canLogDecoder, canLogDecoder.initial());
}

function running<State>(decoder: WireDecoder<State>, state: State): RunningWire {
  const after = (step: WireStep<State>): RunningStep => ({
    next: running(decoder, step.state),
    batches: step.batches,
    readings: step.readings,
    notes: step.notes,
  });
  return {
    counts: decoder.counts(state),
    clock: decoder.clock(state),
    protocol: decoder.protocol,
    restart: () => running(decoder, decoder.restart(state)),
    step: (bytes, arrivalMs) => after(decoder.step(state, bytes, arrivalMs)),
    finish: () => after(decoder.finish(state)),
  };
}
