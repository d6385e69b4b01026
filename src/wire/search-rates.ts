import { problem, type Problem } from '../problems/problem.ts';
import type { BitRate, FoundBridge, ListenOnly, WantedBridge } from './found-bridge.ts';
import { knowsOriginalLetters, listenWay, type ListenWay } from './search-slcan-kinds.ts';
import { BIT_RATE_COMMANDS } from './slcan-commands.ts';
import type { WireNote } from './wire-decoder.ts';

/** How long frames are waited for at one bit rate, ms: engine speed comes every 10 to 100 ms while the key is on. */
export const HEAR_MS = 300;
/** After this long without a frame a classic bridge is asked for its status flags, ms. */
const FLAGS_AFTER_MS = 120;
/** A bridge that was left open empties its buffer: so long without a byte, and at most so long in all, ms. */
const DRAINED_MS = 60;
const DRAIN_LIMIT_MS = 400;
/** Bits of `F` that only a wrong bit rate or a bad line sets: 2 error warning, 5 error passive, 7 bus error. */
const ERROR_FLAGS = 0b1010_0100;

type Stage = 'close' | 'drain' | 'set' | 'stamps' | 'mode' | 'open' | 'hear' | 'over';

export interface RateSettings {
  readonly wanted: WantedBridge;
  readonly baudRate: number | null;
  readonly version: string | null;
  /** The bridge answers commands: each is waited for. One that never does is only given time to take it. */
  readonly answers: boolean;
  /** Nothing told that a bridge is there: each rate is tried once. */
  readonly blind: boolean;
  /** Bit rates in the order to be tried; one alone is the person's choice, or the remembered one. */
  readonly rates: readonly BitRate[];
}

export interface RateState {
  readonly settings: RateSettings;
  readonly order: readonly BitRate[];
  readonly stage: Stage;
  readonly at: number;
  readonly cycle: number;
  readonly refused: number;
  readonly dueMs: number;
  readonly sinceMs: number;
  /** Frames counted so far, and when the channel was last closed or opened. */
  readonly frames: number;
  readonly framesBefore: number;
  readonly opened: 'acknowledged' | 'unanswered' | null;
  readonly stampsAsked: boolean;
  readonly flagsAsked: boolean;
  readonly busErrors: boolean;
  /** The bit rate is found, and the person allowed normal opening: the last round opens so. */
  readonly normal: boolean;
}

export interface RateInput {
  readonly nowMs: number;
  readonly notes: readonly WireNote[];
  readonly frames: number;
  readonly lastMs: number;
}

export type RateEnd =
  | { readonly kind: 'found'; readonly found: FoundBridge }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'silence' };

/** `turn`: a new bit rate is being tried, or a whole round of them brought nothing (`round`). */
export interface RateStep {
  readonly state: RateState;
  readonly send: string | null;
  readonly turn: 'rate' | 'round' | null;
  readonly done: RateEnd | null;
}

/**
 * Begins trying bit rates in listen-only mode, most likely first. `O` is sent only where the person allowed normal opening and
 * the bit rate is certain: at a wrong one a normal opening disturbs the bus.
 */
export function beginRates(settings: RateSettings, nowMs: number, frames: number): RateStep {
  const { wanted, rates } = settings;
  const state: RateState = {
    settings,
    order: rates,
    stage: 'close',
    at: 0,
    cycle: 0,
    refused: 0,
    dueMs: 0,
    sinceMs: nowMs,
    frames,
    framesBefore: frames,
    opened: null,
    stampsAsked: false,
    flagsAsked: false,
    busErrors: false,
    normal: !wanted.listenOnly && Boolean(wanted.bitRate),
  };
  const blocked = blockedBy(state);
  if (blocked) return end(state, blocked);
  return { ...ask(state, 'close', 'C', nowMs), turn: 'rate' };
}

/** Takes what was heard since, or that time has passed (`nowMs` at `dueMs` or later). */
export function stepRates(before: RateState, input: RateInput): RateStep {
  const { nowMs, frames } = input;
  const state = { ...before, frames };
  switch (state.stage) {
    case 'close':
      return answered(state, input) === null ? wait(state) : closed(state, input);
    case 'drain':
      return drain(state, input);
    case 'set':
      return hearSet(state, input);
    case 'stamps':
      return answered(state, input) === null ? wait(state) : openOrMode(state, nowMs);
    case 'mode':
      return hearMode(state, input);
    case 'open':
      return hearOpen(state, input);
    case 'hear':
      return hear(state, input);
    case 'over':
      return wait(state);
  }
}

/** The bit rate that is being tried. */
export const rateOf = (state: RateState): BitRate => state.order[state.at]!;

