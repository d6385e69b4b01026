import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodeSlcanFrame, type SlcanFrame } from '../../src/wire/slcan-encode.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { decodePieces } from './decode-all.ts';

const PYTHON = '/usr/bin/python3';
const peer = fileURLToPath(new URL('fixtures/python-can-peer.py', import.meta.url));
const present = spawnSync(PYTHON, ['-c', 'import can, serial, pty']).status === 0;
if (!present) console.log('skipped: python3-can (Debian) is not installed, so there is no independent peer');

interface PeerFrame {
  readonly id: number;
  readonly extended: boolean;
  readonly remote: boolean;
  readonly length: number;
  readonly data: readonly number[];
}
const run = (args: readonly string[], input?: Uint8Array) =>
  spawnSync(PYTHON, [peer, ...args], { input, timeout: 25_000, maxBuffer: 1 << 24 });
const jsonLines = (text: Buffer): PeerFrame[] =>
  text
    .toString()
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line) as PeerFrame);

describe.skipIf(!present)('python-can on a pseudo-terminal', () => {
  test('what it writes, our decoder reads frame for frame', () => {
    const { stdout, stderr } = run(['send', '2000', '7']);
    const sent = jsonLines(stderr);
    expect(sent).toHaveLength(2000);
    const { frames } = decodePieces(slcanDecoder, [[1000, stdout]]);
    const read = frames.map(({ id, extended, remote, length, data }) => ({
      id,
      extended,
      remote,
      length,
      data,
    }));
    expect(read).toEqual(sent);
  });

  test('what our encoder writes, it reads frame for frame', () => {
    const frame: fc.Arbitrary<SlcanFrame> = fc
      .record({
        extended: fc.boolean(),
        remote: fc.boolean(),
        id: fc.nat(0x1fffffff),
        data: fc.uint8Array({ maxLength: 8 }),
      })
      .map((one) => ({ ...one, id: one.extended ? one.id : one.id % 0x800, length: one.data.length }));
    const sent = fc.sample(frame, { numRuns: 1500, seed: 11 });
    const { stdout } = run(['receive', '1500'], Buffer.concat(sent.map((one) => encodeSlcanFrame(one))));
    const wanted = sent.map((one) => ({ ...one, data: one.remote ? [] : [...one.data] }));
    expect(jsonLines(stdout)).toEqual(
      wanted.map(({ id, extended, remote, length, data }) => ({ id, extended, remote, length, data })),
    );
  });
});
