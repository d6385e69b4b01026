import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';

const chromium = process.env['MENISCUS_CHROMIUM'] ?? '/usr/bin/chromium';
const hasChromium = existsSync(chromium);
export const CHROMIUM_ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export default defineConfig({
  root: fileURLToPath(new URL('src/app', import.meta.url)),
  publicDir: 'public',
  cacheDir: fileURLToPath(new URL('node_modules/.vite', import.meta.url)),
  build: { outDir: fileURLToPath(new URL('dist', import.meta.url)), emptyOutDir: true, target: 'es2023' },
  server: { fs: { allow: [fileURLToPath(new URL('.', import.meta.url))] } },
  test: {
    projects: [
      {
        root: fileURLToPath(new URL('.', import.meta.url)),
        test: {
          name: 'node',
          include: ['tests/**/*.{test,property.test,marble.test,golden.test}.ts'],
          exclude: ['tests/**/*.browser.test.ts'],
          testTimeout: 30_000,
        },
      },
      {
        root: fileURLToPath(new URL('.', import.meta.url)),
        // Known beforehand: found on the way, each would reload the tests that are running.
        optimizeDeps: {
          include: [
            'axe-core',
            'idb',
            'lit',
            'lit/decorators.js',
            'lit/directives/keyed.js',
            'papaparse/papaparse.js',
            'rxjs',
            'uplot',
            'zod',
          ],
        },
        test: {
          name: 'browser',
          include: ['tests/**/*.browser.test.ts'],
          browser: {
            enabled: hasChromium,
            headless: true,
            screenshotFailures: false,
            provider: playwright({ launchOptions: { executablePath: chromium, args: CHROMIUM_ARGS } }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      {
        root: fileURLToPath(new URL('.', import.meta.url)),
        test: {
          name: 'e2e',
          include: ['tests/**/*.e2e.ts'],
          globalSetup: 'tests/e2e/build.ts',
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        root: fileURLToPath(new URL('.', import.meta.url)),
        test: { name: 'bench', include: [], benchmark: { include: ['tests/**/*.bench.ts'] } },
      },
    ],
  },
});
