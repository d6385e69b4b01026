import { rmSync } from 'node:fs';
import { afterAll, expect, it } from 'vitest';
import { eec1Data, eec1Line } from '../pipeline/fixtures/eec1-log.ts';
import { meniscus, newFolder, write } from './run-command.ts';

const folder = newFolder();
afterAll(() => rmSync(folder, { recursive: true }));

it('reads a log of which one line has no stamp, and needs no interval for it', () => {
  // The log of tests/cli/cranks.test.ts, worked out there by hand: 5.25 s at 151.3690 rpm.
  const lines = Array.from({ length: 20 }, (_, row) => eec1Line(row * 500, row >= 4 && row < 14 ? 160 : 0));
  const file = write(folder, 'one.log', [`can0 0CF00400#${eec1Data(0)}\n`, ...lines].join(''));
  const { cranks } = JSON.parse(meniscus('cranks', file, '--json').stdout);
  expect(cranks).toHaveLength(1);
  expect(cranks[0]).toMatchObject({ startSeconds: 1.6563, durationSeconds: 5.25, meanSpeedRpm: 151.369 });
});
