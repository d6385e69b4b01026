import { describe, expect, it } from 'vitest';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import {
  breakFinder,
  crankUnderWay,
  currentPhase,
  finishFinder,
  foundCranks,
  stepFinder,
} from '../../src/crank/find-cranks.ts';
import { findAll, log, stepAll } from './fixtures/find-all.ts';

const TWO_CRANKS = [
  [3, 0],
  [15, 180],
  [20, 0],
  [15, 176],
  [3, 0],
] as const;
const shape = (cranks: ReturnType<typeof findAll>) =>
  cranks.map(({ start, end, endedBy }) => [start.atMs / 1000, end.atMs / 1000, endedBy]);

describe('finding cranks', () => {
  it.each([500, 250, 100, 20, 10])(
    'finds two 15 s cranks in samples every %i ms, within an interval',
    (dt) => {
      const cranks = findAll(log(TWO_CRANKS, dt));
      expect(cranks.map(({ endedBy }) => endedBy)).toEqual(['released', 'released']);
      cranks.forEach(({ start, end }, place) => {
        expect(Math.abs(start.atMs - [3000, 38_000][place]!)).toBeLessThanOrEqual(dt);
        expect(Math.abs(end.atMs - [18_000, 53_000][place]!)).toBeLessThanOrEqual(dt);
      });
    },
  );

  it('places the edges on the line between the samples, each with interval / sqrt 12 (GUM 4.3.7)', () => {
    const [crank] = findAll(
      log(
        [
          [2, 0],
          [10, 200],
          [3, 0],
        ],
        500,
      ),
    );
    // 0 at 1.5 s and 200 at 2.0 s: 50 is passed at 1.625 s. 200 at 11.5 s and 0 at 12.0 s: 30 at 11.925 s.
    expect(crank!.start.atMs).toBeCloseTo(1625, 9);
    expect(crank!.end.atMs).toBeCloseTo(11_925, 9);
    expect(crank!.start.standardUncertaintyMs).toBeCloseTo(144.3376, 4);
  });

  it('finds a crank of two samples at two samples a second', () => {
    expect(
      findAll(
        log(
          [
            [2, 0],
            [1, 150],
            [2, 0],
          ],
          500,
        ),
      ),
    ).toHaveLength(1);
  });

  it('ends a crank where speed rises through 400 rpm and stays for half a second', () => {
    const cranks = findAll(
      log(
        [
          [2, 0],
          [3, 150],
          [0.5, 150, 650],
          [5, 650],
        ],
        10,
      ),
    );
    expect(cranks).toHaveLength(1);
    expect(cranks[0]!.endedBy).toBe('engine started');
    expect(cranks[0]!.end.atMs).toBeCloseTo(5250, 6);
  });

  it('takes an excursion above 400 rpm of less than half a second as cranking', () => {
    const cranks = findAll(
      log(
        [
          [2, 0],
          [3, 150],
          [0.3, 450],
          [3, 150],
          [2, 0],
        ],
        10,
      ),
    );
    expect(shape(cranks).map(([, , how]) => how)).toEqual(['released']);
    expect(cranks[0]!.end.atMs).toBeGreaterThan(8200);
  });

  it('finds no crank in a run-down that holds 86.5 and 53.5 rpm and bounces', () => {
    const runDown = [
      [2, 700],
      [1, 700, 120],
      [0.4, 86.5],
      [1, 53.5],
      [0.2, 0],
      [0.3, 70],
      [3, 0],
    ] as const;
    expect(findAll(log(runDown, 10))).toEqual([]);
    expect(currentPhase(stepAll(log(runDown, 10)))).toBe('rest');
  });

  it('finds a crank after a run-down once the engine has stood for half a second, not before', () => {
    expect(
      findAll(
        log(
          [
            [2, 700],
            [1, 700, 0],
            [0.7, 0],
            [5, 150],
            [2, 0],
          ],
          10,
        ),
      ),
    ).toHaveLength(1);
    expect(
      findAll(
        log(
          [
            [2, 700],
            [1, 700, 0],
            [0.3, 0],
            [0.4, 150],
            [2, 0],
          ],
          10,
        ),
      ),
    ).toHaveLength(0);
  });

  it('keeps two cranks apart that are 0.3 s from each other', () => {
    expect(
      findAll(
        log(
          [
            [2, 0],
            [5, 150],
            [0.3, 0],
            [5, 150],
            [2, 0],
          ],
          10,
        ),
      ),
    ).toHaveLength(2);
  });

  it('survives a rest of twelve hours', () => {
    const cranks = findAll(
      log(
        [
          [2, 0],
          [5, 150],
          [43_200, 0],
          [5, 150],
          [2, 0],
        ],
        500,
      ),
    );
    expect(cranks).toHaveLength(2);
    expect(cranks[1]!.start.atMs - cranks[0]!.end.atMs).toBeGreaterThan(43_199_000);
  });

  it('splits a log that was paused between cranks at the jump', () => {
    const first = log(
      [
        [2, 0],
        [5, 150],
      ],
      100,
    );
    const second = log(
      [
        [5, 160],
        [2, 0],
      ],
      100,
    ).map(({ atMs, rpm }) => ({ atMs: atMs + 60_000, rpm }));
    const cranks = findAll([...first, ...second]);
    expect(cranks.map(({ endedBy, cutAtStart }) => [endedBy, cutAtStart])).toEqual([
      ['data lost', false],
      ['released', true],
    ]);
    expect(cranks[0]!.end.atMs).toBe(6900);
    expect(cranks[1]!.start.atMs).toBe(60_000);
  });

  it('bridges a hole shorter than the stale limit', () => {
    const holed = log(
      [
        [2, 0],
        [10, 150],
        [2, 0],
      ],
      100,
    ).filter(({ atMs }) => atMs <= 5000 || atMs >= 5900);
    expect(findAll(holed)).toHaveLength(1);
  });

  it('ends a crank as data lost when readings come but all are missing', () => {
    const samples = log(
      [
        [2, 0],
        [5, 150],
        [3, NaN],
      ],
      100,
    );
    const state = stepAll(samples);
    expect(currentPhase(state)).toBe('noData');
    expect(shape(foundCranks(state))).toEqual([[expect.any(Number), 6.9, 'data lost']]);
  });

  it('ends a crank at a break, and what follows is a new one, cut at its start', () => {
    const state = breakFinder(
      stepAll(
        log(
          [
            [2, 0],
            [5, 150],
          ],
          100,
        ),
      ),
      7000,
    );
    expect(shape(foundCranks(state))).toEqual([[expect.any(Number), 6.9, 'data lost']]);
    const after = log(
      [
        [5, 150],
        [2, 0],
      ],
      100,
    ).reduce((s, { atMs, rpm }) => stepFinder(s, atMs + 7000, rpm), state);
    expect(finishFinder(after).map(({ cutAtStart }) => cutAtStart)).toEqual([false, true]);
  });

  it('shows the crank under way, and cuts it when the data end', () => {
    const state = stepAll(
      log(
        [
          [2, 0],
          [5, 150],
        ],
        100,
      ),
    );
    expect(crankUnderWay(state)!.cutAtStart).toBe(false);
    expect(foundCranks(state)).toEqual([]);
    expect(finishFinder(state)).toMatchObject([{ endedBy: 'cut', end: { atMs: 6900 } }]);
    expect(foundCranks(state)).toEqual([]); // finishing changes nothing
  });

  it('takes samples that arrive in bunches with one time stamp', () => {
    const bunched = log(TWO_CRANKS, 10).map(({ atMs, rpm }) => ({ atMs: Math.floor(atMs / 50) * 50, rpm }));
    expect(findAll(bunched)).toHaveLength(2);
  });

  it('keeps the default levels of measurement.md section 2', () => {
    expect(DEFAULT_CRANK_SETTINGS).toMatchObject({ startRpm: 50, endRpm: 30, runningRpm: 400, holdMs: 200 });
  });
});
