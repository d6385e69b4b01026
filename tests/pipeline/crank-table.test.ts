import { describe, expect, it } from 'vitest';
import { conditionValues } from '../../src/pipeline/condition-values.ts';
import { crankTable, joinedAverage } from '../../src/pipeline/crank-table.ts';
import { giveTime, GIVEN_TIME_START } from '../../src/pipeline/give-time.ts';
import { startPipeline, stepPipeline, type PipelineState } from '../../src/pipeline/pipeline.ts';
import { SIGNAL_IDS, type SignalId } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import type { ReadingBatch } from '../../src/signals/reading-batch.ts';
import {
  ascii,
  CANDUMP,
  eec1Line,
  INTERVAL_MS,
  linesOf,
  readPieces,
  tableOf,
  TWO_CRANKS,
} from './fixtures/eec1-log.ts';

const state = readPieces([ascii(linesOf(TWO_CRANKS).join(''))]);

describe('crankTable', () => {
  it('has no origin, no phase and no crank before any speed came', () => {
    const empty = crankTable(startPipeline(CANDUMP), { over: true });
    expect(empty).toEqual({ origin: null, phase: 'noData', cranks: [], underWay: null });
  });

  it('averages between edges that a person set, and takes the time from them', () => {
    const found = tableOf(state).cranks;
    const startMs = found[0]!.startMs + 500;
    const endMs = found[0]!.endMs - 500;
    const { cranks } = crankTable(state, { over: true, edges: new Map([[0, { startMs, endMs }]]) });
    expect(cranks[0]).toMatchObject({ startMs, endMs, crank: found[0]!.crank });
    expect(cranks[0]!.time.spanMs).toBeCloseTo(endMs - startMs, 9);
    expect(cranks[0]!.average.samples).toBeLessThan(found[0]!.average.samples - 45);
    expect(cranks[1]).toEqual(found[1]);
  });

  it('leaves the found edge where only the other one was set', () => {
    const found = tableOf(state).cranks[1]!;
    const { cranks } = crankTable(state, {
      over: true,
      edges: new Map([[1, { startMs: null, endMs: found.endMs - 300 }]]),
    });
    expect(cranks[1]).toMatchObject({ startMs: found.startMs, endMs: found.endMs - 300 });
  });

  it('shows a crank under way with its running average, and as cut once the source is over', () => {
    const half = readPieces([ascii(linesOf(TWO_CRANKS.slice(0, 200)).join(''))]); // 2 s of rest, 2 s of cranking
    const live = crankTable(half, { over: false });
    expect(live).toMatchObject({ phase: 'cranking', cranks: [] });
    expect(live.underWay!.average.samples).toBe(100);
    expect(crankTable(half, { over: true })).toMatchObject({
      underWay: null,
      cranks: [{ crank: { endedBy: 'cut' } }],
    });
  });

  it('takes the speed of the engine, or of the origin that the person chose, and never mixes them', () => {
    const lines = TWO_CRANKS.flatMap((rpm, place) => [
      eec1Line(place * INTERVAL_MS, 0, 0x0b),
      eec1Line(place * INTERVAL_MS, rpm),
    ]);
    const both = readPieces([ascii(lines.join(''))]);
    expect(tableOf(both).origin).toBe(0);
    expect(tableOf(both).cranks).toEqual(tableOf(state).cranks);
    expect(crankTable(both, { over: true, origin: 0x0b })).toMatchObject({ origin: 0x0b, cranks: [] });
  });
});

describe('joinedAverage', () => {
  const { cranks } = tableOf(state);
  it('leaves out what the person left out, and is null when nothing counts', () => {
    expect(joinedAverage(cranks, new Map([[0, 'slipped']]))!.samples).toBe(cranks[1]!.average.samples);
    expect(joinedAverage(cranks, new Map())!.samples).toBe(
      cranks[0]!.average.samples + cranks[1]!.average.samples,
    );
    expect(
      joinedAverage(
        cranks,
        new Map([
          [0, 'a'],
          [1, 'b'],
        ]),
      ),
    ).toBeNull();
  });
});

describe('giveTime', () => {
  const batch = (rows: readonly (readonly [SignalId, number])[]): ReadingBatch => ({
    count: rows.length,
    signal: Uint8Array.from(rows, ([signal]) => SIGNAL_IDS.indexOf(signal)),
    atMs: new Float64Array(rows.length).fill(NaN),
    value: new Float64Array(rows.length),
    quality: new Uint8Array(rows.length),
    origin: Int32Array.from(rows, ([, origin]) => origin),
  });

  it('lets the speed readings of the first origin tick, and everything else stand at the tick before it', () => {
    const first = giveTime(
      GIVEN_TIME_START,
      batch([
        ['batteryVoltage', 0],
        ['engineSpeed', 3],
        ['engineSpeed', 5],
        ['engineSpeed', 3],
        ['railPressure', 0],
      ]),
      20,
    );
    expect([...first.batch.atMs]).toEqual([0, 0, 0, 20, 20]);
    const next = giveTime(
      first.given,
      batch([
        ['engineSpeed', 5],
        ['engineSpeed', 3],
      ]),
      20,
    );
    expect([...next.batch.atMs]).toEqual([20, 40]);
  });
});

describe('conditionValues', () => {
  const heard = (readings: readonly (readonly [number, number | null])[]): PipelineState =>
    readings.reduce(
      (before, [atMs, value]) =>
        stepPipeline(before, {
          kind: 'reading',
          atMs: millis(atMs),
          reading: {
            signal: 'fuelTemperature',
            atMs: millis(atMs),
            value,
            quality: value === null ? 'error' : 'valid',
            origin: 0,
          },
        }),
      startPipeline({ ...CANDUMP, wire: 'readings' }),
    );
  const cranks = [
    { startMs: 100, endMs: 200 },
    { startMs: 300, endMs: 400 },
  ];

  it('is the plain mean of the valid values within the cranks', () => {
    const values = conditionValues(
      heard([
        [50, 90],
        [100, 20],
        [150, null],
        [250, 90],
        [400, 30],
        [500, 90],
      ]),
      cranks,
    );
    expect(values.fuelTemperature).toBe(25);
    expect(values.coolantTemperature).toBeNull();
  });

  it('is the last valid value before the end of the last crank where none came within', () => {
    expect(
      conditionValues(
        heard([
          [10, 18],
          [20, 19],
          [250, null],
          [500, 40],
        ]),
        cranks,
      ).fuelTemperature,
    ).toBe(19);
    expect(conditionValues(heard([[500, 40]]), cranks).fuelTemperature).toBeNull();
  });
});
