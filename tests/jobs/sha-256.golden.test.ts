import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { startSha256 } from '../../src/jobs/sha-256.ts';

const digest = (...pieces: readonly Uint8Array[]): string => {
  const hash = startSha256();
  for (const piece of pieces) hash.update(piece);
  return hash.hex();
};
const ascii = (text: string) => new TextEncoder().encode(text);

describe('SHA-256', () => {
  // NIST CSRC, examples with intermediate values for FIPS 180-4 (SHA256.pdf), and FIPS 180-2 appendix B.3 for the million.
  test.each([
    ['abc', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'two blocks',
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    [
      'a million a',
      'a'.repeat(1_000_000),
      'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
    ],
  ])('of %s is as published', (_what, text, hex) => {
    expect(digest(ascii(text))).toBe(hex);
  });

  test("agrees with Node's own for every length around a block, in whatever pieces", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.nat(300), (bytes, cut) => {
        const own = createHash('sha256').update(bytes).digest('hex');
        expect(digest(bytes.subarray(0, cut), bytes.subarray(cut))).toBe(own);
      }),
    );
    for (let length = 0; length < 200; length++) {
      const bytes = new Uint8Array(length).fill(length);
      expect(digest(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });
});
