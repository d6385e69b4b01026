import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createBench, stepBench } from '../../simulators/bench.ts';
import type { Scenario } from '../../simulators/scenarios.ts';

const PYTHON = '/usr/bin/python3'; // the system's own: python3-can is a system package
const fixture = (name: string): string => fileURLToPath(new URL(`fixtures/${name}`, import.meta.url));

/** Why python-can cannot be the peer here, or null where it can. */
export function whyNoPythonCan(): string | null {
  if (process.platform !== 'linux') return 'pseudo-terminals are tried on Linux only';
  if (!existsSync(PYTHON)) return `there is no ${PYTHON}`;
  try {
    execFileSync(PYTHON, ['-c', 'import can, serial'], { stdio: 'ignore' });
    return null;
  } catch {
    return 'python3-can or python3-serial is missing';
  }
}

/** About four times as fast as life. python-can empties the port byte by byte before it gives a frame, so a flood starves it. */
const STEP_MS = 20;

export interface HostRun {
  readonly lines: readonly string[];
  readonly exitCode: number | null;
  /** All that the host wrote to the bridge, and the bridge to the host. */
  readonly fromHost: string;
  readonly toHost: string;
}

/**
 * The simulated bridge with its bench, key on and starter turning, behind a real pseudo-terminal, and a host script at the other
 * end. Simulated time goes on by `STEP_MS` each time the bridge's bytes were taken, from the host's beginning to its end.
 */
export async function runHost(scenario: Scenario, script: string, args: readonly string[]): Promise<HostRun> {
  const terminal = spawn(PYTHON, [fixture('pty-bridge.py')]);
  let bench = createBench(scenario, 1);
  let fromHost = '';
  let heard = 0;
  let toHost = '';
  terminal.stdout.on('data', (chunk: Buffer) => (fromHost += chunk.toString('latin1')));
  const stepOn = (ms: number): Uint8Array => {
    const fresh = Buffer.from(fromHost.slice(heard), 'latin1');
    heard = fromHost.length;
    const step = stepBench(bench, { keyOn: true, starterOn: true, fromHost: fresh }, ms);
    bench = step.state;
    toHost += Buffer.from(step.toHost).toString('latin1');
    return step.toHost;
  };
  let host: ChildProcess | null = null;
  try {
    host = spawn(PYTHON, [fixture(script), await firstLine(terminal), ...args]);
    const printed = printedBy(host);
    const ended = endOf(host);
    let open = true;
    void ended.then(() => (open = false));
    while (open) {
      const taken = terminal.stdin.write(stepOn(STEP_MS));
      const drained = taken ? pause() : new Promise((resolve) => terminal.stdin.once('drain', resolve));
      await Promise.race([ended, drained]);
    }
    const exitCode = await ended;
    const terminalEnded = endOf(terminal);
    terminal.kill('SIGTERM'); // it passes on what the host wrote last
    await terminalEnded;
    stepOn(0);
    return { lines: printed().trimEnd().split('\n'), exitCode, fromHost, toHost };
  } finally {
    host?.kill();
    terminal.kill('SIGKILL');
  }
}

/** Room for the processes at the other side. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

const endOf = (child: ChildProcess): Promise<number | null> =>
  new Promise((resolve) => child.on('close', (code) => resolve(code)));

function printedBy(child: ChildProcess): () => string {
  let text = '';
  child.stdout?.on('data', (chunk: Buffer) => (text += chunk.toString()));
  child.stderr?.on('data', (chunk: Buffer) => (text += `stderr: ${chunk.toString()}`));
  return () => text;
}

const firstLine = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let text = '';
    child.stderr?.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      if (text.includes('\n')) resolve(text.slice(0, text.indexOf('\n')));
    });
    child.on('close', () => reject(new Error(`no pseudo-terminal: ${text}`)));
  });
