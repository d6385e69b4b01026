// `npm test`: everything, in the order in which a mistake is cheapest to find. Stops at nothing, fails if anything failed.
import { spawnSync } from 'node:child_process';
import { getBrowser } from './get-browser.mjs';

const browser = getBrowser();
const env = { ...process.env, ...(browser ? { MENISCUS_CHROMIUM: browser } : {}) };
const steps = [
  ['types', 'npm', ['run', '--silent', 'types']],
  ['lint', 'npm', ['run', '--silent', 'lint']],
  ['format', 'npm', ['run', '--silent', 'format:check']],
  ['build', 'npm', ['run', '--silent', 'build']],
  ['node', 'npx', ['vitest', 'run', '--project', 'node']],
  ...(browser
    ? [
        ['browser', 'npx', ['vitest', 'run', '--project', 'browser']],
        ['e2e', 'npx', ['vitest', 'run', '--project', 'e2e']],
      ]
    : []),
];

const results = steps.map(([name, command, args]) => {
  console.log(`\n== ${name}`);
  const start = performance.now();
  const { status } = spawnSync(command, args, { stdio: 'inherit', env });
  return { name, ok: status === 0, seconds: ((performance.now() - start) / 1000).toFixed(1) };
});

console.log('');
if (!browser) console.log('browser and e2e: SKIPPED, no Chromium can be had on this machine');
for (const { name, ok, seconds } of results)
  console.log(`${ok ? 'ok    ' : 'FAILED'} ${name} (${seconds} s)`);
const failed = results.filter((step) => !step.ok).length;
console.log(`${results.length - failed} passed, ${failed} failed${browser ? '' : ', 2 skipped'}`);
process.exit(failed ? 1 : 0);
