import type { IdentityField, RunEntry } from '../jobs/run-entry.ts';

/** One entry of a run in a line: when, what, why. */
export function entryLine(entry: RunEntry): string {
  const why = entry.reason ? ` – ${entry.reason}` : '';
  const say = WHAT[entry.kind] as (entry: RunEntry) => string;
  return `${entry.atIso.slice(11, 19)} UTC  ${say(entry)}${why}`;
}

const FIELD_WORDS: Readonly<Record<IdentityField, string>> = {
  vin: 'VIN',
  make: 'make',
  model: 'model',
  serialNumber: 'engine serial number',
  unitNumber: 'unit number',
  engineHours: 'engine hours',
};

/** What each kind of entry says. */
const WHAT: { readonly [K in RunEntry['kind']]: (entry: Extract<RunEntry, { kind: K }>) => string } = {
  'caution-ticked': ({ caution }) => `caution read: ${caution}`,
  volume: ({ readingsMl, typed, photo }) =>
    `volume ${readingsMl.join(' + ')} mL (${photo ? 'read off a photograph' : `typed “${typed}”`})`,
  vessel: ({ vessel }) => `vessel: ${vessel.name}`,
  'crank-left-out': ({ crank, leftOut }) => `crank ${crank + 1} ${leftOut ? 'left out' : 'counts again'}`,
  'crank-edge': ({ crank, edge, atMs }) =>
    `${edge} of crank ${crank + 1} ${atMs === null ? 'set back' : 'set'}`,
  'origin-chosen': ({ signal, origin }) => `${signal} taken from address ${addressText(origin)}`,
  override: ({ code, holds }) => `${code} ${holds ? 'let stand' : 'no longer let stand'}`,
  note: ({ text }) => `note: ${text}`,
  interval: ({ intervalMs }) => `interval between speed readings: ${intervalMs} ms`,
  identity: ({ field, value, origin }) =>
    value === ''
      ? `${FIELD_WORDS[field]} taken back`
      : `${FIELD_WORDS[field]}: ${value} (${origin === null ? 'typed' : `from address ${addressText(origin)}`})`,
  sheet: ({ sheet }) => `limit sheet: ${sheet.title}, revision ${sheet.revision}`,
  value: ({ value, typed, instrument }) =>
    value === null
      ? 'typed value taken back'
      : `value ${typed}${instrument ? ` read off ${instrument}` : ''}`,
  stopwatch: ({ startMs, endMs }) =>
    endMs === null
      ? 'collection started'
      : `collection stopped after ${((endMs - startMs) / 1000).toFixed(1)} s`,
  'collected-time': ({ spanMs, typed }) =>
    spanMs === null ? 'typed collection time taken back' : `collection time: ${typed}`,
  stretch: ({ startMs, endMs }) =>
    startMs === null || endMs === null ? 'stretch set back' : 'stretch of the data chosen by hand',
  observation: ({ point, seen, note, photoIds: { length } }) =>
    `${point}: ${seen}${note ? `, ${note}` : ''}${length > 0 ? `, ${length} photograph${length > 1 ? 's' : ''}` : ''}`,
  photo: ({ note }) => `photograph kept${note ? `: ${note}` : ''}`,
  codes: ({ active, previous }) =>
    `trouble codes noted: ${codeCount(active)} active, ${codeCount(previous)} previously active`,
};

const codeCount = (reports: readonly { readonly codes: readonly unknown[] }[]): number =>
  reports.reduce((sum, { codes }) => sum + codes.length, 0);

/** The source address in an origin, as it is written: two hexadecimal digits. */
const addressText = (origin: number): string => (origin & 0xff).toString(16).toUpperCase().padStart(2, '0');
