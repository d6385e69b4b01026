import type { SignalId } from '../quantities/reading.ts';
import type { RunEntry, StoredVessel } from './run-entry.ts';

type VolumeEntry = Extract<RunEntry, { kind: 'volume' }>;

/** Edges of one crank as a person set them, ms; null where the data's own edge holds. */
export interface SetEdges {
  readonly startMs: number | null;
  readonly endMs: number | null;
  readonly reason: string;
}

/** What holds in a run now, after all of its entries. */
export interface RunValues {
  readonly cautions: ReadonlySet<string>;
  /** The last volume typed. Earlier ones stand in `volumes`, oldest first. */
  readonly volume: VolumeEntry | null;
  readonly volumes: readonly VolumeEntry[];
  readonly vessel: StoredVessel | null;
  /** Cranks that do not count, by their place from 0, with the reason. */
  readonly leftOut: ReadonlyMap<number, string>;
  readonly edges: ReadonlyMap<number, SetEdges>;
  readonly origins: ReadonlyMap<SignalId, number>;
  readonly overrides: ReadonlyMap<string, string>;
  readonly notes: readonly string[];
  readonly givenIntervalMs: number | null;
}

/** The values at the start of a run with this vessel. */
export function startingValues(vessel: StoredVessel | null): RunValues {
  return {
    cautions: new Set(),
    volume: null,
    volumes: [],
    vessel,
    leftOut: new Map(),
    edges: new Map(),
    origins: new Map(),
    overrides: new Map(),
    notes: [],
    givenIntervalMs: null,
  };
}

/** Folds a run's entries, in the order in which they were made, to what holds now. */
export function runValues(vessel: StoredVessel | null, entries: readonly RunEntry[]): RunValues {
  return entries.reduce(nextRunValues, startingValues(vessel));
}

/** What holds after one more entry. */
export function nextRunValues(values: RunValues, entry: RunEntry): RunValues {
  switch (entry.kind) {
    case 'caution-ticked':
      return { ...values, cautions: new Set([...values.cautions, entry.caution]) };
    case 'volume':
      return { ...values, volume: entry, volumes: [...values.volumes, entry] };
    case 'vessel':
      return { ...values, vessel: entry.vessel };
    case 'crank-left-out':
      return {
        ...values,
        leftOut: withKey(values.leftOut, entry.crank, entry.leftOut ? entry.reason : null),
      };
    case 'crank-edge':
      return { ...values, edges: withKey(values.edges, entry.crank, movedEdges(values, entry)) };
    case 'origin-chosen':
      return { ...values, origins: withKey(values.origins, entry.signal, entry.origin) };
    case 'override':
      return {
        ...values,
        overrides: withKey(values.overrides, entry.code, entry.holds ? entry.reason : null),
      };
    case 'note':
      return { ...values, notes: [...values.notes, entry.text] };
    case 'interval':
      return { ...values, givenIntervalMs: entry.intervalMs };
  }
}

/** The total of the last volume typed, mL; null before one was typed. */
export function volumeMl(values: RunValues): number | null {
  return values.volume === null ? null : values.volume.readingsMl.reduce((sum, reading) => sum + reading, 0);
}

function movedEdges(values: RunValues, entry: Extract<RunEntry, { kind: 'crank-edge' }>): SetEdges | null {
  const before = values.edges.get(entry.crank) ?? { startMs: null, endMs: null, reason: '' };
  const moved = {
    ...before,
    [entry.edge === 'start' ? 'startMs' : 'endMs']: entry.atMs,
    reason: entry.reason,
  };
  return moved.startMs === null && moved.endMs === null ? null : moved;
}

/** A copy of the map with one key set, or taken out where the value is null. */
function withKey<K, V>(map: ReadonlyMap<K, V>, key: K, value: V | null): ReadonlyMap<K, V> {
  const copy = new Map(map);
  if (value === null) copy.delete(key);
  else copy.set(key, value);
  return copy;
}
