import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { byteRate, healthView, readingsPerSecond, type HealthMeans } from '../../src/app/health-view.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { startPipeline, stepPipeline, type PipelineState } from '../../src/pipeline/pipeline.ts';
import type { Reading, SignalId } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { appendReading, createTraceSet, traceOf } from '../../src/signals/trace-set.ts';
import { ascii, eec1Line, readPieces } from '../pipeline/fixtures/eec1-log.ts';

const UNITS = { pressureUnit: 'bar', supplyUnit: 'kPa' } as const;
const means = (nowMs: number, change: Partial<HealthMeans> = {}): HealthMeans => ({
  nowMs,
  bitRate: null,
  bytesPerSecond: null,
  units: UNITS,
  ...change,
});
const reading = (signal: SignalId, atMs: number, value: number | null, origin = 0): LinkEvent => {
  const quality = value === null ? 'notAvailable' : 'valid';
  const said: Reading = { signal, atMs: millis(atMs), value, quality, origin };
  return { kind: 'reading', atMs: millis(atMs), reading: said };
};
const after = (...events: readonly LinkEvent[]): PipelineState =>
  events.reduce(
    stepPipeline,
    startPipeline({ wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null }),
  );
/** A reading every `everyMs` from 0 up to and with `untilMs`. */
const steady = (signal: SignalId, everyMs: number, untilMs: number, origin = 0): LinkEvent[] =>
  Array.from({ length: Math.floor(untilMs / everyMs) + 1 }, (_, place) =>
    reading(signal, place * everyMs, 100, origin),
  );
const signalsOf = (state: PipelineState, nowMs: number, change: Partial<HealthMeans> = {}) =>
  healthView(state, means(nowMs, change)).signals;

describe('the health of the link', () => {
  test('before anything came is all unknown', () => {
    expect(healthView(after(), means(0))).toMatchObject({
      framesPerSecond: null,
      busLoadPercent: null,
      malformed: 0,
      lost: null,
      brokenTransfers: 0,
      secondsSinceLast: null,
      addresses: [],
      signals: [],
    });
  });

  // 50 frames a second for two seconds from two addresses.
  const lines = Array.from({ length: 100 }, (_, place) => eec1Line(place * 20, 150, place % 2 === 0 ? 0 : 3));
  const log = readPieces([ascii(lines.join('')), ascii('nonsense\n')]);
  const endMs = 1_700_000_000_000 + 99 * 20;

  test('tells frames a second, and each address with who it usually is', () => {
    const { framesPerSecond, addresses } = healthView(log, means(endMs));
    expect(framesPerSecond).toBeGreaterThan(45);
    expect(framesPerSecond).toBeLessThan(55);
    expect(addresses.map(({ channel, address, name }) => [channel, address, name])).toEqual([
      [0, 0, 'engine 1'],
      [0, 3, 'transmission'],
    ]);
    for (const each of addresses) expect(each.framesPerSecond).toBeCloseTo(framesPerSecond! / 2, 5);
  });

  test('estimates the bus load as a range, where the bit rate is known', () => {
    // 8 data bytes, 29-bit identifier: 131 bits without stuffing (ISO 11898-1 frame fields), so 50 a second are 2.6 % of 250 kbit/s.
    const [least, most] = healthView(log, means(endMs, { bitRate: 250_000 })).busLoadPercent ?? [NaN, NaN];
    expect(least).toBeGreaterThan(2.3);
    expect(least).toBeLessThan(2.9);
    expect(most).toBeGreaterThan(least);
    expect(most).toBeLessThan(1.3 * least);
    const [, full] = healthView(log, means(endMs, { bitRate: 1000 })).busLoadPercent ?? [NaN, NaN];
    expect(full).toBe(100);
  });

  test('counts what was malformed, and does not claim that nothing was lost', () => {
    const { malformed, lost, secondsSinceLast } = healthView(log, means(endMs));
    expect(malformed).toBe(1);
    expect(lost).toBeNull();
    expect(secondsSinceLast).not.toBeNull();
    const told = { ...log, wire: { ...log.wire!, counts: { ...log.wire!.counts, lost: 7 } } };
    expect(healthView(told, means(endMs)).lost).toBe(7);
  });

  test('of a log without time has addresses and no rates', () => {
    const untimed = readPieces([ascii('can0 0CF00400#FFFFFF0000FFFFFF\n')]);
    const { framesPerSecond, addresses } = healthView(untimed, means(0, { bitRate: 250_000 }));
    expect(framesPerSecond).toBeNull();
    expect(addresses).toMatchObject([{ address: 0, framesPerSecond: NaN }]);
  });

  test('tells how long ago something came, and never less than nothing', () => {
    const state = after(reading('engineSpeed', 1000, 150));
    expect(healthView(state, means(3500)).secondsSinceLast).toBe(2.5);
    expect(healthView(state, means(500)).secondsSinceLast).toBe(0);
  });
});

