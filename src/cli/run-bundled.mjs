// Runs a command line from its TypeScript: bundles it when a source is newer than the last bundle.
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Time of the newest source below a folder, ms. */
function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    latest = Math.max(latest, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs);
  }
  return latest;
}

/**
 * Runs `main` of a module with the arguments of this process; its number is the exit code. `name` is that of the bundle's folder,
 * `folders` are where its sources lie. Several processes may do this at once: a bundle is put in place whole.
 */
export async function runBundled(name, entry, folders) {
  const folder = join(root, 'node_modules/.cache', name);
  const bundle = join(folder, 'main.mjs');
  const changes = folders.map((each) => newest(join(root, each)));
  const sources = Math.max(...changes, statSync(join(root, 'package-lock.json')).mtimeMs);
  if (!existsSync(bundle) || statSync(bundle).mtimeMs < sources) await bundleInto(folder, entry);
  const { main } = await import(pathToFileURL(bundle).href);
  process.exitCode = await main(process.argv.slice(2));
}

async function bundleInto(folder, entry) {
  const { build } = await import('rolldown');
  const fresh = `${folder}.${process.pid}`;
  mkdirSync(fresh, { recursive: true });
  await build({
    input: join(root, entry),
    platform: 'node',
    external: ['ws'],
    output: { dir: fresh, format: 'esm', entryFileNames: 'main.mjs', chunkFileNames: '[name]-[hash].mjs' },
    logLevel: 'warn',
  });
  try {
    rmSync(folder, { recursive: true, force: true });
    renameSync(fresh, folder);
  } catch {
    rmSync(fresh, { recursive: true, force: true }); // another process was first
  }
}
