import { problem, type Problem } from '../problems/problem.ts';

const MAGICS: readonly { readonly bytes: readonly number[]; readonly make: () => Problem }[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], make: () => problem('log.spreadsheet') }, // zip, and so xlsx and ods
  { bytes: [0x50, 0x4b, 0x05, 0x06], make: () => problem('log.spreadsheet') },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0], make: () => problem('log.spreadsheet') }, // compound file: xls
  { bytes: [0x1f, 0x8b], make: () => problem('log.compressed') },
  { bytes: [0x42, 0x5a, 0x68], make: () => problem('log.compressed') },
  { bytes: [0x37, 0x7a, 0xbc, 0xaf], make: () => problem('log.compressed') },
  { bytes: [0x25, 0x50, 0x44, 0x46], make: () => problem('log.not-text', { what: 'a PDF' }) },
  { bytes: [0x89, 0x50, 0x4e, 0x47], make: () => problem('log.not-text', { what: 'a picture' }) },
  { bytes: [0xff, 0xd8, 0xff], make: () => problem('log.not-text', { what: 'a picture' }) },
];

/** Why bytes are no text at all (a workbook, an archive, a picture), or null. Looks at the first bytes only. */
export function refuseNonText(bytes: Uint8Array): Problem | null {
  if (bytes.length === 0) return problem('log.empty', { name: '' });
  const magic = MAGICS.find((known) => known.bytes.every((byte, i) => bytes[i] === byte));
  return magic ? magic.make() : null;
}

/** Why decoded text is no table of cells: blank, control characters as in a binary file, HTML, XML, JSON; or null. */
export function refuseNonTable(text: string): Problem | null {
  const head = text.slice(0, 4096);
  if (text.trim() === '') return problem('log.empty', { name: '' });
  const controls = head.match(/[\u0000-\u0008\u000e-\u001f\ufffd]/g)?.length ?? 0;
  if (controls > 0.02 * head.length) return problem('log.not-text', { what: 'binary data' });
  if (/^\s*<(?:!doctype|html|head|body|table)/i.test(head))
    return problem('log.not-a-table', { what: 'a web page' });
  if (/^\s*<\?xml/i.test(head)) return problem('log.not-a-table', { what: 'XML' });
  return /^\s*(?:\{\s*"|\[\s*[[{])/.test(head) ? problem('log.not-a-table', { what: 'JSON' }) : null;
}
