import { problem, type Problem } from '../problems/problem.ts';
import {
  BIT_RATES,
  type BitRate,
  type FoundBridge,
  type SearchReport,
  type WantedBridge,
} from './found-bridge.ts';
import {
  hasWords,
  isJunk,
  isPlainText,
  isText,
  NO_EVIDENCE,
  protocolOf,
  saysSlcan,
  takeBytes,
  takeDisturbance,
  versionOf,
  type Evidence,
} from './search-evidence.ts';
import {
  beginRates,
  rateOf,
  silentBridge,
  stepRates,
  type RateState,
  type RateStep,
} from './search-rates.ts';
import { DWELL_MS, type Patience } from './search-speeds.ts';
import type { WireNote, WireProtocol } from './wire-decoder.ts';

/** One opening of a source, and what is known and wanted of it. */
export interface SearchSettings {
  readonly baudRate: number | null;
  readonly patience: Patience;
  readonly canWrite: boolean;
  /** Frames were sent to this bridge before: a bare CR might send the last one again, so none is sent. */
  readonly transmitted: boolean;
  readonly remembered: FoundBridge | null;
  readonly wanted: WantedBridge;
}

/** How an opening ended: what was found, or why this opening is given up. */
export type SearchEnd =
  | { readonly kind: 'found'; readonly found: FoundBridge }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'text' | 'junk' | 'silence' };

type Phase = 'flush' | 'close' | 'version' | 'listen' | 'rates' | 'rest' | 'over';

export interface SearchState {
  readonly settings: SearchSettings;
  readonly phase: Phase;
  readonly beganMs: number;
  readonly dueMs: number;
  readonly evidence: Evidence;
  readonly rates: RateState | null;
  /** Rounds of probing, and whether bit rates were tried without an answer. */
  readonly probes: number;
  readonly triedBlind: boolean;
  readonly told: SearchReport['stage'] | null;
}

/** What happened: bytes that arrived, a disturbance that the port told of, or nothing (both absent) up to `nowMs`. */
export interface SearchInput {
  readonly nowMs: number;
  readonly bytes?: Uint8Array;
  readonly disturbed?: boolean;
}

/**
 * What to do now: write `send` (one command in one write; null: nothing), then pass on what arrives, and the lack of it after
 * `waitMs`. `kept`: this opening is the right one. `done` ends the search of this opening; nothing more is sent.
 */
export interface SearchStep {
  readonly state: SearchState;
  readonly send: string | null;
  readonly waitMs: number;
  readonly kept: boolean;
  readonly report: SearchReport | null;
  readonly done: SearchEnd | null;
}

/** How long each probe is waited for, ms. A quick opening takes 180 ms when nothing answers. */
const QUICK = { flush: 50, close: 40, version: 90 } as const;
/** Radio and network links answer late. Source of 100–300 ms: can-text-formats.md, Quirks, "No ACK or NACK at all". */
const SLOW = { flush: 100, close: 200, version: 200 } as const;
/** Bytes that keep coming lengthen a wait by this, ms. */
const STILL_COMING_MS = 30;
/** More bytes than a version text has. */
const LONG_ANSWER = 200;
/** Text that is no protocol yet is listened to this long: a header line may have to be followed by values. */
const TEXT_MS = 1500;
/** A source kept open without success is probed again after this, ms. */
const REST_MS = 2000;
/** The last probe of a patient opening, ms before its end. */
const LAST_PROBE_MS = 250;
/** After such a pause what came before is another matter (the text of a boot program), ms. */
const PAUSE_MS = 150;

/**
 * Begins to find out what is at the other end of one opening. `\r\r\r` flushes a half-typed command; where frames were sent
 * before, `C` does, since an empty line makes one firmware repeat its last command.
 * Source: can-text-formats.md, Part 1, "Commands" and Quirks.
 */
export function beginSearch(settings: SearchSettings, nowMs: number): SearchStep {
  const state: SearchState = {
    settings,
    phase: 'flush',
    beganMs: nowMs,
    dueMs: nowMs,
    evidence: NO_EVIDENCE,
    rates: null,
    probes: 0,
    triedBlind: false,
    told: null,
  };
  const step = probe(state, nowMs);
  return { ...step, kept: settings.patience === 'stay' };
}

