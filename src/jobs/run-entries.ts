import type { LimitSheet } from '../limits/limit-sheet.ts';
import type { SignalId } from '../quantities/reading.ts';
import type { IdentityField, RunEntry, StoredVessel } from './run-entry.ts';

type EntryOf<K extends RunEntry['kind']> = Extract<RunEntry, { kind: K }>;
type VolumeEntry = EntryOf<'volume'>;
type CodesEntry = EntryOf<'codes'>;

/** Edges of one crank as a person set them, ms; null where the data's own edge holds. */
export interface SetEdges {
  readonly startMs: number | null;
  readonly endMs: number | null;
  readonly reason: string;
}

/** One thing known of the vehicle, and who said it: an origin on the bus, or the person (null). */
export interface IdentityValue {
  readonly value: string;
  readonly from: 'bus' | 'typed';
  readonly origin: number | null;
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
  /** What is known of the vehicle: typed where something was typed, else what the bus said last. */
  readonly identity: ReadonlyMap<IdentityField, IdentityValue>;
  /** What the bus said last, also where something else was typed. */
  readonly heardIdentity: ReadonlyMap<IdentityField, IdentityValue>;
  /** The limit sheet taken in the run; null where the one that it began with still holds. */
  readonly sheet: LimitSheet | null;
  /** The trouble codes noted last. */
  readonly codes: CodesEntry | null;
  /** The value typed from an instrument that holds; null where none was, or it was taken back. */
  readonly value: EntryOf<'value'> | null;
  /** The collection clock as it was started or stopped last. */
  readonly stopwatch: EntryOf<'stopwatch'> | null;
  /** The collection time that was typed, ms; null where none was. */
  readonly collectedMs: number | null;
  /** The stretch that the person chose, with the reason. */
  readonly stretch: { readonly startMs: number; readonly endMs: number; readonly reason: string } | null;
  /** What was seen last at each point of an inspection. */
  readonly observations: ReadonlyMap<string, EntryOf<'observation'>>;
  readonly photos: readonly EntryOf<'photo'>[];
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
    identity: new Map(),
    heardIdentity: new Map(),
    sheet: null,
    codes: null,
    value: null,
    stopwatch: null,
    collectedMs: null,
    stretch: null,
    observations: new Map(),
    photos: [],
  };
}

/**
 * Folds a run's entries, in the order in which they were made, to what holds now.
 * @param speedOrigin the origin whose cranks are looked at: what was said of the cranks of another one stays out of it. Null
 * where it is not known; then all is taken.
 */
export function runValues(
  vessel: StoredVessel | null,
  entries: readonly RunEntry[],
  speedOrigin: number | null = null,
): RunValues {
  return entries
    .filter((entry) => speedOrigin === null || isMeantFor(entry, speedOrigin))
    .reduce(nextRunValues, startingValues(vessel));
}

function isMeantFor(entry: RunEntry, speedOrigin: number): boolean {
  if (entry.kind !== 'crank-left-out' && entry.kind !== 'crank-edge') return true;
  return entry.origin === undefined || entry.origin === speedOrigin;
}

/** The limit sheet that the run is judged on: the last one taken in it, else the copy made when it began; null without any. */
export const sheetInForce = (began: LimitSheet | null, values: RunValues): LimitSheet | null =>
  values.sheet ?? began;

/** What holds after one more entry. */
export function nextRunValues(values: RunValues, entry: RunEntry): RunValues {
  const change = CHANGES[entry.kind] as (values: RunValues, entry: RunEntry) => Partial<RunValues>;
  return { ...values, ...change(values, entry) };
}

/** What each kind of entry changes. */
const CHANGES: {
  readonly [K in RunEntry['kind']]: (values: RunValues, entry: EntryOf<K>) => Partial<RunValues>;
} = {
  'caution-ticked': ({ cautions }, { caution }) => ({ cautions: new Set([...cautions, caution]) }),
  volume: ({ volumes }, entry) => ({ volume: entry, volumes: [...volumes, entry] }),
  vessel: (_, { vessel }) => ({ vessel }),
  'crank-left-out': (values, { crank, leftOut, reason }) => ({
    leftOut: withKey(values.leftOut, crank, leftOut ? reason : null),
  }),
  'crank-edge': (values, entry) => ({
    edges: withKey(values.edges, entry.crank, movedEdges(values, entry)),
  }),
  'origin-chosen': ({ origins }, { signal, origin }) => ({ origins: withKey(origins, signal, origin) }),
  override: ({ overrides }, { code, holds, reason }) => ({
    overrides: withKey(overrides, code, holds ? reason : null),
  }),
  note: ({ notes }, { text }) => ({ notes: [...notes, text] }),
  interval: (_, { intervalMs }) => ({ givenIntervalMs: intervalMs }),
  identity: withIdentity,
  sheet: (_, { sheet }) => ({ sheet }),
  codes: (_, entry) => ({ codes: entry }),
  value: (_, entry) => ({ value: entry.value === null ? null : entry }),
  stopwatch: (_, entry) => ({ stopwatch: entry }),
  'collected-time': (_, { spanMs }) => ({ collectedMs: spanMs }),
  stretch: (_, { startMs, endMs, reason }) => ({
    stretch: startMs === null || endMs === null ? null : { startMs, endMs, reason },
  }),
  observation: ({ observations }, entry) => ({ observations: withKey(observations, entry.point, entry) }),
  photo: ({ photos }, entry) => ({ photos: [...photos, entry] }),
};

/** The total of the last volume typed, mL; null before one was typed. */
export function volumeMl(values: RunValues): number | null {
  return values.volume === null ? null : values.volume.readingsMl.reduce((sum, reading) => sum + reading, 0);
}

/** What was typed stands against all that the bus says later, until it is typed anew or taken back. */
function withIdentity(
  values: RunValues,
  { field, value, from, origin }: EntryOf<'identity'>,
): Pick<RunValues, 'identity' | 'heardIdentity'> {
  const said = value === '' ? null : { value, from, origin };
  const heardIdentity = from === 'bus' ? withKey(values.heardIdentity, field, said) : values.heardIdentity;
  const typed = from === 'typed' ? said : typedIdentity(values, field);
  const holds = typed ?? heardIdentity.get(field) ?? null;
  return { identity: withKey(values.identity, field, holds), heardIdentity };
}

function typedIdentity(values: RunValues, field: IdentityField): IdentityValue | null {
  const held = values.identity.get(field);
  return held?.from === 'typed' ? held : null;
}

function movedEdges(values: RunValues, entry: EntryOf<'crank-edge'>): SetEdges | null {
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
