import { bench, describe } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { millis } from '../../src/quantities/time.ts';
import { toReadings } from '../../src/signals/to-readings.ts';
import { appendReadings, createTraceSet, traceOf, type TraceSet } from '../../src/signals/trace-set.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { framesOf } from '../j1939/fixtures/read-recording.ts';

const EEC1 = 'T0CF004008FFFF7D6813FFFFFF\r';
const OTHER = 'T18F0010B80CFFF3FFFF500B3F\r';
const CHUNK = 10_000;

/** 10 000 frames as SLCAN bytes, one in six EEC1, as in a recording of a whole bus. */
const bytes = new TextEncoder().encode(
  Array.from({ length: CHUNK }, (_, i) => (i % 6 === 0 ? EEC1 : OTHER)).join(''),
);
const batch = toReadings(
  decodeFrames(
    framesOf(Array.from({ length: CHUNK }, () => '(1) can0 0CF00400#FFFF7D6813FFFFFF').join('\n')),
  ),
);

function fromBytes(): TraceSet {
  let set = createTraceSet();
  let state = slcanDecoder.initial();
  for (let i = 0; i < 100; i++) {
    const step = slcanDecoder.step(state, bytes, millis(1000 * i));
    state = step.state;
    for (const frames of step.batches) set = appendReadings(set, toReadings(decodeFrames(frames)));
  }
  return set;
}

function fromBatches(): TraceSet {
  let set = createTraceSet();
  for (let i = 0; i < 100; i++) set = appendReadings(set, batch);
  return set;
}

describe('1 000 000 frames in chunks of 10 000', () => {
  bench('SLCAN bytes to traces, one frame in six EEC1', () => {
    if (traceOf(fromBytes(), 'engineSpeed', 0).length !== 166_700) throw new Error('rows were lost');
  });
  bench('appendReadings alone, 3 000 000 rows', () => {
    if (traceOf(fromBatches(), 'engineSpeed', 0).length !== 1_000_000) throw new Error('rows were lost');
  });
});
