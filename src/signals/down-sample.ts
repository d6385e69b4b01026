import { lowerBound } from './growing-trace.ts';
import type { TraceColumns } from './trace.ts';

/** What is to be drawn: the stretch of time, both ends included, and how many pixel columns it has. */
export interface DrawWindow {
  readonly fromMs: number;
  readonly toMs: number;
  readonly pixels: number;
  /** A longer interval between two rows is a hole in the line. */
  readonly staleMs: number;
}

/** Columns as the chart demands them: x ascending and unique, equal lengths, null for missing. */
export interface DrawColumns {
  readonly x: number[];
  readonly y: (number | null)[];
}

/**
 * Smallest and largest value of each pixel column at their own times, so that a spike is never averaged away. A column in which all rows
 * are missing, and a hole longer than `staleMs`, give one null. The row before the window and the one after it are drawn too, so that
 * the line reaches its edges. An empty or reversed window, or no pixels, gives no points.
 */
export function downSample(trace: TraceColumns, window: DrawWindow): DrawColumns {
  const drawn: DrawColumns = { x: [], y: [] };
  const { fromMs, toMs, pixels } = window;
  if (!(toMs >= fromMs) || !(pixels >= 1)) return drawn;
  const pen: Pen = { drawn, row: -1, hole: -1 };
  const first = lowerBound(trace.atMs, trace.length, fromMs);
  const lead = first > 0 && first < trace.length;
  if (lead) drawColumn(trace, pen, { first: first - 1, end: first, staleMs: window.staleMs });
  const end = drawInside(trace, pen, { window, first });
  const any = lead || end > first;
  if (any && end < trace.length)
    drawColumn(trace, pen, { first: end, end: end + 1, staleMs: window.staleMs });
  return drawn;
}

/** Draws the rows from `first` to the end of the window; gives the row after them. */
function drawInside(
  trace: TraceColumns,
  pen: Pen,
  { window, first }: { readonly window: DrawWindow; readonly first: number },
): number {
  const { atMs, length } = trace;
  const { fromMs, toMs, pixels, staleMs } = window;
  const width = (toMs - fromMs) / Math.floor(pixels);
  let row = first;
  while (row < length && atMs[row]! <= toMs) {
    const column = width > 0 ? Math.floor((atMs[row]! - fromMs) / width) : 0;
    const endMs = fromMs + (column + 1) * width;
    // The first row is always taken: rounding may put the column's end on it.
    let next = row + 1;
    while (next < length && atMs[next]! < endMs && atMs[next]! <= toMs) next++;
    drawColumn(trace, pen, { first: row, end: next, staleMs });
    row = next;
  }
  return row;
}

/** What was drawn, the last row drawn, and the last row that came after a hole. */
interface Pen {
  readonly drawn: DrawColumns;
  row: number;
  hole: number;
}

interface Column {
  readonly first: number;
  readonly end: number;
  readonly staleMs: number;
}

function drawColumn(trace: TraceColumns, pen: Pen, column: Column): void {
  const { first, end } = column;
  const extremes = extremesOf(trace, column);
  if (extremes.length === 0) {
    pen.hole = end - 1;
    return putNull(pen.drawn, trace.atMs[first]!);
  }
  const holes = holesOf(trace, column);
  for (const row of extremes) {
    pen.hole = Math.max(pen.hole, holes.findLast((each) => each <= row) ?? -1);
    putRow(trace, pen, row);
  }
  pen.hole = Math.max(pen.hole, holes.at(-1) ?? -1);
}

/** The rows of the smallest and the largest value in their order; one where they are the same, none without numbers. */
function extremesOf({ value }: TraceColumns, { first, end }: Column): readonly number[] {
  let low = -1;
  let high = -1;
  for (let row = first; row < end; row++) {
    const y = value[row]!;
    if (Number.isNaN(y)) continue;
    if (low < 0 || y < value[low]!) low = row;
    if (high < 0 || y > value[high]!) high = row;
  }
  if (low < 0) return [];
  return low === high ? [low] : [Math.min(low, high), Math.max(low, high)];
}

/** The rows that come after a hole. */
function holesOf({ atMs }: TraceColumns, { first, end, staleMs }: Column): readonly number[] {
  const holes: number[] = [];
  for (let row = Math.max(first, 1); row < end; row++)
    if (atMs[row]! - atMs[row - 1]! > staleMs) holes.push(row);
  return holes;
}

/** Two rows of one instant are kept apart by the smallest step of time that a double can tell: uPlot needs unique x. */
function putRow({ atMs, value }: TraceColumns, pen: Pen, row: number): void {
  const { x, y } = pen.drawn;
  const lastX = x.at(-1);
  if (lastX !== undefined && pen.hole > pen.row) putNull(pen.drawn, (lastX + atMs[row]!) / 2);
  const ends = x.at(-1) ?? -Infinity;
  x.push(atMs[row]! > ends ? atMs[row]! : nextAfter(ends));
  y.push(value[row]!);
  pen.row = row;
}

function putNull({ x, y }: DrawColumns, atMs: number): void {
  const ends = x.at(-1);
  if (ends === undefined || y.at(-1) === null || atMs <= ends) return;
  x.push(atMs);
  y.push(null);
}

const nextAfter = (at: number): number => at + Math.max(Number.MIN_VALUE, Math.abs(at) * Number.EPSILON);
