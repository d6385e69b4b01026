import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { whyNoPythonCan } from './bridge-on-pty.ts';

const whyNot = (): string | null => {
  try {
    execFileSync('socat', ['-V'], { stdio: 'ignore' });
    return whyNoPythonCan();
  } catch {
    return 'socat is missing';
  }
};
const reason = whyNot();
if (reason !== null) console.log(`python-can at the bridge player is skipped: ${reason}.`);

const START = fileURLToPath(new URL('../../src/cli/start-bridge.mjs', import.meta.url));
const HOST = fileURLToPath(new URL('fixtures/python-can-host.py', import.meta.url));
const FRAMES = 10_000;
const folder = mkdtempSync(join(tmpdir(), 'bridge-'));
afterAll(() => rmSync(folder, { recursive: true }));

test.skipIf(reason !== null)(
  `python-can opens the bridge over a pseudo-terminal, reads ${FRAMES} frames without an error, and closes it`,
  async () => {
    const path = join(folder, 'bridge');
    // The script ends: python-can empties the port before it gives a frame, and an endless flood would starve it.
    const args = [
      '--scenario',
      'healthy',
      '--speed',
      '30',
      '--to',
      path,
      '--keys',
      'on@0 crank@3 on@18 off@82',
    ];
    const bridge = spawn(process.execPath, [START, ...args], { stdio: 'ignore' });
    const ended = new Promise<number | null>((resolve) => bridge.on('close', resolve));
    try {
      while (!existsSync(path)) await new Promise((resolve) => setTimeout(resolve, 20));
      const host = spawn('/usr/bin/python3', [HOST, path, String(FRAMES)], {
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      let printed = '';
      host.stdout.on('data', (chunk: Buffer) => (printed += chunk.toString()));
      host.stderr.on('data', (chunk: Buffer) => (printed += chunk.toString()));
      const exitCode = await new Promise((resolve) => host.on('close', resolve));
      const lines = printed.trimEnd().split('\n');
      expect(exitCode).toBe(0);
      expect([lines[0], lines.at(-1)]).toEqual(['opened', 'closed']);
      expect(lines.filter((line) => /^xd [0-9a-f]{8} 8 [0-9a-f]{16}$/.test(line))).toHaveLength(FRAMES);
      expect(lines).toHaveLength(FRAMES + 2);
    } finally {
      bridge.kill('SIGINT');
    }
    expect(await ended).toBe(0); // a clean end on Ctrl-C,
    expect(existsSync(path)).toBe(false); // and the pseudo-terminal is gone
  },
  60_000,
);
