import { existsSync } from 'node:fs';
import { build } from 'vite';
import { CHROMIUM } from './harness.ts';

const configFile = new URL('../../vite.config.ts', import.meta.url).pathname;

/** Builds the page once for all end-to-end tests: they run what is shipped, not the development server. */
export async function setup(): Promise<void> {
  if (existsSync(CHROMIUM)) await build({ configFile, logLevel: 'warn' });
}