/** How the bridge will be made to listen, by its kind and what the person allowed. */
const wayOf = ({ settings }: RateState): ListenWay => listenWay(settings.version);

const wait = (state: RateState): RateStep => ({ state, send: null, turn: null, done: null });

const end = (state: RateState, done: RateEnd): RateStep => ({
  state: { ...state, stage: 'over' },
  send: null,
  turn: null,
  done,
});

const refuse = (state: RateState, code: Problem['code']): RateStep =>
  end(state, { kind: 'refused', problem: refusal(state, code) });

const refusal = (state: RateState, code: Problem['code']): Problem =>
  problem(code, { version: state.settings.version ?? 'none', bitRate: rateOf(state) });

/** A bridge whose kind has no way to listen that the person allowed is not opened at all. */
function blockedBy(state: RateState): RateEnd | null {
  const way = wayOf(state);
  if (state.normal || way === 'L' || way === 'unknown') return null;
  if (way === 'M1 then O' && state.settings.wanted.trySilentMode) return null;
  return { kind: 'refused', problem: refusal(state, noListening(state)) };
}

/** Without listen-only no bit rate can be tried; where normal opening is allowed the person must give it. */
const noListening = ({ settings }: RateState): Problem['code'] =>
  settings.wanted.listenOnly ? 'wire.listen-only-refused' : 'search.bit-rate-needed';

/** A bridge that answers is waited for; the others are only given time to take the command. */
function ask(state: RateState, stage: Stage, command: string, nowMs: number): RateStep {
  const { answers, baudRate } = state.settings;
  const spanMs = answers || baudRate === null ? 200 : 50;
  const asked = { ...state, stage, sinceMs: nowMs, dueMs: nowMs + spanMs };
  const counts = stage === 'close' || stage === 'open' ? { framesBefore: state.frames } : {};
  return { ...wait({ ...asked, ...counts }), send: `${command}\r` };
}

/** How the last command was answered; null: still waiting. */
function answered(
  state: RateState,
  { notes, nowMs }: RateInput,
): 'acknowledged' | 'refused' | 'unanswered' | null {
  for (const { kind } of notes) {
    if (kind === 'ack') return 'acknowledged';
    if (kind === 'refused') return 'refused';
  }
  return nowMs >= state.dueMs ? 'unanswered' : null;
}

/** Frames of before are let run out, so that they are not taken for frames at the bit rate that is set next. */
function closed(state: RateState, input: RateInput): RateStep {
  if (state.frames === state.framesBefore) return set(state, input.nowMs);
  return wait({ ...state, stage: 'drain', sinceMs: input.nowMs, dueMs: input.nowMs + DRAINED_MS });
}

function drain(state: RateState, { nowMs, lastMs }: RateInput): RateStep {
  if (nowMs - lastMs >= DRAINED_MS) return set(state, nowMs);
  const endless = nowMs - state.sinceMs >= DRAIN_LIMIT_MS;
  // It goes on although it was told to close: it cannot be set, and what it does on the bus is not known.
  if (endless && !state.settings.answers)
    return end(state, { kind: 'found', found: foundBridge(state, null, 'unconfirmed') });
  if (endless) return set(state, nowMs);
  return wait({ ...state, dueMs: Math.max(nowMs + 1, lastMs + DRAINED_MS) });
}

const set = (state: RateState, nowMs: number): RateStep =>
  ask(state, 'set', BIT_RATE_COMMANDS[rateOf(state)], nowMs);

function hearSet(state: RateState, input: RateInput): RateStep {
  const answer = answered(state, input);
  if (answer === null) return wait(state);
  if (answer === 'refused') {
    const refused = state.refused + 1;
    if (refused >= state.order.length) return refuse(state, 'wire.bit-rate-refused');
    return next({ ...state, refused }, input.nowMs);
  }
  const { stampsAsked, settings } = state;
  // `Z1` once, and only to the kind that is known to take it: the originals keep it in EEPROM.
  if (stampsAsked || !knowsOriginalLetters(settings.version)) return openOrMode(state, input.nowMs);
  return ask({ ...state, stampsAsked: true }, 'stamps', 'Z1', input.nowMs);
}

function openOrMode(state: RateState, nowMs: number): RateStep {
  if (state.normal) return ask(state, 'open', 'O', nowMs);
  return wayOf(state) === 'M1 then O' ? ask(state, 'mode', 'M1', nowMs) : ask(state, 'open', 'L', nowMs);
}

function hearMode(state: RateState, input: RateInput): RateStep {
  const answer = answered(state, input);
  if (answer === null) return wait(state);
  return answer === 'refused' ? refuse(state, noListening(state)) : ask(state, 'open', 'O', input.nowMs);
}

