import fc from 'fast-check';
import { of, Subject, throwError } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { TYPED_LIMITS, typedCranks, USUAL_LEVELS, type TypedCrank } from '../../adapters/typed-cranks.ts';
import { typedAdapter, type TypedReading } from '../../adapters/typed.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import { finishPipeline, startPipeline, stepPipeline } from '../../src/pipeline/pipeline.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { describeAdapter } from './describe-adapter.ts';
import { turns } from './fixtures/turns.ts';

/** Standard uncertainty of one edge: its samples 0.1 ms apart, rectangular (GUM 4.3.7). */
const EDGE_MS = 0.1 / Math.sqrt(12);

function eventsOf(rows: readonly TypedCrank[]): readonly LinkEvent[] {
  const events = typedCranks(rows);
  if (!events.ok) throw new Error(events.problem.code);
  return events.value;
}

/** What the very pipeline of every source makes of the rows. */
function found(rows: readonly TypedCrank[]) {
  const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;
  const state = finishPipeline(eventsOf(rows).reduce(stepPipeline, startPipeline(options)));
  return crankTable(state, { over: true }).cranks;
}

describe('cranks typed by hand', () => {
  const EXAMPLE = [
    { seconds: 14.8, rpm: 152 },
    { seconds: 15.1, rpm: 149.5 },
  ];

  test('are found as typed: two, released, at their speeds and times', () => {
    const cranks = found(EXAMPLE);
    expect(cranks).toHaveLength(2);
    cranks.forEach(({ crank, startMs, endMs, average }, place) => {
      const { seconds, rpm } = EXAMPLE[place]!;
      expect([crank.endedBy, crank.cutAtStart, crank.startSign]).toEqual(['released', false, 'speed']);
      expect(Math.abs(average.meanRpm - rpm)).toBeLessThan(0.1);
      expect(average.sampleMeanRpm).toBeCloseTo(rpm, 6); // as a spreadsheet has it
      expect([average.minRpm, average.maxRpm]).toEqual([rpm, rpm]);
      expect((endMs - startMs) / 1000).toBeCloseTo(seconds, 6);
      expect(average.coverage).toBeGreaterThan(0.99);
      expect(average.spikes).toBe(0);
    });
  });

  test('carry the doubt of a late report, which is more than a stopwatch is worth, and no spread of speed', () => {
    const stopwatchMs = Math.hypot(200, 200) / Math.sqrt(3); // +-0.2 s at each end: common practice, no source
    for (const { time, average } of found(EXAMPLE)) {
      expect(time.standardUncertaintyMs).toBeCloseTo(600 / Math.sqrt(3), 3); // measurement.md 2: 0 to 0.6 s, one-sided
      expect(time.standardUncertaintyMs).toBeGreaterThan(stopwatchMs);
      expect(average.standardUncertaintyRpm).toBeCloseTo(0.125 / Math.sqrt(12), 6); // SPN 190: 0.125 rpm a bit
    }
  });

  test('whatever they are, come out within 0.1 rpm and within the uncertainty of an edge', () => {
    const row = fc.record(
      {
        seconds: fc.double({ min: TYPED_LIMITS.leastSeconds, max: 40, noNaN: true }),
        rpm: fc.double({ min: 51, max: 399, noNaN: true }),
        restSeconds: fc.double({ min: 1, max: 90, noNaN: true }),
      },
      { requiredKeys: ['seconds', 'rpm'] },
    );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (rows) => {
        const cranks = found(rows);
        expect(cranks).toHaveLength(rows.length);
        cranks.forEach(({ crank, startMs, endMs, average }, place) => {
          const { seconds, rpm } = rows[place]!;
          expect(Math.abs(average.meanRpm - rpm)).toBeLessThan(0.1);
          expect(Math.abs(endMs - startMs - seconds * 1000)).toBeLessThan(EDGE_MS);
          expect(crank.start.standardUncertaintyMs).toBeCloseTo(EDGE_MS, 4);
          expect(crank.end.standardUncertaintyMs).toBeCloseTo(EDGE_MS, 4);
        });
      }),
      { numRuns: 60 },
    );
  });

  test('keep the pause that was noted between them', () => {
    const [first, second] = found([
      { seconds: 10, rpm: 150, restSeconds: 12 },
      { seconds: 10, rpm: 150 },
    ]);
    // the pause, and a sample at standstill on either side of it
    expect(second!.startMs - first!.endMs).toBeCloseTo(12_200, 0);
  });

  test('use the levels of the crank finder', () => {
    const { startRpm, endRpm, runningRpm } = DEFAULT_CRANK_SETTINGS;
    expect([USUAL_LEVELS, TYPED_LIMITS.belowRpm]).toEqual([{ startRpm, endRpm }, runningRpm]);
  });

  test.each([
    [[], 'device.typed-none'],
    [[{ seconds: -15, rpm: 150 }], 'device.typed-seconds'],
    [[{ seconds: 0, rpm: 150 }], 'device.typed-seconds'],
    [[{ seconds: 10_000, rpm: 150 }], 'device.typed-seconds'],
    [[{ seconds: NaN, rpm: 150 }], 'device.typed-seconds'],
    [[{ seconds: 15, rpm: -150 }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: 0 }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: 50 }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: 400 }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: 5000 }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: Infinity }], 'device.typed-rpm'],
    [[{ seconds: 15, rpm: 150, restSeconds: 0 }], 'device.typed-rest'],
    [[{ seconds: 15, rpm: 150, restSeconds: 1e9 }], 'device.typed-rest'],
  ] as const)('%j is %s', (rows, code) => {
    expect(typedCranks(rows)).toMatchObject({ ok: false, problem: { code } });
  });

  test('say which row is wrong', () => {
    const rows = [
      { seconds: 15, rpm: 150 },
      { seconds: 15, rpm: 5000 },
    ];
    expect(typedCranks(rows)).toMatchObject({ problem: { context: { row: 2, rpm: 5000 } } });
  });
});

