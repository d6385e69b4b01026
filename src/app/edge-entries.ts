import { readNumber } from '../ui/read-number.ts';
import type { WantedEntry } from './parts/entry-wanted.ts';

/** One crank with the edges that hold and those found, ms; `firstMs` is what seconds count from. */
export interface CrankEdges {
  /** From 0. */
  readonly place: number;
  /** Whose engine speed the crank was found in. */
  readonly origin: number;
  readonly firstMs: number;
  readonly startMs: number;
  readonly endMs: number;
  readonly foundStartMs: number;
  readonly foundEndMs: number;
}

export interface TypedEdges {
  readonly start: string;
  readonly end: string;
  readonly reason: string;
}

const SECONDS = { min: 0, max: null, unit: 's' } as const;

/** An edge as it stands in its field, s from the first data. */
export const edgeText = (atMs: number, firstMs: number): string => ((atMs - firstMs) / 1000).toFixed(2);

/** The entries that what was typed asks for: one for each edge whose text was changed; or why not, in plain words. */
export function edgeEntries(
  edges: CrankEdges,
  typed: TypedEdges,
): { readonly entries: readonly WantedEntry[] } | { readonly refusal: string } {
  const { firstMs, startMs, endMs } = edges;
  const start = placeOf(typed.start, startMs, firstMs);
  const end = placeOf(typed.end, endMs, firstMs);
  if ('refusal' in start) return { refusal: `Start: ${start.refusal}` };
  if ('refusal' in end) return { refusal: `End: ${end.refusal}` };
  if (end.atMs <= start.atMs) return { refusal: 'The end must lie after the start.' };
  const reason = typed.reason.trim();
  if (!start.moved && !end.moved) return { refusal: 'Neither edge was changed.' };
  if (reason === '') return { refusal: 'Say why the edges are set by hand.' };
  return {
    entries: [
      ...(start.moved ? [edgeEntry(edges, 'start', start.atMs, reason)] : []),
      ...(end.moved ? [edgeEntry(edges, 'end', end.atMs, reason)] : []),
    ],
  };
}

/** The entries that set the moved edges back to those found in the data. */
export function foundAgain(edges: CrankEdges): readonly WantedEntry[] {
  const reason = 'found edges again';
  return [
    ...(edges.startMs === edges.foundStartMs ? [] : [edgeEntry(edges, 'start', null, reason)]),
    ...(edges.endMs === edges.foundEndMs ? [] : [edgeEntry(edges, 'end', null, reason)]),
  ];
}

function edgeEntry(
  { place, origin, foundStartMs, foundEndMs }: CrankEdges,
  edge: 'start' | 'end',
  atMs: number | null,
  reason: string,
): WantedEntry {
  const foundMs = edge === 'start' ? foundStartMs : foundEndMs;
  return { kind: 'crank-edge', crank: place, origin, edge, foundMs, atMs, reason };
}

/** A text that was not touched keeps its edge to the last digit, not to the two decimals shown. */
function placeOf(text: string, nowMs: number, firstMs: number) {
  if (text.trim() === edgeText(nowMs, firstMs)) return { atMs: nowMs, moved: false };
  const read = readNumber(text, SECONDS);
  return 'refusal' in read ? read : { atMs: firstMs + read.value * 1000, moved: true };
}
