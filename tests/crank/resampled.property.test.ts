import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { averageSpeed } from '../../src/crank/average-speed.ts';
import { findAll } from './fixtures/find-all.ts';
import { traceOf, type SpeedSample } from './fixtures/read-recording.ts';

interface Shape {
  readonly cranks: readonly {
    readonly seconds: number;
    readonly rpm: number;
    readonly restSeconds: number;
  }[];
  readonly rate: number;
  readonly phase: number;
}

/** A profile over continuous time: standstill, cranks with a ripple of 4 %, standstill. */
function profile({ cranks }: Shape) {
  let t = 3;
  const spans = cranks.map(({ seconds, rpm, restSeconds }) => {
    const span = { from: t, to: t + seconds, rpm };
    t += seconds + restSeconds;
    return span;
  });
  const at = (s: number) => {
    const span = spans.find(({ from, to }) => s >= from && s < to);
    return span ? span.rpm * (1 + 0.04 * Math.sin(15 * s)) : 0;
  };
  return { spans, at, seconds: t };
}

function sampled(shape: Shape): SpeedSample[] {
  const { at, seconds } = profile(shape);
  return Array.from({ length: Math.floor(seconds * shape.rate) }, (_, i) => {
    const s = (i + shape.phase) / shape.rate;
    return { atMs: s * 1000, rpm: at(s) };
  });
}

const shapes = fc.record({
  cranks: fc.array(
    fc.record({
      seconds: fc.double({ min: 2, max: 15, noNaN: true }),
      rpm: fc.double({ min: 80, max: 350, noNaN: true }),
      restSeconds: fc.double({ min: 3, max: 20, noNaN: true }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  rate: fc.double({ min: 2, max: 100, noNaN: true }),
  phase: fc.double({ min: 0, max: 0.99, noNaN: true }),
});

describe('one engine seen at any rate from 2 to 100 samples a second', () => {
  it('shows the same cranks, each edge within one interval', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const { spans } = profile(shape);
        const cranks = findAll(sampled(shape));
        expect(cranks).toHaveLength(spans.length);
        const allowedMs = 1000 / shape.rate + 1e-6;
        cranks.forEach(({ start, end, endedBy }, place) => {
          expect(endedBy).toBe('released');
          expect(Math.abs(start.atMs - spans[place]!.from * 1000)).toBeLessThanOrEqual(allowedMs);
          expect(Math.abs(end.atMs - spans[place]!.to * 1000)).toBeLessThanOrEqual(allowedMs);
        });
      }),
      { numRuns: 200 },
    );
  });

  it('shows the same speed between the edges, within the ripple', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const trace = traceOf(sampled(shape));
        for (const { from, to, rpm } of profile(shape).spans) {
          const average = averageSpeed(trace, (from + 0.5) * 1000, (to - 0.5) * 1000, {
            resolutionRpm: 0.125,
          });
          expect(Math.abs(average.meanRpm / rpm - 1)).toBeLessThanOrEqual(0.04 + 1e-9);
          expect(average.minRpm).toBeGreaterThanOrEqual(0.96 * rpm - 1e-6);
          expect(average.maxRpm).toBeLessThanOrEqual(1.04 * rpm + 1e-6);
        }
      }),
      { numRuns: 200 },
    );
  });
});
