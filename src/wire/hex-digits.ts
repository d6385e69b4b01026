function digitTable(): Int8Array {
  const table = new Int8Array(256).fill(-1);
  for (let digit = 0; digit < 16; digit++) {
    const text = digit.toString(16);
    table[text.charCodeAt(0)] = digit;
    table[text.toUpperCase().charCodeAt(0)] = digit;
  }
  return table;
}

/** Value of each byte read as a hexadecimal digit of either case; -1 for any other byte. Never written to. */
export const HEX_VALUE: Int8Array = digitTable();

/** The hexadecimal number in `bytes[start … end-1]` (at most 8 digits), or -1 if a byte is no digit. */
export function hexNumber(bytes: Uint8Array, start: number, end: number): number {
  let value = 0;
  for (let at = start; at < end; at++) {
    const digit = HEX_VALUE[bytes[at]!]!;
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
}