/** Takes what happened. Never throws, on any bytes; the same inputs give the same steps. */
export function stepSearch(before: SearchState, input: SearchInput): SearchStep {
  if (before.phase === 'over') return wait(before, input.nowMs);
  const { state, notes } = hearInput(before, input);
  if (state.phase === 'rates') return stepInRates(state, notes, input.nowMs);
  const early = input.bytes === undefined && !input.disturbed ? null : lookEarly(state, input.nowMs);
  if (early) return early;
  // Something came where nothing had been: it is looked into at once.
  if (state.phase === 'rest' && before.evidence.bytes === 0 && state.evidence.bytes > 0)
    return probe({ ...state, probes: 0, triedBlind: false }, input.nowMs);
  if (input.nowMs < state.dueMs) return hurry(state, notes, input.nowMs);
  return onDue(state, input.nowMs);
}

function hearInput(
  before: SearchState,
  { nowMs, bytes, disturbed }: SearchInput,
): { readonly state: SearchState; readonly notes: readonly WireNote[] } {
  let { evidence } = before;
  if (disturbed) evidence = takeDisturbance(evidence);
  if (bytes === undefined || bytes.length === 0) return { state: { ...before, evidence }, notes: [] };
  if (before.phase !== 'rates' && isJunk(evidence) && nowMs - evidence.lastMs >= PAUSE_MS)
    evidence = NO_EVIDENCE;
  const heard = takeBytes(evidence, bytes, nowMs);
  return { state: { ...before, evidence: heard.evidence }, notes: heard.notes };
}

/** What need not be waited for: a line protocol that speaks by itself, and bytes that are no text at this speed. */
function lookEarly(state: SearchState, nowMs: number): SearchStep | null {
  const { evidence, settings } = state;
  if (isText(evidence)) {
    const protocol = protocolOf(evidence);
    if (protocol !== null && protocol !== 'slcan') return foundLines(state, protocol, nowMs);
  }
  if (endsOnJunk(settings) && isJunk(evidence)) return over(state, { kind: 'junk' }, nowMs);
  return null;
}

/** Elsewhere junk may be the text of a boot program at another speed, and what matters comes after it. */
const endsOnJunk = ({ patience, remembered }: SearchSettings): boolean =>
  patience === 'quick' || (patience === 'known' && remembered?.protocol === 'slcan');

/** `C` and `V` end as soon as they are answered. */
function hurry(state: SearchState, notes: readonly WireNote[], nowMs: number): SearchStep {
  const answered = notes.some(({ kind }) => kind === 'ack' || kind === 'refused');
  if (state.phase === 'close' && answered) return ask(state, 'version', 'V', nowMs);
  const said = state.phase === 'version' && (state.evidence.version !== null || hasRefused(notes));
  return said && saysSlcan(state.evidence) ? startRates(state, false, nowMs) : wait(state, nowMs);
}

const hasRefused = (notes: readonly WireNote[]): boolean => notes.some(({ kind }) => kind === 'refused');

function onDue(state: SearchState, nowMs: number): SearchStep {
  switch (state.phase) {
    case 'flush':
      return ask(state, 'close', 'C', nowMs);
    case 'close':
      return ask(state, 'version', 'V', nowMs);
    case 'version':
      return stillComing(state, nowMs)
        ? wait({ ...state, dueMs: nowMs + STILL_COMING_MS }, nowMs)
        : afterProbe(state, nowMs);
    case 'listen':
      return mayProbeAgain(state) ? probe(state, nowMs) : decide(state, nowMs);
    case 'rest':
      return probe({ ...state, evidence: NO_EVIDENCE, probes: 0, triedBlind: false }, nowMs);
    case 'rates':
    case 'over':
      return wait(state, nowMs);
  }
}

const stillComing = ({ evidence }: SearchState, nowMs: number): boolean =>
  nowMs - evidence.lastMs < STILL_COMING_MS && evidence.bytes < LONG_ANSWER;

