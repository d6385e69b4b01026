import { millis } from '../quantities/time.ts';
import {
  FRAME_ERROR,
  FRAME_EXTENDED,
  FRAME_REMOTE,
  FRAME_SENT,
  type FrameBatch,
} from '../wire/frame-batch.ts';
import type { BrokenReason, BrokenTransfer, BusMessage } from './bus-message.ts';
import { GLOBAL_ADDRESS } from './can-id.ts';
import { readControl } from './control-message.ts';
import { PGN } from './group-names.ts';
import {
  addPacket,
  begin,
  beginUnknown,
  deadlineMs,
  end,
  firstMissing,
  isSound,
  type Announcement,
  type Transfer,
} from './transfer.ts';

/**
 * The transfers going on or just over, by channel * 65536 + sender * 256 + receiver (255: all): J1939-21 allows one at a time for each.
 * Oldest touched first. An immutable value of at most MOST_TRANSFERS transfers of 1785 bytes.
 */
export interface TransportState {
  readonly transfers: ReadonlyMap<number, Transfer>;
}

export const START_TRANSPORT: TransportState = { transfers: new Map() };

/** More than a bus with its few dozen controllers ever has at once; what floods beyond it pushes out the oldest. */
export const MOST_TRANSFERS = 64;

/** What a batch of frames brought: messages in the order in which they became whole, and transfers that did not. */
export interface Collected {
  readonly state: TransportState;
  readonly messages: readonly BusMessage[];
  readonly broken: readonly BrokenTransfer[];
}

const IGNORED = 0;
const SINGLE = 1;
const CONTROL = 2;
const PACKET = 3;

/** Groups that are given as messages also when they come in one frame; the rest of the traffic goes to decodeFrames. */
const SINGLES = [
  PGN.activeCodes,
  PGN.previousCodes,
  PGN.vin,
  PGN.component,
  PGN.software,
  PGN.ecu,
  PGN.acknowledgement,
  PGN.addressClaim,
];

/** What to do with a frame by bits 25 to 8 of its identifier: one look-up a frame. Bit 25 set (not J1939) is ignored. Never written to. */
const HANDLING = handlingTable();

function handlingTable(): Uint8Array {
  const table = new Uint8Array(0x40000);
  const mark = (pgn: number, handling: number) =>
    table.fill(handling, pgn, ((pgn >>> 8) & 0xff) < 240 ? pgn + 256 : pgn + 1);
  for (const pgn of SINGLES) mark(pgn, SINGLE);
  mark(PGN.transportControl, CONTROL);
  mark(PGN.transportData, PACKET);
  return table;
}

const KINDS = FRAME_EXTENDED | FRAME_REMOTE | FRAME_ERROR | FRAME_SENT;

/** A frame of the transport protocol, or one that is a message by itself. */
interface Heard {
  readonly atMs: number;
  readonly channel: number;
  readonly source: number;
  readonly destination: number;
  readonly pgn: number;
  readonly data: Uint8Array;
}

/** The state being built within one call; the map is copied before the first change. */
interface Draft {
  transfers: Map<number, Transfer>;
  owned: boolean;
  readonly messages: BusMessage[];
  readonly broken: BrokenTransfer[];
}

const draftOf = (state: TransportState): Draft => ({
  transfers: state.transfers as Map<number, Transfer>,
  owned: false,
  messages: [],
  broken: [],
});

function collected(state: TransportState, draft: Draft): Collected {
  draft.broken.sort((a, b) => a.atMs - b.atMs);
  return {
    state: draft.owned ? { transfers: draft.transfers } : state,
    messages: draft.messages,
    broken: draft.broken,
  };
}

/**
 * Joins the multi-packet messages in a batch of frames as a listener that sends nothing (J1939-21: BAM, RTS/CTS, Abort), and passes on the
 * messages of SINGLES that come in one frame. Both sides of an RTS/CTS transfer may be heard or the sender alone; packets that
 * are sent again are taken. Everything that was announced and did not arrive whole is reported once. Time is the frames' own: frames
 * without time (NaN) never time out. Never throws; the same frames give the same however they are cut into batches.
 */
export function collectMessages(state: TransportState, batch: FrameBatch): Collected {
  const draft = draftOf(state);
  if (batch.breakBefore) endAll(draft);
  const { count, id, flags } = batch;
  for (let frame = 0; frame < count; frame++) {
    const handling = HANDLING[(id[frame]! >>> 8) & 0x3ffff]!;
    if (handling !== IGNORED && (flags[frame]! & KINDS) === FRAME_EXTENDED)
      take(draft, heardAt(batch, frame), handling);
  }
  sweep(draft, batch.atMs.findLast((atMs) => !Number.isNaN(atMs)) ?? NaN);
  return collected(state, draft);
}

