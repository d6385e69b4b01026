import { bench, describe } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { millis } from '../../src/quantities/time.ts';
import { toReadings } from '../../src/signals/to-readings.ts';
import { appendReadings, createTraceSet } from '../../src/signals/trace-set.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii, eec1Data } from '../pipeline/fixtures/eec1-log.ts';

/** Operations a second times FRAMES are frames a second: the target is 1 million, that is 5 operations a second. */
const FRAMES = 200_000;

/** A mix as on a truck: one frame in six is engine speed, the rest is traffic that nobody asked for. */
const text = Array.from({ length: FRAMES }, (_, place) =>
  place % 6 === 0
    ? `T0CF004008${eec1Data(100 + (place % 200))}\r`
    : `T18FE${(0x1000 + (place % 0xdfff)).toString(16).toUpperCase()}8${'A5'.repeat(8)}\r`,
).join('');
const bytes = ascii(text);
const PIECE = 65_536;

/** What one writes first: split to lines, slice, parse. Engine speed only. */
function naive(): { atMs: number; rpm: number }[] {
  const readings: { atMs: number; rpm: number }[] = [];
  for (const line of Buffer.from(bytes).toString('latin1').split('\r')) {
    if (!line.startsWith('T')) continue;
    const id = Number.parseInt(line.slice(1, 9), 16);
    const data = (line.slice(10).match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
    if (((id >> 8) & 0x3ffff) !== 61_444) continue;
    readings.push({ atMs: readings.length, rpm: (data[3]! + 256 * data[4]!) * 0.125 });
  }
  return readings;
}

function ours(): number {
  let state = slcanDecoder.initial();
  let traces = createTraceSet();
  for (let from = 0; from < bytes.length; from += PIECE) {
    const step = slcanDecoder.step(state, bytes.subarray(from, from + PIECE), millis(from / 1000));
    state = step.state;
    for (const batch of step.batches) traces = appendReadings(traces, toReadings(decodeFrames(batch)));
  }
  if (slcanDecoder.counts(state).frames < FRAMES - 1) throw new Error('frames were lost');
  return traces.traces.size;
}

describe(`SLCAN bytes to traces, ${FRAMES} frames`, () => {
  bench('bytes, frames, parameters, readings, traces', () => void ours());
  bench('naive: split into strings, engine speed only', () => void naive());
});
