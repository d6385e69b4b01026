import { existsSync } from 'node:fs';
import { build } from 'vite';
import { CHROMIUM } from './harness.ts';

const configFile = new URL('../../vite.config.ts', import.meta.url).pathname;

/** Builds the page once for all end-to-end tests: they run what is shipped, not the development server. */
export async function setup(): Promise<void> {
  if (!existsSync(CHROMIUM)) return;
  // Under the test runner the build would take the libraries' development variants.
  process.env['NODE_ENV'] = 'production';
  await build({ configFile, mode: 'production', logLevel: 'error' });
}