/** Reports the transfers that have been silent too long at `nowMs`, on the frames' own clock, although no frame came since. */
export function expireTransfers(state: TransportState, nowMs: number): Pick<Collected, 'state' | 'broken'> {
  const draft = draftOf(state);
  sweep(draft, nowMs);
  return collected(state, draft);
}

function heardAt(batch: FrameBatch, frame: number): Heard {
  const id = batch.id[frame]!;
  const group = (id >>> 8) & 0x3ffff;
  const toOne = ((group >>> 8) & 0xff) < 240;
  const from = 8 * frame;
  return {
    atMs: batch.atMs[frame]!,
    channel: batch.channel[frame]!,
    source: id & 0xff,
    destination: toOne ? group & 0xff : GLOBAL_ADDRESS,
    pgn: toOne ? group & 0x3ff00 : group,
    data: batch.data.subarray(from, from + Math.min(batch.length[frame]!, 8)),
  };
}

function take(draft: Draft, heard: Heard, handling: number): void {
  if (handling === SINGLE)
    draft.messages.push({
      atMs: millis(heard.atMs),
      pgn: heard.pgn,
      origin: heard.channel * 256 + heard.source,
      destination: heard.destination,
      data: heard.data.slice(),
      carriage: 'single',
    });
  else if (handling === PACKET) takePacket(draft, heard);
  else takeControl(draft, heard);
}

/** Key of the transfer that the one who speaks sends to the one spoken to; `back`: of the one that he receives. */
const keyOf = ({ channel, source, destination }: Heard): number =>
  channel * 65536 + source * 256 + destination;
const backKeyOf = ({ channel, source, destination }: Heard): number =>
  channel * 65536 + destination * 256 + source;

function takeControl(draft: Draft, heard: Heard): void {
  const control = readControl(heard.data);
  switch (control?.kind) {
    case undefined:
      return;
    case 'rts':
    case 'bam':
      return announce(draft, heard, control);
    case 'cts':
    case 'end':
      return takeReply(draft, heard, control);
    case 'abort':
      return takeAbort(draft, heard, control);
  }
}

function announce(draft: Draft, heard: Heard, announced: Announcement): void {
  const { atMs } = heard;
  const key = keyOf(heard);
  const before = current(draft, key, atMs);
  if (before?.phase === 'running') breakOff(draft, key, before, { reason: 'replaced', atMs });
  if (isSound(announced, heard.destination)) return put(draft, key, begin(announced, atMs));
  const pgn = announced.pgn <= 0x3ffff ? announced.pgn : null;
  const unsound = { ...beginUnknown(pgn, atMs), expected: announced.packets };
  breakOff(draft, key, unsound, { reason: 'bad announcement', atMs });
}

function takePacket(draft: Draft, heard: Heard): void {
  const { atMs, data } = heard;
  if (data.length === 0) return;
  const key = keyOf(heard);
  const before = current(draft, key, atMs);
  if (!before)
    return breakOff(draft, key, { ...beginUnknown(null, atMs), arrived: 1 }, { reason: 'no session', atMs });
  if (before.phase === 'over') return put(draft, key, { ...before, lastAtMs: atMs });
  const after = addPacket(before, data, atMs);
  if (!after) return breakOff(draft, key, before, { reason: 'out of sequence', atMs });
  if (after.arrived < after.expected) return put(draft, key, after);
  draft.messages.push({
    atMs: millis(atMs),
    pgn: after.pgn!,
    origin: heard.channel * 256 + heard.source,
    destination: heard.destination,
    data: after.data.slice(0, after.sizeBytes),
    carriage: after.kind,
  });
  put(draft, key, end(after, atMs));
}

/** The receiver speaks: it asks for packets or holds (CTS), or it has all (EndOfMsgAck). */
function takeReply(
  draft: Draft,
  heard: Heard,
  reply: { readonly kind: 'cts' | 'end'; readonly packets: number; readonly pgn: number },
): void {
  const { atMs } = heard;
  const key = backKeyOf(heard);
  const before = current(draft, key, atMs);
  if (!before) {
    const unheard = { ...beginUnknown(reply.pgn & 0x3ffff, atMs), kind: 'rts' as const };
    const expected = reply.kind === 'end' ? reply.packets : 0;
    return breakOff(draft, key, { ...unheard, expected }, { reason: 'no session', atMs });
  }
  const concerns = before.phase === 'over' || before.pgn === reply.pgn;
  if (!concerns) return;
  if (before.phase === 'running' && reply.kind === 'end')
    return breakOff(draft, key, before, { reason: 'out of sequence', atMs }); // the receiver heard packets that we did not
  put(draft, key, { ...before, lastAtMs: atMs });
}

