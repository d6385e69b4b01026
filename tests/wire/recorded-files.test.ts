import { existsSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { FRAME_EXTENDED, FRAME_REMOTE } from '../../src/wire/frame-batch.ts';
import { MALFORMED_REASONS } from '../../src/wire/wire-decoder.ts';

const folder = new URL('../../../shared/data/j1939/', import.meta.url);
const present = existsSync(folder);
if (!present) console.log('skipped: the recordings in ../shared/data/j1939 are not here');

/** Counts and durations: the table "Facts of each file" in that folder's README. */
const FACTS = [
  { file: 'truck-a-key-on-start-idle.log.gz', frames: 78_582, remote: 0, standard: 0, spanS: 126.624508 },
  { file: 'truck-a-full-drive-rpm-only.log.gz', frames: 30_969, remote: 0, standard: 0, spanS: 311.27795 },
  { file: 'truck-b-driving.txt.gz', frames: 19_957, remote: 0, standard: 0, spanS: 29.997509 },
  { file: 'bench-c-vin-and-requests.log.gz', frames: 39_739, remote: 1, standard: 4, spanS: 210.760045 },
  { file: 'truck-d-key-on-no-rpm.log.gz', frames: 14_457, remote: 0, standard: 0, spanS: 9.996661 },
  { file: 'engine-e-start-no-timestamps.txt', frames: 853, remote: 0, standard: 0, spanS: NaN },
] as const;

describe.skipIf(!present)('the recordings', () => {
  test.each(FACTS)(
    '$file has as many frames as its README says',
    ({ file, frames, remote, standard, spanS }) => {
      const raw = readFileSync(new URL(file, folder));
      const bytes = file.endsWith('.gz') ? gunzipSync(raw) : raw;
      const first = canLogDecoder.step(canLogDecoder.initial(), bytes, millis(0));
      const last = canLogDecoder.finish(first.state);
      const batches = [...first.batches, ...last.batches];
      const flags = batches.flatMap((batch) => [...batch.flags]);
      // The README measures between data frames: bench C begins with its remote frame.
      const times = batches.flatMap((batch) =>
        [...batch.atMs].filter((_, i) => !(batch.flags[i]! & FRAME_REMOTE)),
      );
      const remotes = flags.filter((flag) => flag & FRAME_REMOTE).length;
      expect(remotes).toBe(remote);
      expect(flags.filter((flag) => !(flag & FRAME_EXTENDED)).length).toBe(standard);
      expect(flags.length - remotes).toBe(frames);
      expect(Object.values(canLogDecoder.counts(last.state).malformed)).toEqual(
        MALFORMED_REASONS.map(() => 0),
      );
      expect(canLogDecoder.clock(last.state)).toBe(Number.isNaN(spanS) ? 'none' : 'source');
      if (!Number.isNaN(spanS)) expect((times.at(-1)! - times[0]!) / 1000).toBeCloseTo(spanS, 5);
    },
  );
});
