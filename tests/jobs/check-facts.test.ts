import { describe, expect, it } from 'vitest';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { NO_FACTS, checkFacts } from '../../src/jobs/check-facts.ts';
import { startingValues } from '../../src/jobs/run-entries.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import { startPipeline, stepPipeline, type PipelineState } from '../../src/pipeline/pipeline.ts';
import { NO_ORIGIN, type SignalId } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';

type Heard = readonly [atMs: number, signal: SignalId, value: number, origin?: number];

function hear(readings: readonly Heard[]): PipelineState {
  const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;
  return readings.reduce((state, [at, signal, value, origin = NO_ORIGIN]) => {
    const reading = { signal, atMs: millis(at), value, quality: 'valid' as const, origin };
    return stepPipeline(state, { kind: 'reading', atMs: millis(at), reading });
  }, startPipeline(options));
}
const factsOf = (state: PipelineState | null, over = true, values = startingValues(null)) => {
  const table = state
    ? crankTable(state, { over })
    : ({ origin: null, phase: 'noData', cranks: [], underWay: null } as const);
  return checkFacts(state, table, values, '2026-01-02');
};
const every = (ms: number, toMs: number, of: (at: number) => readonly Heard[]): readonly Heard[] =>
  Array.from({ length: toMs / ms + 1 }, (_, place) => of(place * ms)).flat();

describe('checkFacts', () => {
  it('without data are empty, with the day', () => {
    expect(factsOf(null)).toEqual({ ...NO_FACTS, onDate: '2026-01-02' });
    expect(
      checkFacts(null, { origin: null, phase: 'noData', cranks: [], underWay: null }, startingValues(null)),
    ).toEqual(NO_FACTS);
  });

  it('hold each signal of one origin, the engine first, never mixed', () => {
    const state = hear(
      every(100, 3000, (at) => [
        [at, 'supplyPressure', 300, 61],
        [at, 'supplyPressure', 500, 0],
      ]),
    );
    const { supplyPressure } = factsOf(state).signals;
    expect(supplyPressure?.origin).toBe(0);
    expect([...new Set(supplyPressure?.trace.value.subarray(0, supplyPressure.trace.length))]).toEqual([500]);
    const chosen = { ...startingValues(null), origins: new Map([['supplyPressure', 61]] as const) };
    expect(factsOf(state, true, chosen).signals.supplyPressure?.origin).toBe(61);
  });

  it('hold the cranks, their average, what was around them and the last instant', () => {
    const state = hear(
      every(50, 8000, (at) => [
        [at, 'engineSpeed', at > 1000 && at < 6000 ? 150 : 0],
        [at, 'fuelTemperature', 24],
      ]),
    );
    const facts = factsOf(state);
    expect(facts.cranks).toHaveLength(1);
    expect(facts.average?.meanRpm).toBeGreaterThan(140);
    expect(facts.conditions.fuelTemperature).toBe(24);
    expect(facts).toMatchObject({ lastMs: 8000, underWay: null });
  });

  it('hold the crank going on, from the fall of the battery voltage where that was seen', () => {
    const state = hear(
      every(50, 4000, (at) => [
        [at, 'batteryVoltage', at < 900 ? 25 : 20],
        [at, 'engineSpeed', at > 1200 ? 150 : 0],
      ]),
    );
    const facts = factsOf(state, false);
    expect(facts.cranks).toHaveLength(0);
    expect(facts.underWay).toMatchObject({ startSign: 'battery', endedBy: 'cut', end: { atMs: 4000 } });
    // The voltage crosses half-way between 25 and 20 V within 850 to 900 ms.
    expect(facts.underWay?.starterOn.atMs).toBeCloseTo(875, 6);
  });
});
