// Starts the command line: bundles src/cli/main.ts when a source is newer than the last bundle, then runs it.
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'node_modules/.cache/meniscus');
const bundle = join(folder, 'main.mjs');

/** Time of the newest source below a folder, ms. */
function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    latest = Math.max(latest, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs);
  }
  return latest;
}

const sources = Math.max(newest(join(root, 'src')), statSync(join(root, 'package-lock.json')).mtimeMs);
if (!existsSync(bundle) || statSync(bundle).mtimeMs < sources) {
  const { build } = await import('rolldown');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  await build({
    input: join(root, 'src/cli/main.ts'),
    platform: 'node',
    output: { dir: folder, format: 'esm', entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
    logLevel: 'warn',
  });
}
const { main } = await import(pathToFileURL(bundle).href);
process.exitCode = await main(process.argv.slice(2));
