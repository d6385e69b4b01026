import { spawn, type ChildProcess } from 'node:child_process';
import { closeSync, constants, openSync } from 'node:fs';
import type { OpenedPort } from './host-port.ts';
import { openTerminalPort } from './terminal-port.ts';

const NO_SOCAT =
  'there is no such device, and socat, which could make a pseudo-terminal there, is missing; install socat, or use a device that exists';

/** A pseudo-terminal under a name that does not exist yet: socat makes it and removes it at the end. */
export async function makeTerminalPort(path: string): Promise<OpenedPort> {
  const socat = spawn('socat', ['-d', '-d', 'pty,rawer', `pty,rawer,link=${path}`], {
    stdio: ['ignore', 'ignore', 'pipe'],
    detached: true, // Ctrl-C is for us: we end it after the host's last byte
  });
  const ours = await ourEnd(socat);
  if ('mistake' in ours) return { mistake: `${path}: ${ours.mistake}` };
  // Held open, so that a host that closes it does not end the terminal.
  const held = openSync(path, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
  const opened = openTerminalPort(ours.path, null);
  const gone = new Promise<string | null>((resolve) =>
    socat.on('close', () => resolve(`${path}: socat ended; start again`)),
  );
  const end = async (): Promise<void> => {
    closeSync(held);
    socat.kill('SIGTERM');
    await gone;
  };
  if ('mistake' in opened) {
    await end();
    return opened;
  }
  const { port } = opened;
  return {
    port: {
      ...port,
      place: path,
      ended: Promise.race([port.ended, gone]),
      close: async () => {
        await port.close();
        await end();
      },
    },
  };
}

/** socat tells on standard error which terminals it made, ours first; it begins to pass bytes on after that. */
function ourEnd(socat: ChildProcess): Promise<{ readonly path: string } | { readonly mistake: string }> {
  return new Promise((resolve) => {
    let told = '';
    socat.stderr?.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      const ours = /PTY is (\S+)/.exec(told);
      if (ours && told.includes('starting data transfer loop')) resolve({ path: ours[1]! });
    });
    socat.on('error', () => resolve({ mistake: NO_SOCAT }));
    socat.on('close', () =>
      resolve({
        mistake: `socat could not make it (${lastWords(told)}); use a path in a folder that may be written`,
      }),
    );
  });
}

const lastWords = (told: string): string =>
  told
    .trim()
    .split('\n')
    .at(-1)
    ?.replace(/^.*\] [A-Z] /, '') ?? '';
