import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { FoundBridge } from './found-bridge.ts';
import { listenWay } from './search-slcan-kinds.ts';
import { encodeSlcanFrame } from './slcan-encode.ts';
import { ANSWER_WAIT_MS, BIT_RATE_COMMANDS } from './slcan-commands.ts';
import type { WireNote } from './wire-decoder.ts';

/** A frame to be sent: a 29-bit identifier and at most 8 bytes. */
export interface AskFrame {
  readonly id: number;
  readonly data: readonly number[];
}

/** A request that the person allowed. `done` is told once: how many frames were sent, or why not all. */
export interface BridgeAsk {
  readonly frames: readonly AskFrame[];
  done(result: Result<AskOutcome>): void;
}

export interface AskOutcome {
  readonly sent: number;
}

type Stage = 'close' | 'set' | 'mode' | 'open' | 'frame' | 'closeAgain' | 'listenMode' | 'listen' | 'over';

export interface AskState {
  readonly found: FoundBridge;
  readonly frames: readonly AskFrame[];
  readonly stage: Stage;
  readonly at: number;
  readonly dueMs: number;
  /** The first thing that went wrong. The bridge is put back all the same. */
  readonly problem: Problem | null;
}

/** As a step of the search: write `send`, pass on the notes and the lack of them after `waitMs`. */
export interface AskStep {
  readonly state: AskState;
  readonly send: Uint8Array | null;
  readonly waitMs: number;
  readonly done: Result<AskOutcome> | null;
}

/** How long an answer to one frame is waited for, ms: T3 of J1939-21, the longest wait of its transport protocol. */
export const ASK_ANSWER_MS = 1250;

/**
 * Begins to send frames through a bridge. One that listens only is closed, opened normally at the bit rate that was found, and
 * put back to listening at the end, whatever happens. One that was opened normally just sends. Frames that are no frames, and
 * a bridge whose bit rate is not certain, are refused before anything is sent.
 */
export function beginAsk(found: FoundBridge | null, frames: readonly AskFrame[], nowMs: number): AskStep {
  const state = { found: found ?? NOBODY, frames, at: 0, dueMs: nowMs, problem: null };
  const why = whyNot(found, frames);
  if (why !== null) {
    const done = failed(problem('search.ask-not-possible', { why }));
    return { state: { ...state, stage: 'over' }, send: null, waitMs: 0, done };
  }
  const begun: AskState = { ...state, stage: 'close' };
  return found?.listenOnly === 'off' ? sendFrame(begun, nowMs) : command(begun, 'close', 'C', nowMs);
}

/** Takes what was heard since, or that time has passed. */
export function stepAsk(
  state: AskState,
  { nowMs, notes }: { readonly nowMs: number; readonly notes: readonly WireNote[] },
): AskStep {
  const answer = notes.find(({ kind }) => kind === 'ack' || kind === 'refused')?.kind ?? null;
  const due = nowMs >= state.dueMs;
  if (state.stage === 'over') return wait(state, nowMs);
  if (state.stage === 'frame') return afterFrame(state, answer === 'refused', due, nowMs);
  if (answer === null && !due) return wait(state, nowMs);
  return afterCommand(state, answer === 'refused', nowMs);
}

const NOBODY: FoundBridge = {
  baudRate: null,
  protocol: null,
  bitRate: null,
  version: null,
  listenOnly: 'notApplicable',
};

function whyNot(found: FoundBridge | null, frames: readonly AskFrame[]): string | null {
  if (found === null || found.protocol !== 'slcan') return 'it is not a bridge that can send.';
  if (found.bitRate === null) return 'the bit rate of the bus is not known yet.';
  const wrong = ({ id, data }: AskFrame) =>
    !Number.isInteger(id) || id < 0 || id > 0x1fffffff || data.length > 8 || data.some(noByte);
  return frames.some(wrong) ? 'the request is not a frame.' : null;
}

const noByte = (value: number): boolean => !Number.isInteger(value) || value < 0 || value > 255;

const hasModes = ({ found }: AskState): boolean => listenWay(found.version) === 'M1 then O';

function afterCommand(state: AskState, refused: boolean, nowMs: number): AskStep {
  switch (state.stage) {
    case 'close': // a refusal says that it was closed already
      return command(state, 'set', BIT_RATE_COMMANDS[state.found.bitRate!], nowMs);
    case 'set':
      return afterBitRate(state, refused, nowMs);
    case 'mode':
      return command(state, 'open', 'O', nowMs);
    case 'open':
      if (refused) return backToListening(troubled(state, 'wire.open-refused'), nowMs);
      return sendFrame(state, nowMs);
    case 'closeAgain':
    case 'listenMode':
    case 'listen':
    case 'frame':
    case 'over':
      return puttingBack(state, refused, nowMs);
  }
}

function afterBitRate(state: AskState, refused: boolean, nowMs: number): AskStep {
  if (refused) return backToListening(troubled(state, 'wire.bit-rate-refused'), nowMs);
  return hasModes(state) ? command(state, 'mode', 'M0', nowMs) : command(state, 'open', 'O', nowMs);
}

function puttingBack(state: AskState, refused: boolean, nowMs: number): AskStep {
  if (state.stage === 'closeAgain' && hasModes(state)) return command(state, 'listenMode', 'M1', nowMs);
  if (state.stage === 'closeAgain') return command(state, 'listen', 'L', nowMs);
  // Refused silent mode: `O` would then open normally, so the bridge stays closed.
  if (refused) return over(troubled(state, 'wire.listen-only-refused'), nowMs);
  return state.stage === 'listenMode' ? command(state, 'listen', 'O', nowMs) : over(state, nowMs);
}

function sendFrame(state: AskState, nowMs: number): AskStep {
  const frame = state.frames[state.at];
  if (frame === undefined) return backToListening(state, nowMs);
  const { id, data } = frame;
  const bytes = { id, extended: true, remote: false, length: data.length, data: Uint8Array.from(data) };
  const sent: AskState = { ...state, stage: 'frame', dueMs: nowMs + ASK_ANSWER_MS };
  return { ...wait(sent, nowMs), send: encodeSlcanFrame(bytes) };
}

/** The next frame once the time for answers is over: several answers at once would mix with those to the next frame. */
function afterFrame(state: AskState, refused: boolean, due: boolean, nowMs: number): AskStep {
  if (refused) return backToListening(troubled(state, 'search.ask-refused'), nowMs);
  return due ? sendFrame({ ...state, at: state.at + 1 }, nowMs) : wait(state, nowMs);
}

function backToListening(state: AskState, nowMs: number): AskStep {
  return state.found.listenOnly === 'off' ? over(state, nowMs) : command(state, 'closeAgain', 'C', nowMs);
}

const troubled = (state: AskState, code: Problem['code']): AskState => ({
  ...state,
  problem:
    state.problem ??
    problem(code, { version: state.found.version ?? 'none', bitRate: state.found.bitRate ?? 'none' }),
});

function over(state: AskState, nowMs: number): AskStep {
  const done = state.problem ? failed(state.problem) : ok({ sent: state.at });
  return { ...wait({ ...state, stage: 'over' }, nowMs), done };
}

const command = (state: AskState, stage: Stage, text: string, nowMs: number): AskStep => ({
  ...wait({ ...state, stage, dueMs: nowMs + ANSWER_WAIT_MS }, nowMs),
  send: Uint8Array.from(`${text}\r`, (letter) => letter.charCodeAt(0)),
});

const wait = (state: AskState, nowMs: number): AskStep => ({
  state,
  send: null,
  waitMs: Math.max(0, state.dueMs - nowMs),
  done: null,
});
