/** What a receiver made of a stretch of a serial line. */
export interface Received {
  readonly bytes: Uint8Array;
  /** Stop bits that were low: the receiver knows that these bytes are wrong. */
  readonly framingErrors: number;
}

/** Start bit, 8 data bits, stop bit. */
const BITS = 10;

/**
 * Bytes sent without a pause at one speed, as a receiver at another speed takes them: 8 data bits, no parity, one stop bit.
 * The receiver does what a UART does: it waits for a falling edge, samples in the middle of each of its own bit times
 * (the start bit again first: a glitch is no start), least significant bit first, and delivers a byte even where the stop
 * bit is low. The line is high before and after. At the same speed the bytes come out as they went in.
 */
export function throughUart(bytes: Uint8Array, sentBaud: number, readBaud: number): Received {
  if (sentBaud === readBaud) return { bytes, framingErrors: 0 };
  const bitTime = sentBaud / readBaud; // of the receiver, in bit times of the sender
  const endTime = bytes.length * BITS;
  const read: number[] = [];
  let framingErrors = 0;
  let time = 0;
  for (;;) {
    const edge = nextFall(bytes, time);
    if (edge === null || edge >= endTime) break;
    const sample = (bit: number): number => levelAt(bytes, edge + (bit + 0.5) * bitTime);
    if (sample(0) === 1) {
      time = edge + 0.5 * bitTime;
      continue;
    }
    let byte = 0;
    for (let bit = 0; bit < 8; bit++) byte |= sample(bit + 1) << bit;
    if (sample(9) === 0) framingErrors++;
    read.push(byte);
    time = edge + 9.5 * bitTime;
  }
  return { bytes: Uint8Array.from(read), framingErrors };
}

/** Level of the line at a time in bit times of the sender. */
function levelAt(bytes: Uint8Array, time: number): 0 | 1 {
  const bit = Math.floor(time);
  const at = Math.floor(bit / BITS);
  if (bit < 0 || at >= bytes.length) return 1;
  const within = bit % BITS;
  if (within === 0) return 0;
  if (within === BITS - 1) return 1;
  return ((bytes[at]! >> (within - 1)) & 1) === 1 ? 1 : 0;
}

/** The next falling edge at or after a time: a bit boundary from high to low. */
function nextFall(bytes: Uint8Array, time: number): number | null {
  for (let bit = Math.ceil(time); bit < bytes.length * BITS; bit++)
    if (levelAt(bytes, bit) === 0 && levelAt(bytes, bit - 1) === 1) return bit;
  return null;
}