function hearOpen(state: RateState, input: RateInput): RateStep {
  const answer = answered(state, input);
  // Frames may come before an acknowledgement that never comes.
  if (answer === null && state.frames - state.framesBefore < 2) return wait(state);
  if (answer === 'refused') return openRefused(state, input.nowMs);
  const opened = answer === 'acknowledged' ? 'acknowledged' : 'unanswered';
  const { nowMs } = input;
  const replies = input.notes.filter(({ kind }) => kind === 'reply');
  const step: RateState = { ...state, stage: 'hear', opened, flagsAsked: false, sinceMs: nowMs };
  const asksFlags = knowsOriginalLetters(state.settings.version) && opened === 'acknowledged';
  return hear(
    { ...step, dueMs: nowMs + (asksFlags ? FLAGS_AFTER_MS : HEAR_MS) },
    { ...input, notes: replies },
  );
}

/** Once `L` was taken, a refusal is a passing thing (a lost `C`): the next bit rate is tried. */
function openRefused(state: RateState, nowMs: number): RateStep {
  if (state.opened === 'acknowledged') return next(state, nowMs);
  return refuse(state, state.normal ? 'wire.open-refused' : noListening(state));
}

function hear(state: RateState, input: RateInput): RateStep {
  const heard = state.frames - state.framesBefore;
  const { nowMs, notes } = input;
  if (heard >= 2) return foundRate(state, nowMs);
  // A refusal that comes late is that of the opening.
  if (state.opened === 'unanswered' && notes.some(({ kind }) => kind === 'refused'))
    return openRefused(state, nowMs);
  if (notes.some(tellsErrors)) return next({ ...state, busErrors: true }, nowMs);
  if (nowMs < state.dueMs) return wait(state);
  const overMs = state.sinceMs + HEAR_MS;
  if (nowMs < overMs && !state.flagsAsked)
    return { ...wait({ ...state, flagsAsked: true, dueMs: overMs }), send: 'F\r' };
  if (nowMs < overMs) return wait({ ...state, dueMs: overMs });
  return heard === 1 ? foundRate(state, nowMs) : next(state, nowMs);
}

/** Bus errors by status flags, bus state or bus error lines. can-text-formats.md, Part 1, "Status and error lines". */
function tellsErrors(note: WireNote): boolean {
  if (note.kind !== 'reply') return false;
  const { text } = note;
  if (/^F[0-9A-Fa-f]{2}$/.test(text)) return (Number.parseInt(text.slice(1), 16) & ERROR_FLAGS) !== 0;
  return /^s[wpb]\d{6}$/.test(text) || /^e\d[aAbBcCfFsS]+$/.test(text);
}

/** The next bit rate. After a whole round `turn` says so; a given bit rate is not opened again and again. */
function next(state: RateState, nowMs: number): RateStep {
  const at = (state.at + 1) % state.order.length;
  const round = at === 0;
  const later = { ...state, at, cycle: state.cycle + (round ? 1 : 0), refused: round ? 0 : state.refused };
  if (round && state.settings.blind) return end(later, { kind: 'silence' });
  if (round && state.order.length === 1 && state.stage === 'hear') {
    const heard = { ...later, sinceMs: nowMs, dueMs: nowMs + HEAR_MS, flagsAsked: true };
    return { ...wait(heard), turn: 'round' };
  }
  return { ...ask(later, 'close', 'C', nowMs), turn: round ? 'round' : 'rate' };
}

/** Frames came: the bit rate is certain. Where the person allowed normal opening it is opened so only now. */
function foundRate(state: RateState, nowMs: number): RateStep {
  if (state.settings.wanted.listenOnly || state.normal) {
    const found = foundBridge(state, rateOf(state), listeningOf(state));
    return end(state, { kind: 'found', found });
  }
  const { order, at } = state;
  const normal = { ...state, normal: true, order: [order[at]!], at: 0, opened: null };
  return ask(normal, 'close', 'C', nowMs);
}

function listeningOf(state: RateState): ListenOnly {
  if (state.normal) return 'off';
  const certain = wayOf(state) !== 'unknown' && state.opened === 'acknowledged';
  return certain ? 'confirmed' : 'unconfirmed';
}

const foundBridge = (state: RateState, bitRate: BitRate | null, listenOnly: ListenOnly): FoundBridge => ({
  baudRate: state.settings.baudRate,
  protocol: 'slcan',
  bitRate,
  version: state.settings.version,
  listenOnly,
});

/** What is known while the bus is silent. */
export const silentBridge = (state: RateState): FoundBridge => foundBridge(state, null, listeningOf(state));
