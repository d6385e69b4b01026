import { execFileSync } from 'node:child_process';
import { closeSync, constants, openSync, readSync, writeSync } from 'node:fs';
import { failureWords, NOTHING, type HostPort, type OpenedPort } from './host-port.ts';

/** Read and write without ever waiting, and without the terminal becoming that of this process. */
const FLAGS = constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK;

/** A serial port or pseudo-terminal that exists, made raw: no echo, CR stays CR. */
export function openTerminalPort(path: string, baud: number | null): OpenedPort {
  let device: number;
  try {
    device = openSync(path, FLAGS);
  } catch (error) {
    return { mistake: `${path}: ${failureWords(error)}` };
  }
  const raw = makeRaw(path, baud);
  if (raw !== null) {
    closeSync(device);
    return { mistake: raw };
  }
  return { port: portOn(device, path) };
}

function makeRaw(path: string, baud: number | null): string | null {
  const flag = process.platform === 'linux' ? '-F' : '-f';
  try {
    execFileSync('stty', [flag, path, 'raw', '-echo', ...(baud === null ? [] : [String(baud)])], {
      stdio: 'pipe',
    });
    return null;
  } catch {
    return `${path} cannot be used as a serial port${baud === null ? '' : ` at ${baud} baud`}; use a serial port or a pseudo-terminal, and a speed that it has`;
  }
}

function portOn(device: number, path: string): HostPort {
  let waiting: Uint8Array = NOTHING;
  let end: (reason: string) => void;
  const ended = new Promise<string | null>((resolve) => (end = resolve));
  const buffer = new Uint8Array(4096);
  /** Bytes moved; 0 where there is nothing or no room now. */
  const tried = (move: () => number): number => {
    try {
      return move();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') end(`${path}: ${failureWords(error)}`);
      return 0;
    }
  };
  const flush = (): void => {
    if (waiting.length > 0) waiting = waiting.subarray(tried(() => writeSync(device, waiting)));
  };
  return {
    place: path,
    playsAlone: false,
    isPresent: () => true,
    visits: () => 0,
    isFull: () => {
      flush();
      return waiting.length > 0;
    },
    hear: () =>
      buffer.slice(
        0,
        tried(() => readSync(device, buffer)),
      ),
    send: (bytes) => {
      waiting = waiting.length === 0 ? bytes : Buffer.concat([waiting, bytes]);
      flush();
    },
    ended,
    close: async () => closeSync(device),
  };
}
