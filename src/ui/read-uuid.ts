/** The Bluetooth base UUID, in which short assigned numbers stand: Bluetooth Core Specification, Vol 3, Part B, 2.5.1. */
const BASE = '-0000-1000-8000-00805f9b34fb';

/**
 * Reads a Bluetooth UUID as a person copies it: 4 or 8 hexadecimal digits (with or without 0x), or all 32 with or without dashes
 * and braces.
 * @returns the whole UUID in small letters with dashes, or the reason in plain words why the text is none
 */
export function readUuid(text: string): { uuid: string } | { refusal: string } {
  const typed = text.trim();
  if (typed === '') return { refusal: 'Type the service’s UUID first.' };
  const digits = typed
    .replace(/^0x/i, '')
    .replace(/^\{(.*)\}$/, '$1')
    .toLowerCase();
  if (/[^0-9a-f-]/.test(digits)) return { refusal: 'A UUID has digits and the letters a to f only.' };
  if (/^([0-9a-f]{4}|[0-9a-f]{8})$/.test(digits)) return { uuid: digits.padStart(8, '0') + BASE };
  const parts = /^([0-9a-f]{8})-?([0-9a-f]{4})-?([0-9a-f]{4})-?([0-9a-f]{4})-?([0-9a-f]{12})$/.exec(digits);
  if (parts) return { uuid: parts.slice(1).join('-') };
  const count = digits.replaceAll('-', '').length;
  return {
    refusal:
      count === 32
        ? 'The dashes of a UUID stand after 8, 12, 16 and 20 digits.'
        : `A UUID has 4, 8 or 32 digits; this has ${count}.`,
  };
}
