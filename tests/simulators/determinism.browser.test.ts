import { expect, test } from 'vitest';
import { hashedRuns } from './determinism-runs.ts';
import expected from './determinism-hashes.json';

// See determinism.test.ts: the same file is held in Node.
test('the bench gives in Chromium the bytes that it gives in Node', () => {
  expect(hashedRuns()).toEqual(expected);
});
