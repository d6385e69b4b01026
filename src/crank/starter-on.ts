import { millis } from '../quantities/time.ts';
import { lowerBound } from '../signals/growing-trace.ts';
import type { TraceColumns } from '../signals/trace.ts';
import type { Crank, Edge, StartSign } from './crank.ts';

export interface StarterSigns {
  readonly battery: TraceColumns | null;
  readonly starterMode: TraceColumns | null;
}

/** The sign must come at 5 per second or more, with a quarter more for jitter (measurement.md section 2). */
const LONGEST_INTERVAL_MS = 250;
/** How far before the first speed a sign may lie: twice the usual late report. Common practice, no source. */
const LOOK_BACK_MS = 1500;
const LOOK_ON_MS = 500;
/** A starter draws hundreds of amperes; a smaller fall is lamps or heaters. Common practice, no source. */
const LEAST_FALL_PART = 0.05;

interface Row {
  readonly atMs: number;
  readonly value: number;
}

/**
 * The crank with the true start of the starter: where starter mode turns to 1 or 2 (SPN 1675: active), else where battery voltage (V) falls, if
 * either comes often enough and lies before the first speed. Otherwise the crank as it was. A crank cut at its start has none.
 */
export function withStarterOn(crank: Crank, { battery, starterMode }: StarterSigns): Crank {
  if (crank.cutAtStart) return crank;
  const found =
    modeEdge(rowsAround(starterMode, crank), crank) ?? fallEdge(rowsAround(battery, crank), crank);
  return found ? { ...crank, starterOn: found.edge, startSign: found.sign } : crank;
}

interface Found {
  readonly edge: Edge;
  readonly sign: StartSign;
}

function modeEdge(rows: readonly Row[], crank: Crank): Found | null {
  const active = ({ value }: Row) => value === 1 || value === 2;
  const at = rows.findIndex((row, place) => place > 0 && active(row) && !active(rows[place - 1]!));
  if (at < 1) return null;
  return earlier({ before: rows[at - 1]!, after: rows[at]! }, 0.5, crank, 'starter');
}

function fallEdge(rows: readonly Row[], crank: Crank): Found | null {
  const startMs = crank.start.atMs;
  const down = middle(rows.filter(({ atMs }) => atMs >= startMs));
  const rested = Math.max(...rows.filter(({ atMs }) => atMs < startMs).map(({ value }) => value));
  if (!(rested - down >= LEAST_FALL_PART * rested)) return null;
  const level = (rested + down) / 2;
  // The last rise above the level before the start: a dip from the glow plugs that recovered is not the starter.
  const last = rows.findLastIndex(({ atMs, value }) => atMs <= startMs && value >= level);
  const before = rows[last];
  const after = rows[last + 1];
  if (!before || !after) return null;
  return earlier({ before, after }, (before.value - level) / (before.value - after.value), crank, 'battery');
}

function earlier(
  { before, after }: { before: Row; after: Row },
  part: number,
  crank: Crank,
  sign: StartSign,
): Found | null {
  const spanMs = after.atMs - before.atMs;
  const atMs = before.atMs + part * spanMs;
  if (spanMs > LONGEST_INTERVAL_MS || !(atMs < crank.start.atMs)) return null;
  return { edge: { atMs: millis(atMs), standardUncertaintyMs: spanMs / Math.sqrt(12) }, sign };
}

/** The valid rows around the start; none where they come too seldom. */
function rowsAround(trace: TraceColumns | null, { start }: Crank): readonly Row[] {
  if (trace === null) return [];
  const rows: Row[] = [];
  const from = lowerBound(trace.atMs, trace.length, start.atMs - LOOK_BACK_MS);
  for (let place = from; place < trace.length; place++) {
    const atMs = trace.atMs[place]!;
    const value = trace.value[place]!;
    if (atMs > start.atMs + LOOK_ON_MS) break;
    if (Number.isFinite(value)) rows.push({ atMs, value });
  }
  const first = rows[0]?.atMs ?? 0;
  const spanMs = (rows.at(-1)?.atMs ?? 0) - first;
  return rows.length >= 3 && spanMs / (rows.length - 1) <= LONGEST_INTERVAL_MS ? rows : [];
}

function middle(rows: readonly Row[]): number {
  const sorted = rows.map(({ value }) => value).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? NaN;
}
