// Starts the bridge player.
import { runBundled } from './run-bundled.mjs';

await runBundled('meniscus-bridge', 'simulators/cli/main.ts', [
  'simulators',
  'src/wire',
  'src/j1939',
  'src/cli',
]);
