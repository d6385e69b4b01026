import { spawn, spawnSync } from 'node:child_process';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { runAuto } from '../../src/wire/auto-wire.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { readThrough, type Piece } from './decode-lines.ts';

const PYTHON = '/usr/bin/python3';
const peer = fileURLToPath(new URL('fixtures/python-can-log.py', import.meta.url));
const present = spawnSync(PYTHON, ['-c', 'import can; can.CanutilsLogWriter']).status === 0;
if (!present)
  console.log('skipped: python3-can (Debian) is not installed, so there is no independent writer');

const FRAMES = 3000;
/** The pieces of a Node stream, one ms apart on arrival. */
async function piecesOf(stream: Readable): Promise<Piece[]> {
  const pieces: Piece[] = [];
  for await (const chunk of stream) pieces.push([1000 + pieces.length, Uint8Array.from(chunk as Buffer)]);
  return pieces;
}
const textOf = async (stream: Readable): Promise<string> =>
  (await stream.setEncoding('utf8').toArray()).join('');

describe.skipIf(!present)('a candump log that python-can writes', () => {
  test('comes through a stream and recognition frame for frame', async () => {
    const child = spawn(PYTHON, [peer, String(FRAMES), '5']);
    const [pieces, told] = await Promise.all([piecesOf(child.stdout), textOf(child.stderr)]);
    const sent = told
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as unknown);
    expect(sent).toHaveLength(FRAMES);

    const all = Buffer.concat(pieces.map((piece) => (piece === 'open' ? '' : piece[1]) as Uint8Array));
    const odd = await piecesOf(Readable.from([...chunks(all, 37)]));
    for (const cut of [pieces, odd]) {
      const { frames, decoder } = readThrough(runAuto(), cut);
      expect(decoder.protocol).toBe('candump');
      expect(frames.map(({ id, extended, sent, data }) => ({ id, extended, sent, data }))).toEqual(sent);
      expect(Object.values(decoder.counts.malformed).every((lines) => lines === 0)).toBe(true);
    }

    const file = readThrough(runDecoder(canLogDecoder), [[0, all]]);
    expect(file.frames[0]!.atMs).toBe(1_700_000_000_000);
    expect(file.frames.at(-1)!.atMs - file.frames[0]!.atMs).toBeCloseTo((FRAMES - 1) * 10, 3);
  });
});

function* chunks(bytes: Buffer, size: number): Generator<Buffer> {
  for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
}
