import { describe, expect, it } from 'vitest';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineState,
} from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { traceOf } from '../../src/signals/trace-set.ts';
import { collectedHeap } from '../fuzz/collected-heap.ts';
import { traceBytes, traceRows } from '../fuzz/digest.ts';
import { bytesBetween, CRANK_FROM_S, CRANK_TO_S, FRAMES_PER_SECOND } from './busy-bus.ts';

const MINUTES = 10;
const FRAMES = MINUTES * 60 * FRAMES_PER_SECOND;
/** As a serial port delivers it: a chunk each 20 to 50 ms, not at line ends. */
const CHUNKS_MS = [20, 50, 30, 40];
const MEASURED_AT_MINUTE = [2, 5, 10];

interface Measured {
  readonly minute: number;
  readonly heldBytes: number;
  readonly traceBytes: number;
}

/** Ten simulated minutes through the pipeline, chunk by chunk, as the session does it. */
function soak(): { state: PipelineState; bytes: number; measured: readonly Measured[]; workMs: number } {
  const usedBytes = collectedHeap();
  const emptyBytes = usedBytes();
  const measured: Measured[] = [];
  let state = startPipeline({ wire: 'slcan', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null });
  state = stepPipeline(state, { kind: 'open', atMs: millis(0), device: 'busy bus', write: null });
  let [bytes, workMs] = [0, 0];
  let rest = new Uint8Array(0);
  for (let atMs = 0, chunk = 0; atMs < MINUTES * 60_000; chunk++) {
    const toMs = Math.min(MINUTES * 60_000, atMs + CHUNKS_MS[chunk % CHUNKS_MS.length]!);
    const fresh = bytesBetween(atMs, toMs);
    const all = new Uint8Array(rest.length + fresh.length);
    all.set(rest);
    all.set(fresh, rest.length);
    const cut = toMs === MINUTES * 60_000 ? all.length : all.length - (chunk % 29);
    const begun = process.cpuUsage();
    state = stepPipeline(state, { kind: 'bytes', atMs: millis(toMs), bytes: all.slice(0, cut) });
    workMs += process.cpuUsage(begun).user / 1000;
    bytes += cut;
    rest = all.slice(cut);
    const minute = MEASURED_AT_MINUTE.find((each) => atMs < each * 60_000 && toMs >= each * 60_000);
    if (minute !== undefined)
      measured.push({ minute, heldBytes: usedBytes() - emptyBytes, traceBytes: traceBytes(state) });
    atMs = toMs;
  }
  return { state: finishPipeline(state), bytes, measured, workMs };
}

describe('1,800 frames a second for ten minutes', () => {
  const { state, bytes, measured, workMs } = soak();
  const besides = measured.map((each) => each.heldBytes - each.traceBytes);

  it('lose nothing: every byte, every frame and every engine speed is there', () => {
    expect(FRAMES).toBe(1_080_000);
    expect(state.wire!.counts).toMatchObject({ frames: FRAMES, lines: FRAMES, bytes, lost: 0 });
    expect(Object.values(state.wire!.counts.malformed).every((count) => count === 0)).toBe(true);
    expect(traceOf(state.traces, 'engineSpeed', 0).length).toBe(MINUTES * 60 * 100);
    expect(state.gaps).toEqual([]);
  });

  it('show the crank of each minute, as long as it was made', () => {
    const { cranks } = crankTable(state, { over: true });
    expect(cranks.map(({ crank }) => crank.endedBy)).toEqual(Array(MINUTES).fill('released'));
    for (const { time, average } of cranks) {
      // Both edges lie between two samples 10 ms apart.
      expect(Math.abs(time.spanMs - 1000 * (CRANK_TO_S - CRANK_FROM_S))).toBeLessThanOrEqual(20);
      expect(Math.abs(average.meanRpm - 160)).toBeLessThan(0.5);
    }
  });

  it('leave memory flat: besides the traces nothing grows from the second minute to the tenth', () => {
    console.log(
      measured
        .map((each, place) => {
          const mega = (of: number) => (of / 1e6).toFixed(2);
          return `minute ${each.minute}: traces ${mega(each.traceBytes)} MB, besides ${mega(besides[place]!)} MB`;
        })
        .join('; '),
    );
    console.log(
      `${((17 * traceRows(state)) / FRAMES).toFixed(1)} bytes of traces for each frame, ` +
        `${((workMs * 1000) / FRAMES).toFixed(2)} us of work for each frame`,
    );
    expect(measured.map(({ minute }) => minute)).toEqual(MEASURED_AT_MINUTE);
    // 8 more minutes are 864,000 frames and 26 MB of bytes: one byte kept for each would be 0.86 MB.
    expect(besides[2]! - besides[0]!).toBeLessThan(800_000);
  });

  it('grow the traces by 17 bytes a reading and no more than double that in room', () => {
    const rows = traceRows(state);
    expect(traceBytes(state)).toBeGreaterThanOrEqual(17 * rows);
    expect(traceBytes(state)).toBeLessThanOrEqual(2 * 17 * rows + 64 * 17 * state.traces.traces.size);
  });
});