function takeAbort(
  draft: Draft,
  heard: Heard,
  abort: { readonly reason: number; readonly pgn: number },
): void {
  const { atMs } = heard;
  const why = { reason: 'aborted' as const, atMs, abortReason: abort.reason };
  const keys = [keyOf(heard), backKeyOf(heard)];
  const found = keys.map((key) => ({ key, transfer: current(draft, key, atMs) }));
  for (const { key, transfer } of found)
    if (transfer?.phase === 'running' && transfer.pgn === abort.pgn)
      return breakOff(draft, key, transfer, why);
  if (found.some(({ transfer }) => transfer?.phase === 'over')) return;
  // An Abort of something whose announcement was not heard.
  const unheard = beginUnknown(abort.pgn & 0x3ffff, atMs);
  report(draft, keys[0]!, unheard, why);
  if (!found[0]!.transfer) put(draft, keys[0]!, unheard);
}

interface Why {
  readonly reason: BrokenReason;
  readonly atMs: number;
  readonly abortReason?: number;
}

function report(draft: Draft, key: number, transfer: Transfer, { reason, atMs, abortReason }: Why): void {
  const missing = firstMissing(transfer);
  draft.broken.push({
    atMs: millis(atMs),
    pgn: transfer.pgn,
    origin: key >>> 8,
    destination: key & 0xff,
    reason,
    packets: transfer.arrived,
    expected: transfer.expected,
    abortReason: abortReason ?? null,
    ...(missing !== null && { firstMissing: missing }),
  });
}

function breakOff(draft: Draft, key: number, transfer: Transfer, why: Why): void {
  report(draft, key, transfer, why);
  put(draft, key, end(transfer, why.atMs));
}

/** The transfer at a key at an instant: one that has been silent too long by then is over, one long over is forgotten. */
function current(draft: Draft, key: number, atMs: number): Transfer | undefined {
  const transfer = draft.transfers.get(key);
  return transfer && atMs > deadlineMs(transfer) ? expire(draft, key, transfer, atMs) : transfer;
}

/** The deadline itself is the instant of the break, so that it does not matter when someone looks. */
function expire(draft: Draft, key: number, transfer: Transfer, atMs: number): Transfer | undefined {
  if (transfer.phase === 'running') {
    const over = end(transfer, deadlineMs(transfer));
    report(draft, key, transfer, { reason: 'timed out', atMs: over.lastAtMs });
    if (atMs <= deadlineMs(over)) {
      put(draft, key, over);
      return over;
    }
  }
  own(draft).delete(key);
  return undefined;
}

function sweep(draft: Draft, atMs: number): void {
  if (draft.transfers.size === 0) return;
  for (const [key, transfer] of [...draft.transfers])
    if (atMs > deadlineMs(transfer)) expire(draft, key, transfer, atMs);
}

/** Time is not continuous from here: nothing that was going on can be joined any more. */
function endAll(draft: Draft): void {
  for (const [key, transfer] of draft.transfers)
    if (transfer.phase === 'running')
      report(draft, key, transfer, { reason: 'timed out', atMs: transfer.lastAtMs });
  if (draft.transfers.size > 0) own(draft).clear();
}

function own(draft: Draft): Map<number, Transfer> {
  if (!draft.owned) draft.transfers = new Map(draft.transfers);
  draft.owned = true;
  return draft.transfers;
}

/** Keeps a transfer as the one touched last. When there are too many the oldest goes, one that is over before one going on. */
function put(draft: Draft, key: number, transfer: Transfer): void {
  const transfers = own(draft);
  transfers.delete(key);
  if (transfers.size >= MOST_TRANSFERS) sweep(draft, transfer.lastAtMs);
  if (transfers.size >= MOST_TRANSFERS) {
    const all = [...transfers];
    const [oldKey, old] = all.find(([, { phase }]) => phase === 'over') ?? all[0]!;
    if (old.phase === 'running') report(draft, oldKey, old, { reason: 'replaced', atMs: transfer.lastAtMs });
    transfers.delete(oldKey);
  }
  transfers.set(key, transfer);
}