describe('numbers typed one by one', () => {
  const type = (entries: readonly TypedReading[], times: readonly number[] = [0]) => {
    let asked = 0;
    const clock = () => millis(times[Math.min(asked++, times.length - 1)]!);
    const events: LinkEvent[] = [];
    let completed = false;
    const subscription = typedAdapter(of(...entries), clock)
      .open({ device: 'Typed numbers' })
      .subscribe({ next: (event) => events.push(event), complete: () => (completed = true) });
    subscription.unsubscribe();
    return { events, completed };
  };
  const kinds = (events: readonly LinkEvent[]) =>
    events.map((event) => (event.kind === 'gap' ? event.problem.code : event.kind));

  test('are stamped by the time given, else by the clock, and never run back', () => {
    const { events, completed } = type(
      [
        { signal: 'engineSpeed', value: 150 },
        { signal: 'railPressure', value: 20_000, atMs: 9_000 },
        { signal: 'engineSpeed', value: 151 },
        { signal: 'engineSpeed', value: 0, atMs: 12_000 },
      ],
      [1_000, 4_000, 5_000],
    );
    expect(events.map(({ atMs }) => atMs)).toEqual([1_000, 4_000, 9_000, 9_000, 12_000]);
    expect(events[1]).toMatchObject({
      kind: 'reading',
      reading: { signal: 'engineSpeed', value: 150, atMs: 4_000, quality: 'valid', origin: -1 },
    });
    expect(completed).toBe(true);
  });

  test.each([
    [{ signal: 'engineSpeed', value: NaN }, 'device.typed-value'],
    [{ signal: 'engineSpeed', value: -1 }, 'device.typed-value'],
    [{ signal: 'engineSpeed', value: 9_000 }, 'device.typed-value'],
    [{ signal: 'fuelTemperature', value: Infinity }, 'device.typed-value'],
    [{ signal: 'engineSpeed', value: 150, atMs: -5 }, 'device.typed-order'],
    [{ signal: 'engineSpeed', value: 150, atMs: NaN }, 'device.typed-order'],
    [{ signal: 'fuelTemperature', value: -20 }, 'reading'],
    [{ signal: 'engineSpeed', value: 0 }, 'reading'],
  ] as const)('%j gives %s, and the next is taken', (entry, kind) => {
    const { events } = type([entry, { signal: 'engineSpeed', value: 150 }]);
    expect(kinds(events)).toEqual(['open', kind, 'reading']);
  });

  test('whose source fails end with a problem', () => {
    const errors: Problem[] = [];
    const subscription = typedAdapter(
      throwError(() => 'gone'),
      () => millis(0),
    )
      .open({ device: 'x' })
      .subscribe({ error: (problem: Problem) => errors.push(problem) });
    expect(errors).toEqual([{ code: 'device.typed-ended', context: { detail: 'gone' } }]);
    subscription.unsubscribe();
  });

  test('need no choosing', async () => {
    expect(await typedAdapter(of(), () => millis(0)).choose()).toEqual({
      ok: true,
      value: { device: 'Typed numbers' },
    });
  });
});

describeAdapter('typed numbers', () => {
  const entry$ = new Subject<TypedReading>();
  let ticks = 0;
  const clock = () => millis(++ticks % 5 === 0 ? ticks - 3 : ticks);
  return {
    adapter: typedAdapter(entry$, clock),
    choice: { device: 'Typed numbers' },
    held: () => (entry$.observed ? 1 : 0),
    settle: () => turns(2),
    feed: (bytes) => bytes.forEach((value) => entry$.next({ signal: 'engineSpeed', value })),
    received: (events) =>
      events.flatMap((event) => (event.kind === 'reading' ? [event.reading.value ?? NaN] : [])),
  };
});
