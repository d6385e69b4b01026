/** In what a bridge differs from the original sort. Quirks: can-text-formats.md, Part 1. */
export interface SlcanTraits {
  /** What `V` is answered with; null: it is refused. */
  readonly version: string | null;
  /** False: neither CR nor BEL ever comes. */
  readonly acknowledges: boolean;
  /** `L`: listens only, is refused, or means something else (taken, and nothing is opened). */
  readonly listenCommand: 'listens' | 'refused' | 'other meaning';
  /** `M0` normal, `M1` silent, while closed. */
  readonly modes: boolean;
  /** An empty line carries out the last command again. */
  readonly repeats: boolean;
  /** Bit rate code of the bus it is plugged into; null: one that it has no code for. */
  readonly busCode: string | null;
}

export const ORIGINAL_TRAITS: SlcanTraits = {
  version: 'V1013',
  acknowledges: true,
  listenCommand: 'listens',
  modes: false,
  repeats: false,
  busCode: '5',
};

/**
 * The device side of SLCAN, as the original sort answers (can-text-formats.md, Part 1): settings only while closed,
 * frames only while open, CR for done and BEL for refused.
 */
export interface SlcanDevice {
  readonly traits: SlcanTraits;
  readonly silent: boolean;
  /** Kept only by a bridge that repeats it. */
  readonly lastCommand: string;
  /** Frames that the host had sent to the bus. */
  readonly transmitted: readonly string[];
  readonly channel: 'closed' | 'normal' | 'listen only';
  /** Bit rate code of S, `btr` for a timing of one's own, null before either: then it cannot be opened. */
  readonly bitrate: string | null;
  readonly stamps: boolean;
  readonly acceptanceCode: number;
  readonly acceptanceMask: number;
  readonly statusFlags: number;
  /** A command of which the CR has not come yet. */
  readonly pending: string;
}

const CR = '\r';
const BEL = '\x07';
const LONGEST_COMMAND = 32;
/** Bits 7 and 0 of the F reply. */
const BUS_ERROR = 0x80;
const RECEIVE_QUEUE_FULL = 0x01;
const SERIAL = 'NM101';
/** Usual timing registers of 250 kbit/s at 8 MHz (from memory). */
const TIMING_250K = '011C';

export const CLOSED_DEVICE: SlcanDevice = {
  traits: ORIGINAL_TRAITS,
  silent: false,
  lastCommand: '',
  transmitted: [],
  channel: 'closed',
  bitrate: null,
  stamps: false,
  acceptanceCode: 0,
  acceptanceMask: 0xffffffff,
  statusFlags: 0,
  pending: '',
};

export interface DeviceAnswer {
  readonly device: SlcanDevice;
  readonly reply: string;
}

/**
 * Bytes from the host, however cut. Any byte is taken: what is no command is refused when its CR comes.
 * A bare CR is answered with CR (flushing before a session).
 */
export function hearHost(device: SlcanDevice, bytes: Uint8Array): DeviceAnswer {
  let state = device;
  let reply = '';
  for (const byte of bytes) {
    if (byte === 13) {
      const answer = obey({ ...state, pending: '' }, state.pending);
      state = answer.device;
      reply += spoken(state.traits, answer.reply);
    } else if (byte !== 10 && state.pending.length <= LONGEST_COMMAND) {
      state = { ...state, pending: state.pending + String.fromCharCode(byte) };
    }
  }
  return { device: state, reply };
}

const done = (device: SlcanDevice): DeviceAnswer => ({ device, reply: CR });
const refused = (device: SlcanDevice): DeviceAnswer => ({ device, reply: BEL });

/** Bridges without acknowledgements say only what carries text. */
const spoken = ({ acknowledges }: SlcanTraits, reply: string): string =>
  acknowledges || /^[^\r\x07zZ]/.test(reply) ? reply : '';

function obey(device: SlcanDevice, command: string): DeviceAnswer {
  if (command === '' && device.traits.repeats && device.lastCommand !== '')
    return obey(device, device.lastCommand);
  if (command === '') return done(device);
  return carryOut(device.traits.repeats ? { ...device, lastCommand: command } : device, command);
}

