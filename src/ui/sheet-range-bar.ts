/** A range of serial numbers and the sheet that it belongs to. Null is an open end; `prefix` stands before both ends. */
export interface HeldRange {
  readonly prefix: string;
  readonly from: string | null;
  readonly to: string | null;
  /** What the person calls the sheet, e.g. "revision 3". */
  readonly sheet: string;
}

/** A piece of the bar: held by one sheet, held by none, or by several at once. */
export interface BarPiece {
  readonly kind: 'held' | 'gap' | 'overlap';
  /** Ends as printed; null is open. */
  readonly from: string | null;
  readonly to: string | null;
  readonly sheets: readonly string[];
}

/** The pieces of all ranges with one prefix, in order of serial number. */
export interface RangeBar {
  readonly prefix: string;
  readonly pieces: readonly BarPiece[];
}

/**
 * The bars of a family, one for each prefix: what is held, where nothing holds, where several hold. Serial numbers are whole numbers
 * after the prefix; a range whose end is no number stands in no bar. Nothing is said of what lies before the first and after the last range.
 */
export function rangeBars(ranges: readonly HeldRange[]): readonly RangeBar[] {
  const prefixes = [...new Set(ranges.map(({ prefix }) => prefix))].sort();
  return prefixes.flatMap((prefix) => {
    const spans = ranges.filter((range) => range.prefix === prefix).flatMap(spanOf);
    return spans.length === 0 ? [] : [{ prefix, pieces: piecesOf(spans) }];
  });
}

/** Both ends belong to a span; null is open. */
interface Span {
  readonly from: bigint | null;
  readonly to: bigint | null;
  readonly sheet: string;
}

function spanOf({ from, to, sheet }: HeldRange): readonly Span[] {
  const numbers = [from, to].every((end) => end === null || /^\d+$/.test(end.trim()));
  if (!numbers) return [];
  const span = {
    from: from === null ? null : BigInt(from.trim()),
    to: to === null ? null : BigInt(to.trim()),
    sheet,
  };
  return span.from !== null && span.to !== null && span.from > span.to ? [] : [span];
}

/** Cuts at every begin and just after every end; a piece is what lies between two cuts. */
function piecesOf(spans: readonly Span[]): readonly BarPiece[] {
  const cuts = [
    ...new Set(
      spans.flatMap(({ from, to }) => [from, to === null ? null : to + 1n].filter((cut) => cut !== null)),
    ),
  ].sort((a, b) => (a < b ? -1 : 1));
  const begins: (bigint | null)[] = [...(spans.some(({ from }) => from === null) ? [null] : []), ...cuts];
  const pieces = begins.flatMap((from, index) => {
    const next = begins[index + 1];
    const open = next === undefined || next === null;
    if (open && !spans.some(({ to }) => to === null)) return [];
    return [pieceOf(spans, from, open ? null : next - 1n)];
  });
  return pieces.reduce<readonly BarPiece[]>(joined, []);
}

function pieceOf(spans: readonly Span[], from: bigint | null, to: bigint | null): BarPiece {
  const inside = spans.filter(
    (span) =>
      (span.from === null || (from !== null && span.from <= from)) &&
      (span.to === null || (to !== null && span.to >= to)),
  );
  const sheets = [...new Set(inside.map(({ sheet }) => sheet))];
  const kind = sheets.length === 0 ? 'gap' : sheets.length === 1 ? 'held' : 'overlap';
  return { kind, from: from?.toString() ?? null, to: to?.toString() ?? null, sheets };
}

/** Two ranges of one sheet that touch are one piece. */
function joined(pieces: readonly BarPiece[], next: BarPiece): readonly BarPiece[] {
  const last = pieces.at(-1);
  if (!last || last.sheets.join('\n') !== next.sheets.join('\n')) return [...pieces, next];
  return pieces.with(-1, { ...last, to: next.to });
}

/** A piece in words, e.g. "No sheet holds from P501 to P599." */
export function pieceWords({ kind, from, to, sheets }: BarPiece, prefix: string): string {
  const span =
    from === null && to === null
      ? prefix === ''
        ? 'for every serial number'
        : `for every ${prefix}`
      : from === null
        ? `up to ${prefix}${to}`
        : to === null
          ? `from ${prefix}${from} on`
          : from === to
            ? `for ${prefix}${from}`
            : `from ${prefix}${from} to ${prefix}${to}`;
  if (kind === 'gap') return `No sheet holds ${span}.`;
  return kind === 'held' ? `${sheets[0]} holds ${span}.` : `${sheets.join(' and ')} hold at once ${span}.`;
}
