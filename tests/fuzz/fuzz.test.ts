import { describe, expect, it } from 'vitest';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { collectedHeap } from './collected-heap.ts';
import { CORPUS } from './corpus.ts';
import { structuralBytes } from './digest.ts';
import { fuzzMany } from './fuzz-many.ts';
import { findingsOf, sessionOf, through, WIRES } from './fuzz-pipeline.ts';
import { costOf, HARD_STREAMS, heldBytes, inPieces, PIECES } from './scaling.ts';

/** The clock of this process's own work: others on the machine do not count. */
const workMs = () => process.cpuUsage().user / 1000;

/** Bytes of the short run; `npm run fuzz` does ten million and more. */
const SHORT_BYTES = 100_000;
const FIRST_SEED = 20_251_125;

describe('bytes of any kind, through recognising, every line protocol, J1939 and the pipeline', () => {
  it('neither throw, nor are lost, nor give another state when they are cut in another way', () => {
    const run = fuzzMany(FIRST_SEED, SHORT_BYTES, { clockMs: workMs });
    expect(run.findings).toEqual([]);
    expect(run.bytes).toBeGreaterThanOrEqual(SHORT_BYTES);
  });

  it('are the same for the same seed, and others for another', () => {
    expect(sessionOf(3, 2000)).toEqual(sessionOf(3, 2000));
    expect(sessionOf(3, 2000).bytes).not.toEqual(sessionOf(4, 2000).bytes);
  });

  it('would be found out: a session of which the cuttings differ by one byte is a finding', () => {
    const session = sessionOf(3, 2000);
    const last = session.coarse.at(-1)!;
    const short =
      last.kind === 'bytes' ? [...session.coarse.slice(0, -1), { ...last, bytes: last.bytes.slice(1) }] : [];
    expect(findingsOf({ ...session, coarse: short }).map(({ what }) => what)).toEqual(
      expect.arrayContaining([expect.stringMatching(/another cutting/)]),
    );
  });
});

describe('the corpus', () => {
  it.each(CORPUS.filter(({ dialect }) => dialect !== 'json' && dialect !== 'csv'))(
    '$dialect, $name: some of it is read as what it is',
    ({ dialect, bytes }) => {
      const wire = dialect === 'slcan' ? 'slcan' : 'candump';
      const { counts } = through(inPieces(bytes, 16), wire).wire!;
      expect(counts.frames + counts.lost + counts.malformed.notKept).toBeGreaterThan(0);
      expect(counts.bytes).toBe(bytes.length);
      expect([wire, null]).toContain(recogniseWire(bytes));
    },
  );
});

describe('time', () => {
  /** Twelve times the bytes may take some 12 times as long; a quadratic reader would take 144 times. */
  const [SMALL, LARGE] = [8192, 98_304];
  const MOST_TIMES = 60;
  const FLOOR_MS = 2; // below it the clock tells nothing

  it.each(Object.keys(HARD_STREAMS))('grows with the bytes and no faster: %s', (name) => {
    const make = HARD_STREAMS[name]!;
    for (const wire of WIRES) {
      const small = costOf(make(SMALL), { wire, pieceBytes: Infinity, times: 2 }, workMs);
      const large = costOf(make(LARGE), { wire, pieceBytes: Infinity, times: 1 }, workMs);
      expect(large / Math.max(FLOOR_MS, small), wire).toBeLessThan(MOST_TIMES);
    }
  });
});

describe('memory', () => {
  const usedBytes = collectedHeap();
  const PIECE = PIECES['as from a port'];
  const [ONCE, MORE] = [100_000, 700_000];
  /** What is compiled on the way takes some 100 kB at its own time; a reader that kept what it read would hold 600 kB more. */
  const NOISE = 300_000;

  it.each([
    ['no terminator at all', 'slcan'],
    ['no terminator at all', 'auto'],
    ['random bytes', 'candump'],
    ['random bytes', 'auto'],
    ['opened numbers', 'reading-lines'],
    ['transfers opened and never filled', 'slcan'],
  ] as const)('is the same after so many bytes and after seven times as many: %s, %s', (name, wire) => {
    const held = (bytes: number) => heldBytes(inPieces(HARD_STREAMS[name]!(bytes), PIECE), wire, usedBytes);
    held(ONCE);
    const once = held(ONCE);
    expect(held(MORE) - once).toBeLessThan(NOISE);
  });

  it('of a state that can be looked into does not grow with junk', () => {
    const held = (bytes: number) => {
      const { wire, ...rest } = through(inPieces(HARD_STREAMS['random bytes']!(bytes), PIECE), 'slcan');
      return structuralBytes(rest) + structuralBytes(wire?.counts);
    };
    expect(held(MORE) - held(ONCE)).toBeLessThan(2000);
  });
});
