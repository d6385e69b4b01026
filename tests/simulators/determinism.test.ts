import { expect, test } from 'vitest';
import { hashedRuns } from './determinism-runs.ts';

// The values are our own output: what is claimed is that Node and Chromium give the same, and both tests hold the same file.
// After a change of the engine: npx vitest run --project node tests/simulators/determinism.test.ts -u
test('the bench gives in Node the bytes that the file of hashes names, with commands and line noise', async () => {
  const hashes = `${JSON.stringify(hashedRuns(), null, 2)}\n`;
  await expect(hashes).toMatchFileSnapshot('./determinism-hashes.json');
});
