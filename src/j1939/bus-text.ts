const STAR = 0x2a;
const PADDING = [0x00, 0xff, 0x20];
/** Stands visibly for each byte that is no printable ASCII. */
export const UNREADABLE = '\ufffd';

/**
 * Text out of bytes as controllers send it (J1939-71: ASCII 01 to FE, 00 error, FF not available): NUL, FF and spaces around it are
 * padding; what is not printable ASCII within it becomes U+FFFD. Plain characters, never markup. Null where nothing is left.
 */
export function busText(bytes: Uint8Array): string | null {
  let from = 0;
  let to = bytes.length;
  while (from < to && PADDING.includes(bytes[from]!)) from++;
  while (to > from && PADDING.includes(bytes[to - 1]!)) to--;
  if (from === to) return null;
  return Array.from(bytes.subarray(from, to), (byte) =>
    byte >= 0x20 && byte < 0x7f ? String.fromCharCode(byte) : UNREADABLE,
  ).join('');
}

/**
 * The texts between `*`, in order; empty ones null. What follows the last `*` counts only where it is a text: the final `*` is sometimes
 * missing, and padding sometimes follows it.
 */
export function starFields(bytes: Uint8Array): (string | null)[] {
  const fields: (string | null)[] = [];
  let from = 0;
  for (let at = 0; at < bytes.length; at++) {
    if (bytes[at] !== STAR) continue;
    fields.push(busText(bytes.subarray(from, at)));
    from = at + 1;
  }
  const last = busText(bytes.subarray(from));
  return last === null ? fields : [...fields, last];
}
