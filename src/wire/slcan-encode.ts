/** A frame to be written. `data` has at most 8 bytes; a remote frame tells `length` and carries none. */
export interface SlcanFrame {
  readonly id: number;
  readonly extended: boolean;
  readonly remote: boolean;
  readonly length: number;
  readonly data: Uint8Array;
}

/** A stamp to be written after the data: milliseconds in 4 digits (modulo 60 000) or microseconds in 8. */
export type SlcanStamp =
  { readonly kind: 'ms'; readonly value: number } | { readonly kind: 'us'; readonly value: number };

/**
 * One frame as SLCAN bytes, CR included, capitals. Length is clamped to 0 … 8, the id to its width.
 * Source: can-text-formats.md, Part 1, "Received frames".
 */
export function encodeSlcanFrame(frame: SlcanFrame, stamp: SlcanStamp | null = null): Uint8Array {
  const { extended, remote } = frame;
  const length = Math.max(0, Math.min(8, Math.trunc(frame.length)));
  const letter = remote ? 'r' : 't';
  let text = extended ? letter.toUpperCase() : letter;
  text += extended ? digits(frame.id % 0x20000000, 8) : digits(frame.id % 0x800, 3);
  text += String(length);
  for (let i = 0; i < length && !remote; i++) text += digits(frame.data[i] ?? 0, 2);
  return encodeSlcanCommand(text + stampDigits(stamp));
}

function stampDigits(stamp: SlcanStamp | null): string {
  if (stamp === null) return '';
  const value = Math.floor(stamp.value);
  return stamp.kind === 'ms' ? digits(value % 60_000, 4) : digits(value % 3_600_000_000, 8);
}

/** A command (without its CR) as bytes, CR added. Only ASCII is meant. */
export function encodeSlcanCommand(command: string): Uint8Array {
  const bytes = new Uint8Array(command.length + 1);
  for (let i = 0; i < command.length; i++) bytes[i] = command.charCodeAt(i) & 0x7f;
  bytes[command.length] = 0x0d;
  return bytes;
}

const digits = (value: number, width: number): string =>
  value.toString(16).toUpperCase().padStart(width, '0');
