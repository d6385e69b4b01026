// Starts the command line.
import { runBundled } from './run-bundled.mjs';

await runBundled('meniscus', 'src/cli/main.ts', ['src']);