const mayProbeAgain = ({ settings, probes, evidence }: SearchState): boolean =>
  settings.canWrite && probes < 2 && !isJunk(evidence);

/** One round of probing, or listening alone where nothing can be sent. */
function probe(state: SearchState, nowMs: number): SearchStep {
  const { canWrite, transmitted } = state.settings;
  const probed = { ...state, probes: state.probes + 1, beganMs: state.probes === 0 ? nowMs : state.beganMs };
  if (!canWrite) return wait({ ...probed, phase: 'listen', dueMs: nowMs + DWELL_MS }, nowMs);
  return ask(probed, 'flush', transmitted ? 'C' : '\r\r', nowMs);
}

function afterProbe(state: SearchState, nowMs: number): SearchStep {
  const { evidence, settings } = state;
  if (saysSlcan(evidence)) return startRates(state, false, nowMs);
  if (hasWords(evidence)) return state.probes < 2 ? listen(state, TEXT_MS, nowMs) : decide(state, nowMs);
  if (settings.patience === 'quick' || state.probes > 1) return decide(state, nowMs);
  if (evidence.bytes === 0 && mayTryBlind(state)) return startRates(state, true, nowMs);
  if (settings.patience === 'known' && settings.remembered?.protocol === 'slcan') return decide(state, nowMs);
  return listenOut(state, nowMs);
}

/** Bridges that answer nothing at all are met often: the bit rates are tried once without an answer. */
const mayTryBlind = ({ triedBlind, settings }: SearchState): boolean =>
  !triedBlind && (settings.patience !== 'known' || settings.remembered?.protocol === 'slcan');

const listen = (state: SearchState, spanMs: number, nowMs: number): SearchStep =>
  wait({ ...state, phase: 'listen', dueMs: nowMs + spanMs }, nowMs);

/** Listens until a board that starts afresh must have spoken, save the time of a last probe. */
const listenOut = (state: SearchState, nowMs: number): SearchStep =>
  listen(state, Math.max(0, state.beganMs + DWELL_MS - LAST_PROBE_MS - nowMs), nowMs);

/** The end of an opening: what its bytes were. */
function decide(state: SearchState, nowMs: number): SearchStep {
  const { evidence } = state;
  if (saysSlcan(evidence))
    return state.settings.canWrite ? startRates(state, false, nowMs) : foundLines(state, 'slcan', nowMs);
  if (isText(evidence) && evidence.unknownLines > 0) return over(state, { kind: 'text' }, nowMs);
  const heard = evidence.bytes > 0 || evidence.disturbed > 0;
  return over(state, { kind: heard ? 'junk' : 'silence' }, nowMs);
}

function startRates(state: SearchState, blind: boolean, nowMs: number): SearchStep {
  const { wanted, baudRate, remembered, patience } = state.settings;
  const known = remembered?.bitRate ?? null;
  const others = BIT_RATES.filter((rate) => rate !== known);
  const only = wanted.bitRate ?? (blind && patience === 'known' ? known : null);
  const rates: readonly BitRate[] = only ? [only] : known === null ? BIT_RATES : [known, ...others];
  const version = blind ? null : versionOf(state.evidence);
  const answers = state.evidence.answers > 0;
  const settings = { wanted, baudRate, version, answers, blind, rates };
  const step = beginRates(settings, nowMs, state.evidence.frames);
  const next: SearchState = { ...state, phase: 'rates', triedBlind: state.triedBlind || blind };
  return fromRates(next, step, nowMs);
}

function stepInRates(state: SearchState, notes: readonly WireNote[], nowMs: number): SearchStep {
  const { evidence, rates } = state;
  // What was taken for a version was the text of a board that prints lines.
  if (evidence.frames === 0 && isPlainText(evidence)) {
    const protocol = protocolOf(evidence);
    if (protocol !== null && protocol !== 'slcan') return foundLines(state, protocol, nowMs);
    return over(state, { kind: 'text' }, nowMs);
  }
  const { frames, lastMs } = evidence;
  return fromRates(state, stepRates(rates!, { nowMs, notes, frames, lastMs }), nowMs);
}

