import { describe, expect, it } from 'vitest';
import { expectCranks, type Pieces } from './fixtures/expect-cranks.ts';
import { findAll, log } from './fixtures/find-all.ts';

describe.each([10, 50, 100])('short events at %i samples a second', (rate) => {
  const intervalMs = 1000 / rate;
  const cranks = (pieces: Pieces) => findAll(log(pieces, intervalMs));

  it('a tap of the starter of 0.15 s is no crank, one of 0.5 s is', () => {
    expect(
      cranks([
        [3, 0],
        [0.15, 150],
        [3, 0],
      ]),
    ).toHaveLength(0);
    expect(
      cranks([
        [3, 0],
        [0.5, 150],
        [3, 0],
      ]),
    ).toHaveLength(1);
  });

  it('a cough above 400 for 0.3 s is cranking, for 1 s a start', () => {
    const cough = (seconds: number) =>
      cranks([
        [3, 0],
        [5, 150],
        [seconds, 480],
        [5, 150],
        [3, 0],
      ]).map(({ endedBy }) => endedBy);
    expect(cough(0.3)).toEqual(['released']);
    expect(cough(1)).toEqual(['engine started']);
  });

  it('a fall to 0 for 0.1 s within a crank does not part it, one of 0.5 s does', () => {
    const dip = (seconds: number) =>
      cranks([
        [3, 0],
        [5, 150],
        [seconds, 0],
        [5, 150],
        [3, 0],
      ]);
    expect(dip(0.1)).toHaveLength(1);
    expect(dip(0.5)).toHaveLength(2);
  });

  it('a bounce after the release is no crank of its own', () => {
    expect(
      cranks([
        [3, 0],
        [5, 150],
        [0.3, 0],
        [0.15, 70],
        [3, 0],
      ]),
    ).toHaveLength(1);
  });

  it('a bounce of a stopping engine is no crank', () => {
    expect(
      cranks([
        [3, 700],
        [1, 700, 0],
        [0.3, 0],
        [0.4, 80],
        [3, 0],
      ]),
    ).toHaveLength(0);
    expect(
      cranks([
        [3, 700],
        [1, 700, 0],
        [0.2, 0],
        [0.3, 80],
        [0.2, 0],
        [0.3, 60],
        [3, 0],
      ]),
    ).toHaveLength(0);
  });

  it('a restart after a run-down counts from half a second of standstill', () => {
    const after = (seconds: number) =>
      cranks([
        [3, 700],
        [1, 700, 0],
        [seconds, 0],
        [5, 150],
        [3, 0],
      ]);
    expect(after(0.3)).toHaveLength(0);
    expect(after(0.8)).toHaveLength(1);
    expect(after(0.8)[0]!.cutAtStart).toBe(false);
  });

  it('an engine that catches straight from standstill is no crank', () => {
    expect(
      cranks([
        [3, 0],
        [5, 700],
      ]),
    ).toHaveLength(0);
  });

  it.each([
    [0.4, ['released']],
    [0.9, ['released']],
    [1.5, ['data lost', 'released']],
  ] as const)('a hole of %f s within a crank gives %j', (seconds, ends) => {
    const holed = log(
      [
        [3, 0],
        [10, 150],
        [3, 0],
      ],
      intervalMs,
    ).filter(({ atMs }) => atMs <= 6000 || atMs >= 6000 + seconds * 1000);
    const found = findAll(holed);
    expect(found.map(({ endedBy }) => endedBy)).toEqual(ends);
    expect(found.map(({ cutAtStart }) => cutAtStart)).toEqual(ends.map((_, place) => place > 0));
  });

  it('a hole in the run-down makes no crank of its lower half', () => {
    const holed = log(
      [
        [3, 700],
        [3, 700, 0],
        [3, 0],
      ],
      intervalMs,
    ).filter(({ atMs }) => atMs <= 4000 || atMs >= 4700);
    expect(findAll(holed)).toEqual([]);
  });

  it('equal stamps, twice and five times over', () => {
    for (const times of [2, 5]) {
      const bunch = times * intervalMs;
      const samples = log(
        [
          [3, 0],
          [10, 150],
          [5, 0],
        ],
        intervalMs,
      ).map(({ atMs, rpm }) => ({
        atMs: Math.floor(atMs / bunch + 1e-9) * bunch,
        rpm,
      }));
      expectCranks(samples, [[3, 13, 'released']], bunch);
    }
  });

  it('a stamp that runs backwards makes no negative span', () => {
    const samples = log(
      [
        [3, 0],
        [10, 150],
        [3, 0],
      ],
      intervalMs,
    ).map(({ atMs, rpm }, i) => ({
      atMs: i % 50 === 25 ? atMs - 2.5 * intervalMs : atMs,
      rpm,
    }));
    expectCranks(samples, [[3, 13, 'released']], 3 * intervalMs);
  });
});

describe('at two samples a second', () => {
  it('a hole of one lost sample is bridged, and one longer than three intervals is not', () => {
    const ends = (fromMs: number, toMs: number) =>
      findAll(
        log(
          [
            [3, 0],
            [10, 150],
            [3, 0],
          ],
          500,
        ).filter(({ atMs }) => atMs <= fromMs || atMs >= toMs),
      ).map(({ endedBy }) => endedBy);
    expect(ends(6000, 7000)).toEqual(['released']);
    expect(ends(6000, 7500)).toEqual(['released']);
    expect(ends(6000, 8000)).toEqual(['data lost', 'released']);
  });

  it('one sample of cranking is a spike, two are a crank', () => {
    expect(
      findAll(
        log(
          [
            [3, 0],
            [0.5, 150],
            [3, 0],
          ],
          500,
        ),
      ),
    ).toHaveLength(0);
    expect(
      findAll(
        log(
          [
            [3, 0],
            [1, 150],
            [3, 0],
          ],
          500,
        ),
      ),
    ).toHaveLength(1);
  });
});
