// Finds a Chromium for the browser tests, or gets one where it can. Prints and returns its path, or null with the reason.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';

const places = () => [
  process.env['MENISCUS_CHROMIUM'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  chromium.executablePath(),
];

const find = () => places().find((path) => path && existsSync(path)) ?? null;

function attempt(command, args) {
  try {
    console.log(`browser: trying ${command} ${args.join(' ')}`);
    execFileSync(command, args, { stdio: 'inherit', timeout: 300_000 });
  } catch (error) {
    console.log(`browser: ${command} did not bring one (${error.code ?? error.status ?? error.message})`);
  }
}

/** @returns {string | null} */
export function getBrowser() {
  const present = find();
  if (present) return present;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    attempt('apt-get', ['update', '-qq']);
    attempt('apt-get', ['install', '-y', '-qq', 'chromium']);
  }
  if (!find()) attempt('npx', ['playwright', 'install', 'chromium']);
  return find();
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  console.log(getBrowser() ?? 'no browser can be had here');
