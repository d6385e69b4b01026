import { encodeSlcanFrame } from '../../src/wire/slcan-encode.ts';
import {
  CLOSED_DEVICE,
  hearHost,
  noticeFrame,
  passesOn,
  type SlcanDevice,
  type SlcanTraits,
} from './slcan-device.ts';
import { throughUart } from './uart-line.ts';

/** What a device does when it is not asked: nothing, or it prints lines. */
export type Printing = 'none' | 'candump' | 'json readings' | 'csv readings' | 'plain text' | 'junk';

/** A bridge as it lies in a shop: everything about it that a host does not know. Data. */
export interface ShopBridgeKind {
  readonly traits: SlcanTraits;
  /** Serial speed of its UART, baud; null: a USB device or a radio link, which takes any. */
  readonly serialBaud: number | null;
  /** False: it prints and hears nothing. */
  readonly slcan: boolean;
  readonly printing: Printing;
  /** Opening the port resets it (DTR): silent for this long, then `bootText`. Null: opening changes nothing. */
  readonly resetMs: number | null;
  readonly bootText: string;
  /** The bus says nothing before this time of the clock, ms. */
  readonly busWakesMs: number;
  /** The bridge has no power before this time of the clock, ms. */
  readonly powerMs: number;
  /** Says the state of the bus by itself, this often; null: never. */
  readonly statusEveryMs: number | null;
}

/** The bridge and where it stands. Replaced by each step. */
export interface ShopBridge {
  readonly kind: ShopBridgeKind;
  readonly device: SlcanDevice;
  readonly timeMs: number;
  /** Speaks from this time on. */
  readonly readyMs: number;
  readonly booted: boolean;
  /** Bytes waiting for the UART, which takes its time. */
  readonly queue: readonly number[];
  readonly sentBits: number;
}

/** Engine speed: PGN 61444 from address 00, every 10 ms. j1939.md, Parameters. */
const EEC1_ID = 0x0cf00400;
const EEC1_EVERY_MS = 10;
/** 151.25 rpm in bits of 0.125, low byte first, in bytes 4 and 5. J1939-71, SPN 190. */
const EEC1_DATA = Uint8Array.from([0xf0, 0xff, 0x7d, 0xba, 0x04, 0xff, 0xff, 0xff]);
const PRINT_EVERY_MS = 50;
/** Bytes that the device keeps for its UART; a line that does not fit is lost whole. */
const QUEUE_BYTES = 512;

export const createShopBridge = (kind: ShopBridgeKind): ShopBridge => ({
  kind,
  device: { ...CLOSED_DEVICE, traits: kind.traits },
  timeMs: 0,
  readyMs: kind.powerMs,
  booted: kind.resetMs === null,
  queue: [],
  sentBits: 0,
});

/** The host opens the port at `timeMs`: a board that is wired so starts afresh. */
export function openShopBridge(bridge: ShopBridge, timeMs: number): ShopBridge {
  const { kind } = bridge;
  const at = { ...bridge, timeMs, queue: [] };
  if (kind.resetMs === null) return at;
  const readyMs = Math.max(kind.powerMs, timeMs + kind.resetMs);
  return { ...at, device: { ...CLOSED_DEVICE, traits: kind.traits }, readyMs, booted: false };
}

/** Bytes that the host sent at its speed arrive. A silent device hears nothing. */
export function hearShopHost(bridge: ShopBridge, bytes: Uint8Array, hostBaud: number | null): ShopBridge {
  const { kind } = bridge;
  if (!kind.slcan || bridge.timeMs < bridge.readyMs) return bridge;
  const { device, reply } = hearHost(bridge.device, throughLineAt(bytes, hostBaud, kind.serialBaud));
  return enqueue({ ...bridge, device }, ascii(reply));
}

