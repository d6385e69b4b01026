import { bench, describe } from 'vitest';
import { tallyFrames, START_TALLY } from '../../src/j1939/bus-tally.ts';
import { collectMessages, START_TRANSPORT } from '../../src/j1939/transport.ts';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { describeFrame } from '../../src/j1939/describe-frame.ts';
import { START_BUS, stepBus } from '../../src/pipeline/bus-state.ts';
import { framesOf } from './fixtures/read-recording.ts';
import { batchOf, message, rows, wholeBam } from './fixtures/transport-frames.ts';

const FRAMES = 1_000_000;
const CHUNK = 10_000;

/** No frame of the transport protocol: the usual traffic. Time goes on by half a millisecond a frame. */
const lines = Array.from(
  { length: CHUNK },
  (_, i) => `(${(i / 2000).toFixed(6)}) can0 ${i % 6 === 0 ? '0CF00400' : '18F0010B'}#FFFF7D6813FFFFFF`,
);
const usual = framesOf(lines.join('\n'));
/** One frame in fifty belongs to a transfer, as on a truck that sends its codes in packets. */
const bam = wholeBam({ atMs: 0, from: 0, to: 0xff }, 65226, message(190), 50);
const mixed = batchOf(
  Array.from({ length: CHUNK }, (_, i) =>
    i % 50 === 0
      ? { ...bam[(i / 50) % bam.length]!, atMs: i / 2 }
      : { atMs: i / 2, id: 0x18f0010b, data: [1, 2, 3, 4, 5, 6, 7, 8] },
  ),
);
const pairs = Array.from({ length: 1000 }, (_, i) => rows(usual, 2 * i, 2 * i + 2));
const times = FRAMES / CHUNK;

describe('a million frames in chunks of 10 000: ns a frame = mean in ms', () => {
  bench('collectMessages, no transfer among them', () => {
    let state = START_TRANSPORT;
    for (let i = 0; i < times; i++) state = collectMessages(state, usual).state;
    if (state.transfers.size !== 0) throw new Error('a transfer out of nothing');
  });
  bench('collectMessages, one in fifty of a transfer', () => {
    let joined = 0;
    for (let i = 0; i < times; i++) joined += collectMessages(START_TRANSPORT, mixed).messages.length;
    if (joined !== 600) throw new Error(`joined ${joined}`);
  });
  bench('tallyFrames', () => {
    let tally = START_TALLY;
    for (let i = 0; i < times; i++) tally = tallyFrames(tally, usual);
    if (tally.frames !== FRAMES) throw new Error('frames were lost');
  });
  bench('stepBus, all of it', () => {
    let bus = START_BUS;
    for (let i = 0; i < times; i++) bus = stepBus(bus, usual);
    if (bus.tally.frames !== FRAMES) throw new Error('frames were lost');
  });
  bench('decodeFrames, to compare', () => {
    let count = 0;
    for (let i = 0; i < times; i++) count += decodeFrames(usual).count;
    if (count === 0) throw new Error('rows were lost');
  });
});

describe('live', () => {
  bench('stepBus, 2000 frames in batches of two: us a batch = mean in ms', () => {
    let bus = START_BUS;
    for (const pair of pairs) bus = stepBus(bus, pair);
    if (bus.tally.frames !== 2000) throw new Error('frames were lost');
  });
  bench('describeFrame, 50 rows', () => {
    let decoded = 0;
    for (let row = 0; row < 50; row++) decoded += describeFrame(usual, row).decoded.length;
    if (decoded === 0) throw new Error('nothing was decoded');
  });
});
