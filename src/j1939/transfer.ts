/** Bytes of a message in one data packet (J1939-21: byte 1 is the sequence number). */
export const PACKET_BYTES = 7;
const LEAST_BYTES = 9;
const MOST_BYTES = 1785; // 255 packets of 7

/** Silence after which a listener gives up a BAM: T1 of J1939-21. */
const BAM_SILENCE_MS = 750;
/**
 * Silence after which a listener gives up an RTS/CTS transfer: T3 of J1939-21 (1250 ms), after which the sender aborts, and the 200 ms (Tr)
 * that it may take to say so. With 1250 ms alone a listener runs a race against the sender's own Abort: in the recordings it
 * comes 1249.9 to 1300 ms after the unanswered RTS.
 */
const RTS_SILENCE_MS = 1450;
/** How long the rest of an RTS/CTS transfer that is over (packets sent again, the end acknowledgement) belongs to it: T2. */
const RTS_AFTERMATH_MS = 1250;

/** What was announced: by BAM to all (or, seen in practice, to one address), or by RTS to one. */
export interface Announcement {
  readonly kind: 'rts' | 'bam';
  readonly sizeBytes: number;
  readonly packets: number;
  readonly pgn: number;
}

/**
 * One transfer between two addresses. `over` ones stay for a while, without their bytes, so that what still comes of them is not taken
 * for something new. `has[i]` is 1 where packet i + 1 arrived; `data` holds them in place.
 */
export interface Transfer {
  readonly phase: 'running' | 'over';
  readonly kind: 'rts' | 'bam';
  readonly pgn: number | null;
  readonly sizeBytes: number;
  readonly expected: number;
  readonly arrived: number;
  readonly lastAtMs: number;
  readonly has: Uint8Array;
  readonly data: Uint8Array;
}

const NOTHING = new Uint8Array(0);

/** Whether size, number of packets and group agree with J1939-21. An RTS must go to one address. */
export function isSound({ kind, sizeBytes, packets, pgn }: Announcement, destination: number): boolean {
  const sized = sizeBytes >= LEAST_BYTES && sizeBytes <= MOST_BYTES;
  const counted = packets === Math.ceil(sizeBytes / PACKET_BYTES);
  return sized && counted && pgn <= 0x3ffff && (kind === 'bam' || destination !== 0xff);
}

/** A transfer of which nothing but its announcement has come. */
export const begin = (announced: Announcement, atMs: number): Transfer => ({
  phase: 'running',
  kind: announced.kind,
  pgn: announced.pgn,
  sizeBytes: announced.sizeBytes,
  expected: announced.packets,
  arrived: 0,
  lastAtMs: atMs,
  has: new Uint8Array(announced.packets),
  data: new Uint8Array(announced.packets * PACKET_BYTES),
});

/** The mark of a transfer of which only parts are heard, or whose announcement makes no sense. */
export const beginUnknown = (pgn: number | null, atMs: number): Transfer => ({
  phase: 'over',
  kind: 'bam',
  pgn,
  sizeBytes: 0,
  expected: 0,
  arrived: 0,
  lastAtMs: atMs,
  has: NOTHING,
  data: NOTHING,
});

/** The transfer is over, whole or broken: its bytes are let go. */
export const end = (transfer: Transfer, atMs: number): Transfer => ({
  ...transfer,
  phase: 'over',
  lastAtMs: atMs,
  has: NOTHING,
  data: NOTHING,
});

/** The instant from which on the transfer has been silent too long. NaN (no time): never. */
export function deadlineMs({ phase, kind, lastAtMs }: Transfer): number {
  if (kind === 'bam') return lastAtMs + BAM_SILENCE_MS;
  return lastAtMs + (phase === 'over' ? RTS_AFTERMATH_MS : RTS_SILENCE_MS);
}

/** A transfer with one packet more, or null where the packet cannot belong at this place. */
export function addPacket(transfer: Transfer, packet: Uint8Array, atMs: number): Transfer | null {
  const number = packet[0]!;
  if (number < 1 || number > transfer.expected) return null;
  const at = (number - 1) * PACKET_BYTES;
  // The end of a last packet is padding: it may be missing. Anything shorter is as good as not sent.
  const bytes = Math.min(PACKET_BYTES, transfer.sizeBytes - at);
  if (packet.length <= bytes) return { ...transfer, lastAtMs: atMs };
  const fits = transfer.kind === 'rts' || number === transfer.arrived + 1; // RTS: lost packets are sent again
  if (!fits) return isRepeat(transfer, packet) ? { ...transfer, lastAtMs: atMs } : null;
  const data = transfer.data.slice();
  data.set(packet.subarray(1, 1 + bytes), at);
  const has = transfer.has.slice();
  has[number - 1] = 1;
  return {
    ...transfer,
    arrived: transfer.arrived + (transfer.has[number - 1] === 1 ? 0 : 1),
    lastAtMs: atMs,
    has,
    data,
  };
}

/** The packet before once more, with the same bytes: an echo of the bridge, no break of the sequence. */
function isRepeat({ arrived, sizeBytes, data }: Transfer, packet: Uint8Array): boolean {
  if (packet[0] !== arrived) return false;
  const at = (arrived - 1) * PACKET_BYTES;
  for (let i = 0; i < Math.min(PACKET_BYTES, sizeBytes - at); i++)
    if (packet[i + 1] !== data[at + i]) return false;
  return true;
}

/** Number of the first packet that has not come; null where all have, or where nothing is known of the transfer. */
export function firstMissing({ has }: Transfer): number | null {
  const place = has.indexOf(0);
  return place < 0 ? null : place + 1;
}
