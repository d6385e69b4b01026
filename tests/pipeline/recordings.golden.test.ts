import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { asyncScheduler, from, lastValueFrom, map } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { logChunks } from '../../adapters/log-chunks.ts';
import { replayAdapter } from '../../adapters/replay.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { runPipeline } from '../../src/pipeline/run-pipeline.ts';
import { failed } from '../../src/problems/result.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { missingShare } from '../../src/signals/missing-share.ts';
import { chosenOrigin, traceOf } from '../../src/signals/trace-set.ts';
import { CANDUMP, readPieces, tableOf } from './fixtures/eec1-log.ts';

const FOLDER = fileURLToPath(new URL('../../../shared/data/j1939/', import.meta.url));
const here = existsSync(FOLDER);
if (!here) console.log(`recordings.golden: skipped, ${FOLDER} is not there`);

function readRecording(name: string): Uint8Array {
  const bytes = readFileSync(FOLDER + name);
  return name.endsWith('.gz') ? gunzipSync(bytes) : bytes;
}

/** Expected values: issue 2, "It must show", and the table of stretches in ../shared/data/j1939/README.md (computed with numpy). */
describe.skipIf(!here)('recordings of real engines, from bytes to cranks', () => {
  it.each(['truck-a-key-on-start-idle.log.gz', 'truck-a-full-drive-rpm-only.log.gz'])(
    '%s: one crank that starts the engine, and none in the run-down',
    (name) => {
      const state = readPieces([readRecording(name)]);
      const { cranks } = tableOf(state);
      expect(cranks).toHaveLength(1);
      const { startMs, endMs, crank, average } = cranks[0]!;
      expect(Math.abs(startMs - state.firstMs! - 41_550)).toBeLessThanOrEqual(30);
      expect(Math.abs(endMs - state.firstMs! - 42_930)).toBeLessThanOrEqual(30);
      expect(crank.endedBy).toBe('engine started');
      expect(average.meanRpm).toBeGreaterThanOrEqual(145);
      expect(average.meanRpm).toBeLessThanOrEqual(146.6);
      expect(average.samples).toBe(138);
      expect(average.minRpm).toBe(113.5);
      expect(average.maxRpm).toBe(374.75);
    },
  );

  it.each(['truck-b-driving.txt.gz', 'truck-d-key-on-no-rpm.log.gz', 'bench-c-vin-and-requests.log.gz'])(
    '%s: no crank and nothing malformed',
    (name) => {
      const state = readPieces([readRecording(name)]);
      expect(tableOf(state)).toMatchObject({ origin: 0, cranks: [] });
      expect(state.untimedFrames).toBe(0);
      expect(state.wire?.counts.frames).toBeGreaterThan(10_000);
    },
  );

  // Complete captures of working buses: speed every 10 or 20 ms. What is told as missing begins at 3 %.
  it.each(['truck-a-key-on-start-idle.log.gz', 'truck-a-full-drive-rpm-only.log.gz'])(
    '%s: hardly a message of engine speed counts as missing',
    (name) => {
      const { traces } = readPieces([readRecording(name)]);
      const origin = chosenOrigin(traces, 'engineSpeed')!;
      expect(missingShare(traceOf(traces, 'engineSpeed', origin))).toBeLessThan(0.01);
    },
  );

  it('engine E: no crank without an interval, since its frames have no time', () => {
    const state = readPieces([readRecording('engine-e-start-no-timestamps.txt')]);
    expect(state.untimedFrames).toBe(853); // parsable lines, README
    expect(tableOf(state).cranks).toEqual([]);
  });

  it('engine E at 20 ms a reading: one crank, cut at its beginning, with the plain mean of its 49 samples', () => {
    const state = readPieces([readRecording('engine-e-start-no-timestamps.txt')], {
      ...CANDUMP,
      givenIntervalMs: 20,
    });
    const { cranks } = tableOf(state);
    expect(cranks).toHaveLength(1);
    expect(cranks[0]!.crank).toMatchObject({ cutAtStart: true, endedBy: 'engine started' });
    expect(cranks[0]!.average.samples).toBe(49);
    expect(cranks[0]!.average.sampleMeanRpm).toBeCloseTo(191.1658, 3);
  });

  it('live, replayed and read as a file, the same bytes give the same cranks and averages', async () => {
    const bytes = readRecording('truck-a-key-on-start-idle.log.gz');
    const whole = tableOf(readPieces([bytes]));
    expect(whole.cranks).toHaveLength(1);
    const chunks = [...logChunks(bytes, 'candump')];
    const events: LinkEvent[] = chunks.map((chunk) => ({
      kind: 'bytes',
      atMs: millis(chunk.atMs),
      bytes: chunk.bytes,
    }));
    expect(events.length).toBeGreaterThan(1000);
    const live = await lastValueFrom(from(events).pipe(runPipeline(CANDUMP), map(tableOf)));
    const replay = replayAdapter(asyncScheduler, () => Promise.resolve(failed(problem('link.refused'))));
    const replay$ = replay.open({ events, device: 'recording', speed: 'instant' });
    const replayed = await lastValueFrom(replay$.pipe(runPipeline(CANDUMP)));
    expect(live).toEqual(whole);
    expect(tableOf(replayed)).toEqual(whole);
  });
});
