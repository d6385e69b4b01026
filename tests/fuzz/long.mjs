// Ten million bytes and more through everything that reads bytes: node tests/fuzz/long.mjs [million bytes] [first seed]
// Exit code 1 where something was found.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'rolldown';

const million = Number(process.argv[2] ?? 10);
const firstSeed = Number(process.argv[3] ?? 1);
const folder = mkdtempSync(join(tmpdir(), 'meniscus-fuzz-'));
try {
  const file = join(folder, 'long.mjs');
  await build({
    input: fileURLToPath(new URL('long.ts', import.meta.url)),
    platform: 'node',
    output: { file, format: 'esm' },
    logLevel: 'warn',
  });
  const { longRun } = await import(pathToFileURL(file).href);
  process.exitCode = longRun(million * 1e6, firstSeed) === 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}