function carryOut(device: SlcanDevice, command: string): DeviceAnswer {
  const { version } = device.traits;
  if (command.length > LONGEST_COMMAND) return refused(device);
  if (command === 'V' && version !== null) return { device, reply: version + CR };
  if (command === 'N') return { device, reply: SERIAL + CR };
  return device.channel === 'closed' ? obeyClosed(device, command) : obeyOpen(device, command);
}

function obeyClosed(device: SlcanDevice, command: string): DeviceAnswer {
  const setting = command.slice(1);
  if (command === 'O' || command === 'L') return open(device, command);
  if (device.traits.modes && /^M[01]$/.test(command)) return done({ ...device, silent: setting === '1' });
  if (/^S[0-8]$/.test(command)) return done({ ...device, bitrate: setting });
  if (/^s[0-9A-Fa-f]{4}$/.test(command)) {
    return done({ ...device, bitrate: setting.toUpperCase() === TIMING_250K ? '5' : 'btr' });
  }
  if (/^Z[01]$/.test(command)) return done({ ...device, stamps: setting === '1' });
  if (/^M[0-9A-Fa-f]{8}$/.test(command)) return done({ ...device, acceptanceCode: parseInt(setting, 16) });
  if (/^m[0-9A-Fa-f]{8}$/.test(command)) return done({ ...device, acceptanceMask: parseInt(setting, 16) });
  return refused(device); // C, F and frames need an open channel
}

function open(device: SlcanDevice, command: 'O' | 'L'): DeviceAnswer {
  const { listenCommand } = device.traits;
  if (command === 'L' && listenCommand === 'other meaning') return done(device);
  if (device.bitrate === null || (command === 'L' && listenCommand === 'refused')) return refused(device);
  const normal = command === 'O' && !device.silent;
  return done({ ...device, channel: normal ? 'normal' : 'listen only', statusFlags: 0 });
}

function obeyOpen(device: SlcanDevice, command: string): DeviceAnswer {
  if (command === 'C') return done({ ...device, channel: 'closed' });
  if (command === 'F') {
    const flags = device.statusFlags.toString(16).toUpperCase().padStart(2, '0');
    return { device: { ...device, statusFlags: 0 }, reply: `F${flags}${CR}` };
  }
  if (!isFrame(command) || device.channel !== 'normal') return refused(device);
  const transmitted = [...device.transmitted, command];
  return { device: { ...device, transmitted }, reply: (/^[TR]/.test(command) ? 'Z' : 'z') + CR };
}

/** A frame to send: `t123 2 AABB`, `T18EAFFF9 3 ECFE00`, or a remote one without data. */
function isFrame(command: string): boolean {
  const head = /^(?:[tr][0-7][0-9A-Fa-f]{2}|[TR][01][0-9A-Fa-f]{7})([0-8])([0-9A-Fa-f]*)$/.exec(command);
  if (head === null) return false;
  const expected = /^[tT]/.test(command) ? 2 * Number(head[1]) : 0;
  return (head[2] ?? '').length === expected;
}

/**
 * Whether the device passes a 29-bit frame of the bus on to the host now. At a wrong bit rate it hears errors only.
 * Acceptance: dual filter on identifier bits 28 to 13 against either half of code and mask; a mask bit of 1 does not
 * care (SJA1000 data sheet, from memory).
 */
export function passesOn(device: SlcanDevice, id: number): boolean {
  if (device.channel === 'closed' || device.bitrate !== device.traits.busCode) return false;
  const top = (id >>> 13) & 0xffff;
  const differs = (half: number): boolean =>
    (((device.acceptanceCode >>> half) ^ top) & ~(device.acceptanceMask >>> half) & 0xffff) !== 0;
  return !differs(16) || !differs(0);
}

/** A frame went by on the bus: at a wrong bit rate it leaves the bus error flag. */
export const noticeFrame = (device: SlcanDevice): SlcanDevice =>
  device.channel !== 'closed' &&
  device.bitrate !== device.traits.busCode &&
  (device.statusFlags & BUS_ERROR) === 0
    ? { ...device, statusFlags: device.statusFlags | BUS_ERROR }
    : device;

/** Frames were lost because the host did not fetch them. */
export const noticeOverrun = (device: SlcanDevice): SlcanDevice => ({
  ...device,
  statusFlags: device.statusFlags | RECEIVE_QUEUE_FULL,
});
