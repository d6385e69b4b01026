import { decodeText, type Encoding } from './decode-text.ts';

const ALL_BYTES = 1 << 19;
const HEAD_BYTES = 1 << 18;
const WINDOW_BYTES = 1 << 14;
const WINDOWS = 16;

/** Text of a log for planning: whole when short, else its head, and windows up to its end (each of whole lines). */
export interface SampleText {
  readonly head: string;
  readonly windows: readonly string[];
}

/** Samples a log so that planning costs the same for 1 MB and for 100 MB; a crank near the end is still seen. */
export function sampleText(bytes: Uint8Array, encoding: Encoding): SampleText {
  if (bytes.length <= ALL_BYTES) return { head: decodeText(bytes, encoding), windows: [] };
  const windows: string[] = [];
  for (let i = 1; i <= WINDOWS; i++) {
    const end = Math.floor((HEAD_BYTES + ((bytes.length - HEAD_BYTES) * i) / WINDOWS) / 2) * 2;
    const stop = i === WINDOWS ? bytes.length : end;
    const start = Math.floor((stop - WINDOW_BYTES) / 2) * 2;
    windows.push(wholeLines(decodeText(bytes.subarray(start, stop), encoding), i === WINDOWS));
  }
  const head = decodeText(bytes.subarray(0, HEAD_BYTES), encoding);
  return { head: head.slice(0, lastBreak(head) + 1), windows };
}

const lastBreak = (text: string): number => Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));

function wholeLines(text: string, toEnd: boolean): string {
  const first = text.search(/[\r\n]/);
  return first < 0 ? '' : text.slice(first + 1, toEnd ? undefined : lastBreak(text) + 1);
}
