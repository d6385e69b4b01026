import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { SPN_TABLE } from '../../src/j1939/spn-table.ts';
import { canonicalUnit, dimensionOf } from '../../src/quantities/convert.ts';
import { NO_ORIGIN, SIGNAL_IDS, type Reading } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { SIGNALS } from '../../src/signals/catalogue.ts';
import { toReadings } from '../../src/signals/to-readings.ts';
import {
  appendReading,
  appendReadings,
  chosenOrigin,
  createTraceSet,
  latest,
  originsOf,
  traceOf,
} from '../../src/signals/trace-set.ts';
import { framesOf } from '../j1939/fixtures/read-recording.ts';

const at = (atMs: number, value: number | null, origin: number): Reading => ({
  signal: 'batteryVoltage',
  atMs: millis(atMs),
  value,
  quality: value === null ? 'notAvailable' : 'valid',
  origin,
});
const setOf = (...readings: Reading[]) => readings.reduce(appendReading, createTraceSet());

describe('the catalogue', () => {
  test('names each signal by its own parameter, in units of one dimension', () => {
    expect(new Set(SIGNAL_IDS.map((id) => SIGNALS[id].parameter)).size).toBe(SPN_TABLE.length);
    for (const id of SIGNAL_IDS) {
      const entry = SPN_TABLE[SIGNALS[id].parameter]!;
      expect(entry.spn).toBe(SIGNALS[id].spn);
      expect(dimensionOf(entry.unit)).toBe(SIGNALS[id].dimension);
      expect(dimensionOf(canonicalUnit(SIGNALS[id].dimension))).toBe(SIGNALS[id].dimension);
    }
  });

  test('the commanded rail pressure is SPN 5313, never SPN 164 (j1939.md, disagreement 1)', () => {
    expect(SIGNALS.commandedRailPressure.spn).toBe(5313);
    expect(SIGNALS.injectionControlPressure.spn).toBe(164);
  });
});

describe('toReadings', () => {
  test('rail pressure arrives in kPa: raw 9600h is 38400 / 256 = 150 MPa (j1939.md, PGN 65243)', () => {
    const readings = toReadings(decodeFrames(framesOf('(1) can0 18FEDB00#FFFF0096FFFFFFFF')));
    const row = [...readings.signal].indexOf(SIGNAL_IDS.indexOf('railPressure'));
    expect([readings.value[row], readings.atMs[row], readings.quality[row]]).toEqual([150_000, 1000, 0]);
  });

  test('an error stays without number', () => {
    const readings = toReadings(decodeFrames(framesOf('(1) can0 0CF00400#FFFFFF00FEFFFFFF')));
    const row = [...readings.signal].indexOf(SIGNAL_IDS.indexOf('engineSpeed'));
    expect([readings.value[row], readings.quality[row]]).toEqual([NaN, 1]);
  });
});

describe('a trace set', () => {
  test('keeps two addresses apart and lists them in the order heard', () => {
    const set = setOf(at(0, 14.1, 0x31), at(1, 12, 0), at(2, null, 0x0b));
    expect(originsOf(set, 'batteryVoltage')).toEqual([
      { origin: 0x31, everValid: true },
      { origin: 0, everValid: true },
      { origin: 0x0b, everValid: false },
    ]);
    expect([...traceOf(set, 'batteryVoltage', 0).value.subarray(0, 1)]).toEqual([12]);
    expect(originsOf(set, 'engineSpeed')).toEqual([]);
  });

  test.each([
    ['nobody', [], undefined, null],
    ["the person's choice, even without numbers", [at(0, 1, 0), at(0, null, 5)], 5, 5],
    ['not a choice that was never heard', [at(0, 1, 0)], 7, 0],
    ['the engine before lower addresses of other kinds', [at(0, 1, 3), at(0, 2, 256)], undefined, 256],
    [
      'the lowest with a number when the engine gives none',
      [at(0, null, 0), at(0, 1, 9), at(0, 1, 3)],
      undefined,
      3,
    ],
    ['the engine when nobody gives numbers', [at(0, null, 3), at(0, null, 0)], undefined, 0],
    ['the first heard when there is no engine either', [at(0, null, 9), at(0, null, 3)], undefined, 9],
    ['a source without addresses', [at(0, 1, NO_ORIGIN)], undefined, NO_ORIGIN],
  ] as const)('chooses %s', (_, readings, preference, expected) => {
    expect(chosenOrigin(setOf(...readings), 'batteryVoltage', preference)).toBe(expected);
  });

  test('the latest reading is that of the chosen origin, and null stays null', () => {
    const set = setOf(at(0, 12, 0), at(5, 14, 0x31), at(7, null, 0));
    expect(latest(set, 'batteryVoltage')).toEqual(at(7, null, 0));
    expect(latest(set, 'batteryVoltage', 0x31)).toEqual(at(5, 14, 0x31));
    expect(latest(set, 'fuelLevel')).toBeNull();
  });

  test('an older set still reads what it held', () => {
    const older = setOf(at(0, 12, 0));
    const newer = appendReading(older, at(1, 13, 0));
    const other = appendReading(older, at(1, 99, 0));
    expect(latest(older, 'batteryVoltage')?.value).toBe(12);
    expect(latest(newer, 'batteryVoltage')?.value).toBe(13);
    expect(latest(other, 'batteryVoltage')?.value).toBe(99);
  });

  test('a batch and single readings give the same traces; rows without time are left out', () => {
    const batch = toReadings(
      decodeFrames(framesOf('(1) can0 18FEF700#FFFFFFFFF200FFFF\ncan0 18FEF700#FFFFFFFF0000FFFF')),
    );
    const set = appendReadings(createTraceSet(), batch);
    expect(traceOf(set, 'batteryVoltage', 0).length).toBe(1);
    expect(latest(set, 'batteryVoltage')?.value).toBeCloseTo(12.1, 9);
  });
});

describe('rows without a time', () => {
  test('do not decide who was heard first', () => {
    const rows = [
      { atMs: NaN, origin: 5 },
      { atMs: 10, origin: 7 },
      { atMs: 20, origin: 5 },
    ];
    const set = appendReadings(createTraceSet(), {
      count: rows.length,
      signal: new Uint8Array(rows.length),
      atMs: Float64Array.from(rows, ({ atMs }) => atMs),
      value: new Float64Array(rows.length).fill(NaN),
      quality: new Uint8Array(rows.length).fill(2),
      origin: Int32Array.from(rows, ({ origin }) => origin),
    });
    expect(originsOf(set, 'engineSpeed').map(({ origin }) => origin)).toEqual([7, 5]);
    expect(chosenOrigin(set, 'engineSpeed')).toBe(7);
  });

  test('make no trace, alone or as a single reading', () => {
    const untimed = {
      signal: 'engineSpeed',
      atMs: millis(NaN),
      value: 1,
      quality: 'valid',
      origin: 5,
    } as const;
    expect(appendReading(createTraceSet(), untimed).traces.size).toBe(0);
  });
});
