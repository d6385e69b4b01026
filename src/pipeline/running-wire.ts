import type { Millis } from '../quantities/time.ts';
import { runAuto } from '../wire/auto-wire.ts';
import { canLogDecoder } from '../wire/can-log.ts';
import { readingLinesDecoder } from '../wire/reading-lines.ts';
import {
  runDecoder,
  type DecoderOutput,
  type DecoderStep,
  type RunningDecoder,
} from '../wire/running-decoder.ts';
import { slcanDecoder } from '../wire/slcan.ts';
import type { WireClock, WireCounts, WireProtocol } from '../wire/wire-decoder.ts';

/** Bytes kept for the raw monitor. */
export const RECENT_BYTES = 4096;

/** A decoder together with where it stands, so that the pipeline need not know which protocol it is. */
export interface RunningWire {
  readonly counts: WireCounts;
  readonly clock: WireClock;
  /** The protocol being read; null while it has not been recognised yet. */
  readonly protocol: WireProtocol | null;
  /** The last bytes as received, at most `RECENT_BYTES`. Never to be changed. */
  readonly recentBytes: Uint8Array;
  restart(): RunningWire;
  step(bytes: Uint8Array, arrivalMs: Millis): RunningStep;
  finish(): RunningStep;
}

export interface RunningStep extends DecoderOutput {
  readonly next: RunningWire;
}

/**
 * A decoder for the protocol, at its beginning. Named `candump` or `reading-lines` the bytes are those of a file, with the time of their
 * stamps and no other; `auto` is for a link, whose time is arrival or tied to it. SLCAN is the same for both.
 */
export const startWire = (protocol: WireProtocol | 'auto'): RunningWire =>
  running(decoderOf(protocol), new Uint8Array(0));

function decoderOf(protocol: WireProtocol | 'auto'): RunningDecoder {
  switch (protocol) {
    case 'slcan':
      return runDecoder(slcanDecoder);
    case 'candump':
      return runDecoder(canLogDecoder);
    case 'reading-lines':
      return runDecoder(readingLinesDecoder);
    case 'auto':
      return runAuto();
  }
}

function running(decoder: RunningDecoder, recentBytes: Uint8Array): RunningWire {
  const after = ({ next, ...output }: DecoderStep, recent = recentBytes): RunningStep => ({
    ...output,
    next: running(next, recent),
  });
  return {
    counts: decoder.counts,
    clock: decoder.clock,
    protocol: decoder.protocol,
    recentBytes,
    restart: () => running(decoder.restart(), recentBytes),
    step: (bytes, arrivalMs) => after(decoder.step(bytes, arrivalMs), lastBytes(recentBytes, bytes)),
    finish: () => after(decoder.finish()),
  };
}

/** A copy, since who delivers the bytes may use their memory again. */
function lastBytes(before: Uint8Array, fresh: Uint8Array): Uint8Array {
  if (fresh.length >= RECENT_BYTES) return fresh.slice(-RECENT_BYTES);
  const kept = Math.min(before.length, RECENT_BYTES - fresh.length);
  const last = new Uint8Array(kept + fresh.length);
  last.set(before.subarray(before.length - kept));
  last.set(fresh, kept);
  return last;
}