describe('the health of a signal', () => {
  test('is told for each origin, the one that is used first', () => {
    const state = after(
      ...steady('batteryVoltage', 100, 1000, 0x31),
      ...steady('batteryVoltage', 100, 1000, 0),
      ...steady('engineSpeed', 100, 1000, 3),
      ...steady('engineSpeed', 100, 1000, 0),
    );
    const sources = (speedOrigin?: number) =>
      signalsOf(state, 1000, { speedOrigin }).map(({ label, source }) => `${label} ${source}`);
    expect(sources()).toEqual([
      'Engine speed 00',
      'Engine speed 03',
      'Battery voltage 00',
      'Battery voltage 31',
    ]);
    expect(sources(3).slice(0, 2)).toEqual(['Engine speed 03', 'Engine speed 00']);
  });

  test('has no source where sources have no addresses', () => {
    expect(signalsOf(after(reading('engineSpeed', 0, 1, -1)), 0)[0]?.source).toBe('');
  });

  test('shows its value in the person’s unit', () => {
    const state = after(
      reading('railPressure', 0, 25_000), // kPa
      reading('commandedRailPressure', 0, 25_000),
      reading('supplyPressure', 0, 400),
      reading('batteryVoltage', 0, 11.94),
    );
    const shown = (units: HealthMeans['units']) =>
      signalsOf(state, 0, { units }).map(({ value, unit }) => `${value} ${unit}`);
    expect(shown(UNITS)).toEqual(['250 bar', '250 bar', '400 kPa', '11.9 V']);
    // 1 bar = 100 kPa, 1 MPa = 1000 kPa (SI brochure, table 8)
    expect(shown({ pressureUnit: 'MPa', supplyUnit: 'bar' })).toEqual([
      '25.0 MPa',
      '25.0 MPa',
      '4.0 bar',
      '11.9 V',
    ]);
  });

  test('is fresh, then stale, then lost, with its age', () => {
    const state = after(...steady('engineSpeed', 100, 1000));
    const at = (nowMs: number) => signalsOf(state, nowMs).map((each) => [each.state, each.ageSeconds])[0];
    expect(at(1000)).toEqual(['fresh', 0]);
    expect(at(2500)).toEqual(['stale', 1.5]); // measurement.md 1: at least 1 s
    expect(at(12_000)).toEqual(['lost', 11]);
  });

  test('that says of itself that there is no number is not available, and shows none', () => {
    const state = after(reading('engineSpeed', 0, 150), reading('engineSpeed', 100, null));
    expect(signalsOf(state, 100)).toMatchObject([{ state: 'notAvailable', value: '–' }]);
    expect(signalsOf(state, 5000)).toMatchObject([{ state: 'stale' }]);
  });
});

describe('the rate of a signal', () => {
  const traceWith = (times: readonly number[]) =>
    traceOf(
      times.reduce(
        (set, atMs) =>
          appendReading(set, {
            signal: 'engineSpeed',
            atMs: millis(atMs),
            value: 1,
            quality: 'valid',
            origin: 0,
          }),
        createTraceSet(),
      ),
      'engineSpeed',
      0,
    );
  const every = (ms: number, count: number) => Array.from({ length: count }, (_, place) => place * ms);

  test('is not known below two readings', () => {
    expect(readingsPerSecond(traceWith([]), 0)).toBeNull();
    expect(readingsPerSecond(traceWith([5]), 5)).toBeNull();
  });

  test.each([
    [10, 100],
    [20, 50],
    [100, 10],
    [500, 2],
    [1000, 1],
  ])('of a reading every %d ms is %d a second, from the second second on', (ms, perSecond) => {
    const times = every(ms, 10_000 / ms + 1);
    for (const nowMs of [2000, 4000, 7000, 10_000])
      expect(readingsPerSecond(traceWith(times.filter((at) => at <= nowMs)), nowMs)).toBeCloseTo(
        perSecond,
        9,
      );
  });

  test('of one that comes seldom is that of its usual interval, not zero or twice it', () => {
    const times = every(4000, 6);
    for (const nowMs of [20_000, 21_000, 23_900])
      expect(readingsPerSecond(traceWith(times), nowMs)).toBe(0.25);
  });

  test('falls to zero once nothing comes any more', () => {
    const trace = traceWith(every(100, 101));
    expect(readingsPerSecond(trace, 12_500)).toBeCloseTo(5, 9); // 25 of its readings lie in the last 5 s
    expect(readingsPerSecond(trace, 60_000)).toBe(0);
  });

  test('of the first second does not run wild', () => {
    expect(readingsPerSecond(traceWith([0, 1, 2, 3]), 3)).toBe(4);
  });

  test('counts what a plain count counts', () => {
    const gaps = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 20, maxLength: 60 });
    fc.assert(
      fc.property(gaps, (steps) => {
        const times = steps.reduce<number[]>((all, step) => [...all, (all.at(-1) ?? 0) + step], []);
        const nowMs = times.at(-1)!;
        const spanMs = Math.min(5000, Math.max(1000, nowMs - times[0]!));
        const rows = times.filter((at) => at > nowMs - spanMs).length;
        fc.pre(rows >= 3);
        expect(readingsPerSecond(traceWith(times), nowMs)).toBeCloseTo((1000 * rows) / spanMs, 9);
      }),
    );
  });
});

describe('bytes a second', () => {
  test('are told anew once a second', () => {
    const first = byteRate(null, 100, 0);
    expect(first.perSecond).toBeNull();
    expect(byteRate(first, 5000, 999)).toBe(first);
    const second = byteRate(first, 4100, 2000);
    expect(second.perSecond).toBe(2000);
    expect(byteRate(second, 4100, 3000).perSecond).toBe(0);
  });

  test('begin anew with another source, and where the clock was set back', () => {
    const last = byteRate(byteRate(null, 0, 0), 4000, 1000);
    expect(byteRate(last, 10, 2500)).toEqual({ bytes: 10, sinceMs: 2500, perSecond: null });
    expect(byteRate(last, 5000, 500)).toEqual({ bytes: 5000, sinceMs: 500, perSecond: null });
  });
});
