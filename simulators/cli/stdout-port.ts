import { NOTHING, type HostPort } from './host-port.ts';

/** Standard output, where nobody answers. A reader that has seen enough (`| head`) ends the play, which is no failure. */
export function stdoutPort(output: NodeJS.WriteStream): HostPort {
  let end: (reason: string | null) => void;
  const ended = new Promise<string | null>((resolve) => (end = resolve));
  output.on('error', (error: NodeJS.ErrnoException) => end(error.code === 'EPIPE' ? null : error.message));
  return {
    place: 'standard output',
    playsAlone: true,
    isPresent: () => true,
    visits: () => 0,
    isFull: () => output.writableNeedDrain,
    hear: () => NOTHING,
    send: (bytes) => void output.write(bytes),
    ended,
    close: () => flushed(output, ended),
  };
}

/** What was written goes out before the process ends, unless the reader is gone. */
const flushed = async (output: NodeJS.WriteStream, ended: Promise<unknown>): Promise<void> => {
  if (output.writableLength === 0) return;
  await Promise.race([ended, new Promise<void>((resolve) => output.write('', () => resolve()))]);
};
