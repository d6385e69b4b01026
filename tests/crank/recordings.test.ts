import { describe, expect, it } from 'vitest';
import { averageSpeed } from '../../src/crank/average-speed.ts';
import { findAll } from './fixtures/find-all.ts';
import { hasRecordings, readRecording, traceOf } from './fixtures/read-recording.ts';

/** Expected values: the table "Stretches with 50 < rpm < 400" of ../shared/data/j1939/README.md, and issue 2. */
describe.skipIf(!hasRecordings)('cranks in recordings of real engines', () => {
  it.each(['truck-a-key-on-start-idle.log.gz', 'truck-a-full-drive-rpm-only.log.gz'])(
    '%s holds one crank, that starts the engine, and no crank in the run-down',
    (name) => {
      const samples = readRecording(name);
      const cranks = findAll(samples);
      expect(cranks).toHaveLength(1);
      const { start, end, endedBy, cutAtStart } = cranks[0]!;
      expect(Math.abs(start.atMs - 41_550)).toBeLessThan(30);
      expect(Math.abs(end.atMs - 42_930)).toBeLessThan(30);
      expect(endedBy).toBe('engine started');
      expect(cutAtStart).toBe(false);
      const average = averageSpeed(traceOf(samples), start.atMs, end.atMs, { resolutionRpm: 0.125 });
      expect(average.meanRpm).toBeGreaterThan(145);
      expect(average.meanRpm).toBeLessThan(146.6);
      // Held for 160 to 200 ms: 138 samples are hardly more than the seven values that the controller sent.
      expect(average.effectiveSamples).toBeLessThan(14);
    },
  );

  it('engine E begins in mid-crank: one crank, cut at its beginning, with the mean of its 49 samples', () => {
    const samples = readRecording('engine-e-start-no-timestamps.txt', 20);
    const cranks = findAll(samples);
    expect(cranks).toHaveLength(1);
    expect(cranks[0]).toMatchObject({ cutAtStart: true, endedBy: 'engine started' });
    const { start, end } = cranks[0]!;
    const average = averageSpeed(traceOf(samples), start.atMs, end.atMs, { resolutionRpm: 0.125 });
    expect(average.samples).toBe(49);
    expect(average.sampleMeanRpm).toBeCloseTo(191.1658, 3);
  });

  it.each(['truck-b-driving.txt.gz', 'truck-d-key-on-no-rpm.log.gz', 'bench-c-vin-and-requests.log.gz'])(
    '%s holds no crank',
    (name) => {
      const samples = readRecording(name);
      expect(samples.length).toBeGreaterThan(400);
      expect(findAll(samples)).toEqual([]);
    },
  );
});
