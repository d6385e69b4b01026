import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const START = fileURLToPath(new URL('../../src/cli/start.mjs', import.meta.url));

/** Runs the command as a person does, as its own process. */
export function meniscus(...args: string[]) {
  const { status, stdout, stderr } = spawnSync('node', [START, ...args], { encoding: 'utf8' });
  return { status, stdout, stderr };
}

export const newFolder = (): string => mkdtempSync(join(tmpdir(), 'meniscus-cli-'));

export function write(folder: string, name: string, content: string | Uint8Array): string {
  const file = join(folder, name);
  writeFileSync(file, content);
  return file;
}

/** A CSV with two lines a second: rest 2 s, then for each crank so many readings at 160 rpm and 3 s of rest. */
export function twoHertzCsv(readings: readonly number[], header = 'Time (s),Engine Speed (rpm)'): string {
  const speeds = [
    0,
    0,
    0,
    0,
    ...readings.flatMap((count) => [...Array<number>(count).fill(160), 0, 0, 0, 0, 0, 0]),
  ];
  return [header, ...speeds.map((rpm, row) => `${(row / 2).toFixed(1)},${rpm}`), ''].join('\n');
}
