import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { BitRate } from './found-bridge.ts';
import type { WireNote } from './wire-decoder.ts';

/** How the bridge is to be opened. `stamps` asks for time stamps where the bridge is known to have them. */
export interface SlcanSettings {
  readonly bitRate: BitRate;
  readonly listenOnly: boolean;
  readonly stamps: boolean;
}

/** What the bridge was set to. */
export interface SlcanOpened {
  readonly listenOnly: boolean;
  readonly stamps: boolean;
  readonly version: string | null;
  /** The bridge answered the opening command, and its version text is of the kind whose `L` means listen-only. */
  readonly confirmed: boolean;
}

type Stage = 'flush' | 'close' | 'version' | 'bitRate' | 'stamps' | 'open' | 'done';

export interface SetupState {
  readonly settings: SlcanSettings;
  readonly stage: Stage;
  readonly version: string | null;
  readonly stamps: boolean;
  /** Notes waited over in this stage. */
  readonly heard: number;
}

/**
 * What to do now: write `send` (one command in one write; null: nothing), then wait up to `waitMs` for a note and pass it
 * on, or pass 'timeout'. `done` ends the handshake.
 */
export interface SetupStep {
  readonly state: SetupState;
  readonly send: string | null;
  readonly waitMs: number;
  readonly done: Result<SlcanOpened> | null;
}

/** The setting command of each bit rate. Source: can-text-formats.md, Part 1, "Commands". */
export const BIT_RATE_COMMANDS: Readonly<Record<BitRate, string>> = {
  125_000: 'S4',
  250_000: 'S5',
  500_000: 'S6',
  1_000_000: 'S8',
};

/** Bridges that never answer are met often: go on after this long. Source: can-text-formats.md, Quirks, 100–300 ms. */
export const ANSWER_WAIT_MS = 200;
/** After the flush everything that comes is old: only silence of this length ends the stage. */
export const FLUSH_WAIT_MS = 100;
/** A bridge that talks without end (status lines) holds a stage up no longer than this. Common practice, no source. */
export const WAITED_NOTES = 16;

/** Safe start: `\r\r\r` flushes a half-typed command. Source: can-text-formats.md, Part 1, "Commands". */
export const beginSetup = (settings: SlcanSettings): SetupStep => ({
  state: { settings, stage: 'flush', version: null, stamps: false, heard: 0 },
  send: '\r\r\r',
  waitMs: FLUSH_WAIT_MS,
  done: null,
});

/**
 * Takes an answer or the lack of one. Notes that are no answer to the stage (status lines, old acknowledgements while
 * flushing) are waited over, `WAITED_NOTES` of them a stage. A refused `L` ends with `wire.listen-only-refused`; `O` is
 * never sent in its place.
 */
export function continueSetup(state: SetupState, input: WireNote | 'timeout'): SetupStep {
  const step = takeInput(state, input);
  if (state.stage === 'done' || step.state.stage !== state.stage) return step;
  const heard = state.heard + 1;
  return heard < WAITED_NOTES ? { ...step, state: { ...state, heard } } : takeInput(state, 'timeout');
}

/**
 * What the person must be told of a bridge that was opened: `L` is listen-only for certain only where the version is of
 * the classic kind and the bridge acknowledged it. Elsewhere `L` may mean something else. Null: nothing to tell.
 * Source: can-text-formats.md, Quirks, "`L` means bus load report" and "No `L` at all".
 */
export const openedProblem = ({ listenOnly, confirmed, version }: SlcanOpened): Problem | null =>
  listenOnly && !confirmed ? problem('wire.listen-only-unconfirmed', { version: version ?? 'none' }) : null;

function takeInput(state: SetupState, input: WireNote | 'timeout'): SetupStep {
  const kind = input === 'timeout' ? 'timeout' : input.kind;
  switch (state.stage) {
    case 'flush':
      return kind === 'timeout' ? ask(state, 'close', 'C') : wait(state, FLUSH_WAIT_MS);
    case 'close':
      return isAnswer(kind) ? ask(state, 'version', 'V') : wait(state);
    case 'version':
      return hearVersion(state, input);
    case 'bitRate':
      return isAnswer(kind) ? afterBitRate(state, kind) : wait(state);
    case 'stamps':
      return hearStamps(state, kind);
    case 'open':
      return hearOpen(state, kind);
    case 'done':
      return { state, send: null, waitMs: 0, done: null };
  }
}

/** What is sent, one at a time with a small pause, before the port is closed. */
export const closeCommands = (): readonly string[] => ['C\r'];

/** `V` and 4 digits: the originals' kind, whose other commands mean what the originals' manual says. */
export const isClassicVersion = (version: string | null): boolean =>
  version !== null && /^V[0-9A-Fa-f]{4}$/.test(version);

const isAnswer = (kind: string): boolean => kind === 'ack' || kind === 'refused' || kind === 'timeout';

const wait = (state: SetupState, waitMs = ANSWER_WAIT_MS): SetupStep => ({
  state,
  send: null,
  waitMs,
  done: null,
});

const ask = (state: SetupState, stage: Stage, command: string): SetupStep => ({
  state: { ...state, stage, heard: 0 },
  send: `${command}\r`,
  waitMs: ANSWER_WAIT_MS,
  done: null,
});

/** A late acknowledgement of `C` may come before the version: only a reply, a refusal or silence ends the stage. */
function hearVersion(state: SetupState, input: WireNote | 'timeout'): SetupStep {
  if (input !== 'timeout' && input.kind !== 'reply' && input.kind !== 'refused') return wait(state);
  const isVersion = input !== 'timeout' && input.kind === 'reply' && /^[Vv]/.test(input.text);
  if (input !== 'timeout' && input.kind === 'reply' && !isVersion) return wait(state);
  const version = isVersion ? input.text : null;
  return ask({ ...state, version }, 'bitRate', BIT_RATE_COMMANDS[state.settings.bitRate]);
}

/** `Z1` is sent only to the classic kind: elsewhere the letter may mean something else. */
function afterBitRate(state: SetupState, kind: string): SetupStep {
  if (kind === 'refused') return fail(state, 'wire.bit-rate-refused');
  return state.settings.stamps && isClassicVersion(state.version) ? ask(state, 'stamps', 'Z1') : open(state);
}

const hearStamps = (state: SetupState, kind: string): SetupStep =>
  isAnswer(kind) ? open({ ...state, stamps: kind === 'ack' }) : wait(state);

const open = (state: SetupState): SetupStep => ask(state, 'open', state.settings.listenOnly ? 'L' : 'O');

function hearOpen(state: SetupState, kind: WireNote['kind'] | 'timeout'): SetupStep {
  const { settings, stamps, version } = state;
  if (kind === 'refused')
    return fail(state, settings.listenOnly ? 'wire.listen-only-refused' : 'wire.open-refused');
  if (!isAnswer(kind)) return wait(state);
  const confirmed = kind === 'ack' && isClassicVersion(version);
  const opened: SlcanOpened = { listenOnly: settings.listenOnly, stamps, version, confirmed };
  return { state: { ...state, stage: 'done' }, send: null, waitMs: 0, done: ok(opened) };
}

const fail = (
  state: SetupState,
  code: 'wire.listen-only-refused' | 'wire.bit-rate-refused' | 'wire.open-refused',
): SetupStep => ({
  state: { ...state, stage: 'done' },
  send: null,
  waitMs: 0,
  done: failed(problem(code, { version: state.version ?? 'none', bitRate: state.settings.bitRate })),
});
