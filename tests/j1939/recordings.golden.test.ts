import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import type { SpnBatch } from '../../src/j1939/spn-batch.ts';
import { parameterOf } from '../../src/j1939/spn-table.ts';
import { hasRecordings, readRecording } from './fixtures/read-recording.ts';

/** Expected values: table "Facts of each file" of ../shared/data/j1939/README.md, computed there by other code. */
type Facts = readonly [
  what: string,
  spn: number,
  address: number,
  rows: number | null,
  min: number,
  max: number,
];

const FACTS: Readonly<Record<string, readonly Facts[]>> = {
  'truck-a-key-on-start-idle.log.gz': [
    ['speed', 190, 0x00, 12503, 0, 770.5],
    ['rail', 157, 0x00, 250, 0.199, 42.398],
    ['commanded rail', 5313, 0x00, 1251, 0, 41.957],
    ['supply pressure', 94, 0x00, 251, 0, 784],
    ['battery of the engine', 168, 0x00, null, 10.7, 13.9],
    ['battery of the cab', 168, 0x31, null, 10.75, 14.1],
    ['coolant', 110, 0x00, null, 15, 20],
    ['fuel temperature', 174, 0x00, null, 15, 16],
  ],
  'truck-a-full-drive-rpm-only.log.gz': [['speed', 190, 0x00, 30969, 0, 1307.5]],
  'truck-b-driving.txt.gz': [
    ['speed', 190, 0x00, 1499, 1147.25, 1786.125],
    ['rail', 157, 0x00, 60, 82.301, 126.352],
    ['commanded rail', 5313, 0x00, 300, 80.609, 135.336],
    ['battery of the engine', 168, 0x00, null, 13.95, 14.05],
    ['battery of the cab', 168, 0x31, null, 14.1, 14.1],
    ['coolant', 110, 0x00, null, 92, 93],
  ],
  'bench-c-vin-and-requests.log.gz': [
    ['speed', 190, 0x00, 8228, 0, 0],
    ['rail', 157, 0x00, 166, 0, 0],
    ['commanded rail', 5313, 0x00, 827, 0, 25],
    ['supply pressure', 94, 0x00, 166, 300, 300],
  ],
  'truck-d-key-on-no-rpm.log.gz': [['battery', 168, 0x21, null, 12.5, 12.8]],
  'engine-e-start-no-timestamps.txt': [
    ['speed', 190, 0x00, 495, 113.25, 2183.625],
    ['battery', 168, 0x00, null, 10.7, 13.1],
    ['coolant', 110, 0x00, null, 22, 22],
  ],
};

const batches = new Map<string, SpnBatch>();

function batchOf(name: string): SpnBatch {
  const batch = batches.get(name) ?? decodeFrames(readRecording(name));
  batches.set(name, batch);
  return batch;
}

function valuesOf(name: string, spn: number, address: number) {
  const batch = batchOf(name);
  const rows = Array.from({ length: batch.count }, (_, i) => i).filter(
    (i) => batch.parameter[i] === parameterOf(spn) && (batch.origin[i]! & 0xff) === address,
  );
  const values = rows.map((i) => batch.value[i]!).filter((value) => !Number.isNaN(value));
  const qualities = [0, 1, 2].map((quality) => rows.filter((i) => batch.quality[i] === quality).length);
  return { rows: rows.length, values, qualities };
}

for (const [name, facts] of Object.entries(FACTS)) {
  describe.skipIf(!hasRecordings)(name, () => {
    test.each(facts)('%s (SPN %i from address %i): %s frames, %f to %f', (...fact) => {
      const [, spn, address, rows, min, max] = fact;
      const found = valuesOf(name, spn, address);
      if (rows !== null) expect(found.rows).toBe(rows);
      expect(Math.min(...found.values)).toBeCloseTo(min, 3);
      expect(Math.max(...found.values)).toBeCloseTo(max, 3);
    });
  });
}

test.skipIf(!hasRecordings)('truck D: all 461 engine speeds of address 00 are not available', () => {
  const found = valuesOf('truck-d-key-on-no-rpm.log.gz', 190, 0);
  expect(found.qualities).toEqual([0, 0, 461]);
});

test.skipIf(!hasRecordings)('bench C: one supply pressure is valid and 165 are errors', () => {
  const found = valuesOf('bench-c-vin-and-requests.log.gz', 94, 0);
  expect(found.qualities).toEqual([1, 165, 0]);
});

test.skipIf(!hasRecordings)('SPN 164 and SPN 158 are not available in any frame of truck A', () => {
  for (const spn of [164, 158]) {
    const found = valuesOf('truck-a-key-on-start-idle.log.gz', spn, 0);
    expect([found.values, found.qualities[1]]).toEqual([[], 0]);
  }
});
