import { millis } from '../quantities/time.ts';
import { recogniseWire } from './recognise.ts';
import { isKnownVersion } from './search-slcan-kinds.ts';
import { slcanDecoder, type SlcanState } from './slcan.ts';
import type { WireNote, WireProtocol } from './wire-decoder.ts';

/** What one opening has delivered so far, boiled down to what the search decides by. */
export interface Evidence {
  readonly bytes: number;
  /** Bytes that no text has: the sign of a wrong serial speed. */
  readonly strange: number;
  /** Framing, parity and break errors that the port told of: the same sign. */
  readonly disturbed: number;
  readonly frames: number;
  /** Bare CR and BEL: done and refused. */
  readonly answers: number;
  readonly statusLines: number;
  readonly version: string | null;
  /** Lines that look like a version: one that comes again and again is something else. */
  readonly versions: number;
  /** Whole lines that are nothing SLCAN says. */
  readonly unknownLines: number;
  readonly lastText: string | null;
  readonly lastMs: number;
  /** The beginning, for recognising line protocols. */
  readonly head: Uint8Array;
  /** The line being received, and whether a line has ended before. */
  readonly line: string;
  readonly inStep: boolean;
  readonly wire: SlcanState;
}

const KEPT_HEAD = 4096;
const KEPT_LINE = 200;
/** Fewer bytes say nothing of a speed: a line that is plugged in often gives one or two. */
const FEW_BYTES = 8;
const CR = 0x0d;
const LF = 0x0a;
const BEL = 0x07;
const TAB = 0x09;
const ESC = 0x1b;

export const NO_EVIDENCE: Evidence = {
  bytes: 0,
  strange: 0,
  disturbed: 0,
  frames: 0,
  answers: 0,
  statusLines: 0,
  version: null,
  versions: 0,
  unknownLines: 0,
  lastText: null,
  lastMs: -Infinity,
  head: new Uint8Array(0),
  line: '',
  inStep: false,
  wire: slcanDecoder.initial(),
};

/** Takes what arrived at `nowMs`; also gives what it says in SLCAN's terms. Never throws, on any bytes. */
export function takeBytes(
  evidence: Evidence,
  bytes: Uint8Array,
  nowMs: number,
): { readonly evidence: Evidence; readonly notes: readonly WireNote[] } {
  const step = slcanDecoder.step(evidence.wire, bytes, millis(nowMs));
  const answers = step.notes.filter(({ kind }) => kind === 'ack' || kind === 'refused').length;
  const counted: Evidence = {
    ...evidence,
    bytes: evidence.bytes + bytes.length,
    strange: evidence.strange + bytes.reduce((sum, byte) => sum + (isTextByte(byte) ? 0 : 1), 0),
    frames: slcanDecoder.counts(step.state).frames,
    answers: evidence.answers + answers,
    lastMs: nowMs,
    head: longerHead(evidence.head, bytes),
    wire: step.state,
  };
  return { evidence: takeLines(counted, bytes), notes: step.notes };
}

/** The port said that what arrived did not fit its speed. */
export const takeDisturbance = (evidence: Evidence): Evidence => ({
  ...evidence,
  disturbed: evidence.disturbed + 1,
});

const isTextByte = (byte: number): boolean =>
  (byte >= 0x20 && byte < 0x7f) || byte === CR || byte === LF || byte === BEL || byte === TAB || byte === ESC;

function longerHead(head: Uint8Array, bytes: Uint8Array): Uint8Array {
  if (head.length >= KEPT_HEAD) return head;
  const longer = new Uint8Array(Math.min(KEPT_HEAD, head.length + bytes.length));
  longer.set(head);
  longer.set(bytes.subarray(0, longer.length - head.length), head.length);
  return longer;
}

function takeLines(evidence: Evidence, bytes: Uint8Array): Evidence {
  let next = evidence;
  let line = evidence.line;
  for (const byte of bytes) {
    if (byte !== CR && byte !== LF && byte !== BEL) {
      if (line.length < KEPT_LINE) line += String.fromCharCode(byte);
      continue;
    }
    if (line.trim() !== '') next = takeLine(next, line.trim());
    next = next.inStep ? next : { ...next, inStep: true };
    line = '';
  }
  return { ...next, line };
}

/** The first line of an opening may be the end of one: it counts for nothing unless it is a version text of a known kind. */
function takeLine(evidence: Evidence, text: string): Evidence {
  if (isFrameLike(text) || /^[zZ]$|^F[0-9A-Fa-f]{2}$|^N\w{4}$/.test(text)) return evidence;
  if (isStatus(text)) return { ...evidence, statusLines: evidence.statusLines + 1 };
  if (isKnownVersion(text) || /^[Vv][\x20-\x7e]{2,}$/.test(text))
    return { ...evidence, version: evidence.version ?? text, versions: evidence.versions + 1 };
  const counts = evidence.inStep && /^[\x20-\x7e\t]+$/.test(text);
  return { ...evidence, lastText: text, unknownLines: evidence.unknownLines + (counts ? 1 : 0) };
}

const isFrameLike = (text: string): boolean => /^[&$]?[zZ]?[tTrRdDbBx][0-9A-Fa-f]{4,}$/.test(text);
/** Bus state and bus error by themselves. can-text-formats.md, Part 1, "Status and error lines". */
const isStatus = (text: string): boolean => /^s[awpb]\d{6}$|^e\d[aAbBcCfFoOsS]*$/.test(text);

/** Nearly all of it is text. A stray byte at the beginning is usual. */
export const isText = ({ bytes, strange }: Evidence): boolean => bytes > 0 && strange <= 1 + bytes / 20;

/** Text with a word in it: a wrong speed can make blanks and line ends of a short line that comes again and again. */
export const hasWords = (evidence: Evidence): boolean =>
  isText(evidence) && evidence.lastText !== null && /[\x21-\x7e]{3}/.test(evidence.lastText);

/** Certainly not text at this serial speed: there is no use in waiting for more. */
export const isJunk = ({ bytes, strange, disturbed }: Evidence): boolean =>
  (strange >= FEW_BYTES && strange * 4 >= bytes) || disturbed >= 3;

/** Text lines that are no line protocol and no SLCAN. */
export const isPlainText = (evidence: Evidence): boolean =>
  isText(evidence) && evidence.unknownLines + Math.max(0, evidence.versions - 1) >= 3;

/**
 * An SLCAN bridge answered: by its version text, by acknowledgements and refusals, by status lines or by frames. A device that
 * sends back what it is sent gives lines that a bridge never gives (`C`, `V`) and is none.
 */
export function saysSlcan(evidence: Evidence): boolean {
  if (!isText(evidence) || isPlainText(evidence)) return false;
  const { answers, unknownLines, versions, statusLines, frames } = evidence;
  if (frames >= 2 && frames > unknownLines) return true;
  if (statusLines >= 2 && statusLines > unknownLines) return true;
  if (answers >= 2) return unknownLines <= 1;
  return versions >= 1 && unknownLines === 0;
}

/** The version: the text that looks like one, else the one line that came among acknowledgements. */
export const versionOf = ({ version, lastText, unknownLines }: Evidence): string | null =>
  version ?? (unknownLines === 1 ? lastText : null);

/** Which line protocol the whole lines so far are. SLCAN without frames is not recognised by this. */
export function protocolOf({ head }: Evidence): WireProtocol | null {
  const end = Math.max(head.lastIndexOf(CR), head.lastIndexOf(LF));
  return end < 0 ? null : recogniseWire(head.subarray(0, end + 1));
}
