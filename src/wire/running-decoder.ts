import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';
import type { FrameBatch } from './frame-batch.ts';
import type { WireClock, WireCounts, WireDecoder, WireNote, WireProtocol, WireStep } from './wire-decoder.ts';

/** What one step gave. `readingBreaks` as in WireStep. */
export interface DecoderOutput {
  readonly batches: readonly FrameBatch[];
  readonly readings: readonly Reading[];
  readonly readingBreaks: readonly number[];
  readonly notes: readonly WireNote[];
}

export interface DecoderStep extends DecoderOutput {
  readonly next: RunningDecoder;
}

/** A decoder together with where it stands, so that nobody need know the type of its state. A value: stepping gives a new one. */
export interface RunningDecoder {
  /** Null while it has not been recognised. */
  readonly protocol: WireProtocol | null;
  readonly counts: WireCounts;
  readonly clock: WireClock;
  restart(): RunningDecoder;
  step(bytes: Uint8Array, arrivalMs: Millis): DecoderStep;
  finish(): DecoderStep;
}

/** The decoder at its beginning. */
export const runDecoder = <State>(decoder: WireDecoder<State>): RunningDecoder =>
  running(decoder, decoder.initial());

function running<State>(decoder: WireDecoder<State>, state: State): RunningDecoder {
  const after = (step: WireStep<State>): DecoderStep => ({
    next: running(decoder, step.state),
    batches: step.batches,
    readings: step.readings,
    readingBreaks: step.readingBreaks ?? [],
    notes: step.notes,
  });
  return {
    protocol: decoder.protocol,
    counts: decoder.counts(state),
    clock: decoder.clock(state),
    restart: () => running(decoder, decoder.restart(state)),
    step: (bytes, arrivalMs) => after(decoder.step(state, bytes, arrivalMs)),
    finish: () => after(decoder.finish(state)),
  };
}
