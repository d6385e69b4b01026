import type { Millis } from '../quantities/time.ts';
import { liveCanLogDecoder } from './can-log.ts';
import { liveReadingLinesDecoder } from './reading-lines.ts';
import { runDecoder, type DecoderOutput, type DecoderStep, type RunningDecoder } from './running-decoder.ts';
import { slcanDecoder } from './slcan.ts';
import type { WireCounts, WireNote } from './wire-decoder.ts';
import { NO_COUNTS } from './wire-tally.ts';

/** A protocol is certain once it took so many lines more than it refused, counted from where it last had refused all. */
export const CERTAIN_LINES = 3;
/** What came of more bytes than these, and made nothing certain, is not kept. */
export const HELD_BYTES = 8192;

/** Of what the stream said beside frames only the last so many are held: a run of bare CR, answers all, would grow without end. */
const NOTES_HELD = 32;

const CR = 0x0d;
const LF = 0x0a;
const BEL = 0x07;
const NO_OUTPUT: DecoderOutput = { batches: [], readings: [], readingBreaks: [], notes: [] };

/** A decoder on trial: what it gave so far is held back. `score`: lines taken less lines refused, never below 0. */
interface Candidate {
  readonly decoder: RunningDecoder;
  readonly score: number;
  readonly held: DecoderOutput;
  /** Frames, or lines with readings, that were held too long. */
  readonly dropped: number;
}

interface AutoState {
  readonly candidates: readonly Candidate[];
  readonly heldBytes: number;
  /** The last byte fed: of equal line ends in a row only the first can end a line. */
  readonly last: number;
  /** Answers of an SLCAN bridge, and whether a line feed came, which no such bridge sends. */
  readonly answers: number;
  readonly fed: boolean;
}

/**
 * Recognises what a link speaks while reading it: all decoders read at once and what they give is held back; the first that is certain
 * goes on alone, and what it gave comes out with the next step. So the same bytes give the same as if the protocol had been known, however
 * they are cut. Stamps are tied to arrival, as on a link they must be. Before that `protocol` is null, or `slcan` where nothing but
 * its answers has come, which binds nobody; `counts` are those of the likeliest decoder, without frames.
 */
export const runAuto = (): RunningDecoder =>
  onTrial({
    candidates: [
      runDecoder(slcanDecoder),
      runDecoder(liveCanLogDecoder),
      runDecoder(liveReadingLinesDecoder),
    ].map((decoder) => ({ decoder, score: 0, held: NO_OUTPUT, dropped: 0 })),
    heldBytes: 0,
    last: -1,
    answers: 0,
    fed: false,
  });

const onTrial = (state: AutoState): RunningDecoder => ({
  protocol: hintOf(state),
  counts: countsOnTrial(state),
  clock: 'unknown',
  restart: () => onTrial(startAgain(state)),
  step: (bytes, arrivalMs) => decodeChunk(state, bytes, arrivalMs),
  finish: () => finishAll(state),
});

/** Line by line, so that the line which makes certain is the same however the bytes are cut. */
function decodeChunk(state: AutoState, bytes: Uint8Array, arrivalMs: Millis): DecoderStep {
  let next = state;
  let start = 0;
  let { last } = state;
  for (let at = 0; at < bytes.length; at++) {
    const byte = bytes[at]!;
    const ends = (byte === CR || byte === LF || byte === BEL) && byte !== last;
    last = byte;
    if (!ends) continue;
    next = feed(next, bytes.subarray(start, at + 1), arrivalMs);
    start = at + 1;
    const certain = likeliest(next, CERTAIN_LINES);
    if (certain) return goOnAlone(certain, bytes.subarray(start), arrivalMs);
    next = letGo(next);
  }
  if (start < bytes.length) next = feed(next, bytes.subarray(start), arrivalMs);
  return { next: onTrial({ ...next, last }), ...NO_OUTPUT };
}

