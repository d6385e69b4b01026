import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { NO_LINK, nextLinkState, type LinkChange } from '../../src/link/link-state.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';

const open: LinkChange = { kind: 'open', atMs: millis(1), device: 'bridge', write: null };
const bytes = (length: number, atMs = 5): LinkChange => ({
  kind: 'bytes',
  atMs: millis(atMs),
  bytes: new Uint8Array(length),
});
const gap: LinkChange = { kind: 'gap', atMs: millis(6), problem: problem('link.framing') };
const reading: LinkChange = {
  kind: 'reading',
  atMs: millis(7),
  reading: { signal: 'engineSpeed', atMs: millis(7), value: 150, quality: 'valid', origin: -1 },
};
const lost: LinkChange = { kind: 'error', problem: problem('link.lost', { device: 'bridge' }) };
const refused: LinkChange = { kind: 'error', problem: problem('link.refused') };
const after = (...changes: LinkChange[]) => changes.reduce(nextLinkState, NO_LINK);

describe('the state of a link', () => {
  test.each<[string, LinkChange[], string]>([
    ['nothing happened', [], 'none'],
    ['it was subscribed', [{ kind: 'opening' }], 'opening'],
    ['it opened but nothing came', [{ kind: 'opening' }, open], 'waiting'],
    ['only an empty piece came', [open, bytes(0)], 'waiting'],
    ['bytes came', [open, bytes(3)], 'live'],
    ['a reading came', [open, reading], 'live'],
    ['a gap came first', [open, gap], 'waiting'],
    ['it delivered all', [open, bytes(3), { kind: 'ended' }], 'ended'],
    ['it was lost', [open, bytes(3), lost], 'lost'],
    ['it failed to open', [{ kind: 'opening' }, lost], 'lost'],
    ['the person chose nothing', [{ kind: 'opening' }, refused], 'refused'],
    ['it was opened again after a loss', [open, lost, { kind: 'opening' }], 'opening'],
    ['it came back by itself', [open, bytes(3), open], 'waiting'],
  ])('when %s', (_when, changes, kind) => {
    expect(after(...changes).kind).toBe(kind);
  });

  test('counts bytes, readings and gaps since it opened', () => {
    const state = after(open, bytes(3), bytes(4, 9), reading, gap);
    expect(state).toMatchObject({ device: 'bridge', bytes: 7, readings: 1, gaps: 1, lastAtMs: 6 });
    expect(state.problem?.code).toBe('link.framing');
  });

  test('keeps what was received when it is lost', () => {
    expect(after(open, bytes(3), lost)).toMatchObject({
      bytes: 3,
      device: 'bridge',
      problem: { code: 'link.lost' },
    });
  });

  test('once over, is brought back by nothing but a new opening', () => {
    const change = fc.constantFrom(open, bytes(2), gap, reading, lost, refused, { kind: 'ended' } as const);
    fc.assert(
      fc.property(
        fc.array(change),
        fc.constantFrom(lost, refused, { kind: 'ended' } as const),
        (later, end) => {
          const over = after(open, bytes(3), end);
          expect(later.reduce(nextLinkState, over)).toBe(over);
        },
      ),
    );
  });
});
