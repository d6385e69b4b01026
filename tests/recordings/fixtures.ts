import fc from 'fast-check';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { CATALOGUE, type ProblemCode } from '../../src/problems/catalogue.ts';
import { QUALITIES, SIGNAL_IDS } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { RECORDING_FORMAT, type RecordingHeader } from '../../src/recordings/recording.ts';

export const header = (id: string, change: Partial<RecordingHeader> = {}): RecordingHeader => ({
  formatVersion: RECORDING_FORMAT,
  id,
  source: 'web-serial',
  wire: 'slcan',
  device: 'bridge',
  startedAt: '2026-11-25T08:00:00.000Z',
  closed: false,
  givenIntervalMs: null,
  fileName: null,
  logPlan: null,
  ...change,
});

export const bytes = (atMs: number, ...values: number[]): LinkEvent => ({
  kind: 'bytes',
  atMs: millis(atMs),
  bytes: Uint8Array.from(values),
});

export const open = (atMs: number): LinkEvent => ({
  kind: 'open',
  atMs: millis(atMs),
  device: 'bridge',
  write: null,
});

const codes = Object.keys(CATALOGUE) as ProblemCode[];
const atMs = fc.double({ noNaN: true }).map(millis);
const context = fc.dictionary(
  fc.string().filter((key) => key !== '__proto__'),
  fc.oneof(fc.string(), fc.double()),
  {
    maxKeys: 3,
    noNullPrototype: true,
  },
);
const reading = fc.record({
  signal: fc.constantFrom(...SIGNAL_IDS),
  atMs,
  value: fc.option(fc.double()),
  quality: fc.constantFrom(...QUALITIES),
  origin: fc.integer({ min: -1, max: 65_535 }),
});

/** Any event that a source can deliver. */
export const anyEvent: fc.Arbitrary<LinkEvent> = fc.oneof(
  fc.record({ kind: fc.constant('open' as const), atMs, device: fc.string(), write: fc.constant(null) }),
  fc.record({ kind: fc.constant('bytes' as const), atMs, bytes: fc.uint8Array({ maxLength: 40 }) }),
  fc.record({ kind: fc.constant('reading' as const), atMs, reading }),
  fc.record({
    kind: fc.constant('gap' as const),
    atMs,
    problem: fc.record({ code: fc.constantFrom(...codes), context }),
  }),
);
