import fc from 'fast-check';
import type { JobFileContents } from '../../src/jobs/job-file.ts';
import type { StoredPhoto } from '../../src/jobs/photo.ts';
import type { Result } from '../../src/problems/result.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import { anyEvent, header } from '../recordings/fixtures.ts';
import { field, job, note, run, work } from './example-job.ts';

const events = fc.sample(anyEvent, { numRuns: 60, seed: 5 });
export const photo: StoredPhoto = {
  formatVersion: 1,
  id: 'photo-1',
  takenAt: '2026-11-25T08:05:00.000Z',
  name: 'vessel.jpg',
  type: 'image/jpeg',
  widthPx: 2,
  heightPx: 1,
  sha256: 'a'.repeat(64),
  bytes: Uint8Array.of(0, 255, 10, 13, 128),
};
/** A whole invented job. */
export const CONTENTS: JobFileContents = {
  job: job([field('unitNumber', 'T–12 "β"'), { ...note('see'), photoIds: ['photo-1'] } as never, work(5)]),
  runs: [
    run('a', 3, { word: 'fail low', value: NaN }, { recordingId: 'rec-1' }),
    run('b', 6, { word: 'pass', value: 310 }, { recordingId: 'rec-1' }),
  ],
  recordings: [header('rec-1', { closed: true, logPlan: { $number: 'NaN', deep: [-0, Infinity] } })],
  chunks: [packChunk('rec-1', 0, events.slice(0, 30)), packChunk('rec-1', 1, events.slice(30))],
  photos: [photo],
};

export const codeOf = (result: Result<unknown>) => (result.ok ? 'ok' : result.problem.code);
export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
}