function feed(state: AutoState, bytes: Uint8Array, arrivalMs: Millis): AutoState {
  const fed = state.fed || bytes.includes(LF);
  const steps = state.candidates.map(({ decoder }) => decoder.step(bytes, arrivalMs));
  return {
    ...state,
    candidates: state.candidates.map((candidate, place) => withStep(candidate, steps[place]!)),
    heldBytes: state.heldBytes + bytes.length,
    answers: state.answers + steps[0]!.notes.filter(isAnswer).length,
    fed,
  };
}

const ANSWER = /^(?:[Vv][\dA-Fa-f]{4}|N[\dA-Za-z]{4}|F[\dA-Fa-f]{2})$/;
const isAnswer = (note: WireNote): boolean =>
  note.kind === 'ack' || note.kind === 'refused' || (note.kind === 'reply' && ANSWER.test(note.text));

function withStep(candidate: Candidate, step: DecoderStep): Candidate {
  const before = balance(candidate.decoder.counts);
  return {
    ...candidate,
    decoder: step.next,
    score: Math.max(0, candidate.score + balance(step.next.counts) - before),
    held: together(candidate.held, step),
  };
}

/** Lines taken less lines refused. A CAN FD frame is not kept, but a line of its protocol. */
function balance({ frames, malformed }: WireCounts): number {
  const refused = Object.values(malformed).reduce((sum, lines) => sum + lines, 0);
  return frames + 2 * malformed.notKept - refused;
}

const together = (held: DecoderOutput, step: DecoderOutput): DecoderOutput => ({
  batches: step.batches.length > 0 ? [...held.batches, ...step.batches] : held.batches,
  readings: step.readings.length > 0 ? [...held.readings, ...step.readings] : held.readings,
  readingBreaks: [...held.readingBreaks, ...step.readingBreaks.map((place) => held.readings.length + place)],
  notes: step.notes.length > 0 ? [...held.notes, ...step.notes].slice(-NOTES_HELD) : held.notes,
});

/** The candidate with the highest score, if it reaches `least`; of equals the first. */
function likeliest({ candidates }: AutoState, least: number): Candidate | null {
  const best = candidates.reduce((high, candidate) => (candidate.score > high.score ? candidate : high));
  return best.score >= least ? best : null;
}

function goOnAlone(certain: Candidate, bytes: Uint8Array, arrivalMs: Millis): DecoderStep {
  const step = certain.decoder.step(bytes, arrivalMs);
  return { next: step.next, ...together(outputOf(certain), step) };
}

const outputOf = ({ held, dropped }: Candidate): DecoderOutput =>
  dropped > 0 ? { ...held, notes: [{ kind: 'lost', frames: dropped }, ...held.notes] } : held;

/** Nothing is certain although much came: what is held is given up and counted, and the trial goes on. */
function letGo(state: AutoState): AutoState {
  if (state.heldBytes <= HELD_BYTES) return state;
  const candidates = state.candidates.map((candidate) => ({
    ...candidate,
    held: NO_OUTPUT,
    dropped: candidate.decoder.counts.frames,
  }));
  return { ...state, candidates, heldBytes: 0 };
}

/** The input has ended: whoever took more than it refused of late has it. */
function finishAll(state: AutoState): DecoderStep {
  const candidates = state.candidates.map((candidate) => withStep(candidate, candidate.decoder.finish()));
  const last: AutoState = { ...state, candidates };
  const best = likeliest(last, 1);
  return best ? { next: best.decoder, ...outputOf(best) } : { next: onTrial(last), ...NO_OUTPUT };
}

const startAgain = (state: AutoState): AutoState => ({
  ...state,
  candidates: state.candidates.map((candidate) => ({ ...candidate, decoder: candidate.decoder.restart() })),
  last: -1,
});

function hintOf({ candidates, answers, fed }: AutoState): 'slcan' | null {
  const taken = candidates.some(({ score }) => score > 0);
  return answers > 0 && !fed && !taken ? 'slcan' : null;
}

function countsOnTrial(state: AutoState): WireCounts {
  const likely = likeliest(state, 0);
  return { ...(likely?.decoder.counts ?? NO_COUNTS), frames: 0 };
}