/** The bridge up to `timeMs` in steps of 1 ms, and what the host receives at its speed. */
export function stepShopBridge(
  bridge: ShopBridge,
  timeMs: number,
  hostBaud: number | null,
): { readonly bridge: ShopBridge; readonly toHost: Uint8Array; readonly framingErrors: number } {
  let next = bridge;
  const sent: number[] = [];
  while (next.timeMs < timeMs) {
    next = speak({ ...next, timeMs: next.timeMs + 1 });
    next = drain(next, sent);
  }
  const { serialBaud } = bridge.kind;
  const bytes = Uint8Array.from(sent);
  if (serialBaud === null || hostBaud === null) return { bridge: next, toHost: bytes, framingErrors: 0 };
  const read = throughUart(bytes, serialBaud, hostBaud);
  return { bridge: next, toHost: read.bytes, framingErrors: read.framingErrors };
}

const throughLineAt = (bytes: Uint8Array, from: number | null, to: number | null): Uint8Array =>
  from === null || to === null ? bytes : throughUart(bytes, from, to).bytes;

/** What the device says in the millisecond that has passed. */
function speak(bridge: ShopBridge): ShopBridge {
  const { kind, timeMs, readyMs } = bridge;
  if (timeMs < readyMs) return bridge;
  if (!bridge.booted) return enqueue({ ...bridge, booted: true }, ascii(kind.bootText));
  let next = bridge;
  if (timeMs >= kind.busWakesMs && timeMs % EEC1_EVERY_MS === 0) next = hearBus(next);
  if (kind.statusEveryMs !== null && timeMs % kind.statusEveryMs === 0)
    next = enqueue(next, ascii('sa000000\r'));
  if (timeMs % PRINT_EVERY_MS === 0) next = enqueue(next, ascii(printed(kind.printing, timeMs)));
  return next;
}

function hearBus(bridge: ShopBridge): ShopBridge {
  if (!bridge.kind.slcan) return bridge;
  const device = noticeFrame(bridge.device);
  if (!passesOn(device, EEC1_ID)) return { ...bridge, device };
  const frame = { id: EEC1_ID, extended: true, remote: false, length: 8, data: EEC1_DATA };
  const stamp = device.stamps ? ({ kind: 'ms', value: bridge.timeMs } as const) : null;
  return enqueue({ ...bridge, device }, encodeSlcanFrame(frame, stamp));
}

function printed(printing: Printing, timeMs: number): string {
  switch (printing) {
    case 'none':
      return '';
    case 'candump':
      return `(${(1589326646 + timeMs / 1000).toFixed(6)}) can0 0CF00400#F0FF7DBA04FFFFFF\n`;
    case 'json readings':
      return `{"engineSpeed": 151.25, "t": ${timeMs}}\r\n`;
    case 'csv readings':
      return `151.25,${timeMs}\r\n`;
    case 'plain text':
      return 'hello from the bench\r\n';
    case 'junk':
      return '\xf3\x80\x9e\x01\xfe\xe0\x8f\x00\xc3\x98\x1c\x06';
  }
}

const enqueue = (bridge: ShopBridge, bytes: ArrayLike<number>): ShopBridge =>
  bytes.length === 0 || bridge.queue.length + bytes.length > QUEUE_BYTES
    ? bridge
    : { ...bridge, queue: [...bridge.queue, ...Array.from(bytes)] };

/** What its UART gets out in one millisecond: 10 bits a byte. Without a UART all goes at once. */
function drain(bridge: ShopBridge, sent: number[]): ShopBridge {
  const { queue, kind } = bridge;
  if (queue.length === 0) return { ...bridge, sentBits: 0 };
  const bits = bridge.sentBits + (kind.serialBaud === null ? Infinity : kind.serialBaud / 1000);
  const count = Math.min(queue.length, Math.floor(bits / 10));
  sent.push(...queue.slice(0, count));
  const sentBits = count === queue.length ? 0 : bits - 10 * count;
  return { ...bridge, queue: queue.slice(count), sentBits };
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0xff);