function fromRates(state: SearchState, step: RateStep, nowMs: number): SearchStep {
  const rates = step.state;
  const next: SearchState = { ...state, rates, dueMs: rates.dueMs };
  if (step.done?.kind === 'silence') {
    const { patience } = state.settings;
    return patience === 'known' ? over(next, step.done, nowMs) : listenOut({ ...next, rates: null }, nowMs);
  }
  if (step.done) return over(next, step.done, nowMs);
  const turned = step.turn === null ? null : turnReport(rates);
  const { state: told, report } = turned ? tell(next, turned) : { state: next, report: null };
  return { ...wait(told, nowMs), send: step.send, report, kept: !rates.settings.blind };
}

/** A round without a frame is told as silence, once; while it goes on the bit rates are not told. */
function turnReport(rates: RateState): SearchReport | null {
  const { baudRate, blind } = rates.settings;
  if (rates.cycle === 0) return { stage: 'bit rate', baudRate, bitRate: rateOf(rates), found: null };
  if (blind) return null;
  const told = problem(rates.busErrors ? 'search.bus-errors' : 'search.bus-silent');
  return { stage: 'silent', baudRate, bitRate: null, found: silentBridge(rates), problem: told };
}

/** Nothing was found so far, and the person knows: trying on goes without a word. */
const isSaid = ({ told }: SearchState): boolean => told === 'nothing' || told === 'unintelligible';

/** Puts a report out, but not the same stage twice (bit rates are all told). */
function tell(state: SearchState, report: SearchReport): { state: SearchState; report: SearchReport | null } {
  const again =
    report.stage === 'bit rate' ? state.rates?.settings.blind && isSaid(state) : state.told === report.stage;
  if (again) return { state, report: null };
  return { state: { ...state, told: report.stage }, report };
}

function foundLines(state: SearchState, protocol: WireProtocol, nowMs: number): SearchStep {
  const { baudRate, canWrite } = state.settings;
  const listenOnly = protocol === 'slcan' && canWrite ? 'unconfirmed' : 'notApplicable';
  const found: FoundBridge = { baudRate, protocol, bitRate: null, version: null, listenOnly };
  return over(state, { kind: 'found', found }, nowMs);
}

const NOTHING = { stage: 'nothing', problem: problem('search.nothing') } as const;
const UNINTELLIGIBLE = { stage: 'unintelligible', problem: problem('search.unintelligible') } as const;

/** Ends the search, save in the opening that stays: there what is missing is told, and it is probed again later. */
function over(state: SearchState, done: SearchEnd, nowMs: number): SearchStep {
  const { baudRate, patience } = state.settings;
  const empty = { baudRate, bitRate: null, found: null };
  if (done.kind === 'found' || done.kind === 'refused') {
    const report: SearchReport =
      done.kind === 'found'
        ? { ...empty, stage: 'found', bitRate: done.found.bitRate, found: done.found }
        : { ...empty, stage: 'refused', problem: done.problem };
    return { ...wait({ ...state, phase: 'over' }, nowMs), kept: true, report, done };
  }
  if (patience !== 'stay')
    return { ...wait({ ...state, phase: 'over' }, nowMs), kept: done.kind === 'text', done };
  const missing = done.kind === 'silence' ? NOTHING : UNINTELLIGIBLE;
  const resting: SearchState = { ...state, phase: 'rest', rates: null, dueMs: nowMs + REST_MS };
  const told = tell(resting, { ...empty, ...missing });
  return { ...wait(told.state, nowMs), report: told.report, kept: true };
}

function ask(
  state: SearchState,
  phase: 'flush' | 'close' | 'version',
  command: string,
  nowMs: number,
): SearchStep {
  const { baudRate, patience } = state.settings;
  const spans = baudRate === null || patience === 'stay' ? SLOW : QUICK;
  return { ...wait({ ...state, phase, dueMs: nowMs + spans[phase] }, nowMs), send: `${command}\r` };
}

const wait = (state: SearchState, nowMs: number): SearchStep => ({
  state,
  send: null,
  waitMs: Math.max(0, state.dueMs - nowMs),
  kept: false,
  report: null,
  done: null,
});
