import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureCrankDelivery, type CrankDeliveryInput } from '../../src/checks/crank-delivery.ts';
import type { CrankEntry } from '../../src/checks/crank-entry.ts';
import type { CrankDelivery, Override } from '../../src/checks/measurement.ts';
import { VESSELS } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { gradeSpeedChart } from '../../src/grading/grade-speed-chart.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { averageOf, entryOf } from './example-cranks.ts';

const CHART = DEMONSTRATION_SHEET.limits.find((limit) => limit.kind === 'speed chart');
if (!CHART) throw new Error('no chart');
const RANK = ['fail low', 'marginal', 'pass', 'fail high'];

const spans = fc.double({ min: 5, max: 20, noNaN: true });
/** A crank as it may come: any length, ended any way, covered more or less, moved or left out, with or without a reason. */
const entries: fc.Arbitrary<CrankEntry> = fc
  .record({
    seconds: spans,
    doubt: fc.double({ min: 0, max: 600, noNaN: true }),
    endedBy: fc.constantFrom('released', 'released', 'engine started', 'data lost', 'cut'),
    coverage: fc.double({ min: 0, max: 1, noNaN: true }),
    why: fc.constantFrom(null, null, '', 'seen on the trace'),
    leftOut: fc.constantFrom(null, null, null, ' ', 'air in the line'),
  })
  .map(({ seconds, doubt, endedBy, coverage, why, leftOut }) =>
    entryOf(seconds, {
      found: { endedBy },
      speed: { coverage },
      time: { spanMs: 1000 * seconds, standardUncertaintyMs: doubt },
      setEdges: why === null ? null : { startMs: 0, endMs: 1000 * seconds, reason: why },
      leftOut: leftOut === null ? null : { reason: leftOut },
    }),
  );
const lists = fc.array(entries, { minLength: 1, maxLength: 5 });
const overrides: fc.Arbitrary<Override[]> = fc.array(
  fc.record({
    code: fc.constantFrom(
      'check.time-outside' as const,
      'check.crank-cut' as const,
      'check.crank-data-lost' as const,
      'check.engine-started' as const,
      'check.coverage-too-low' as const,
    ),
    reason: fc.constantFrom('', ' ', 'known by stopwatch'),
  }),
  { maxLength: 4 },
);

function volumeOf(readingMl: number) {
  const vessel = VESSELS[3];
  const volume = vessel && measureVolume({ vessel, readingsMl: [readingMl] });
  if (!volume?.ok) throw new Error('no volume');
  return volume.value;
}
const deliver = (cranks: readonly CrankEntry[], change: Partial<CrankDeliveryInput> = {}): CrankDelivery =>
  measureCrankDelivery({
    limit: CHART,
    cranks,
    average: averageOf(180, 30_000),
    volume: volumeOf(260),
    conditions: { fuelTemperature: 30 },
    ...change,
  });
const codesOf = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code).sort();

describe('a crank delivery', () => {
  it('is the same in whatever order its cranks are listed', () => {
    fc.assert(
      fc.property(lists, overrides, (cranks, words) => {
        const forward = deliver(cranks, { overrides: words });
        const backward = deliver([...cranks].reverse(), { overrides: words });
        expect(backward.crankSeconds).toBeCloseTo(forward.crankSeconds, 9);
        expect(backward.crankSecondsUncertainty).toBeCloseTo(forward.crankSecondsUncertainty, 9);
        expect(codesOf(backward.reasons)).toEqual(codesOf(forward.reasons));
        expect(codesOf(backward.warnings)).toEqual(codesOf(forward.warnings));
        const verdicts = [forward, backward].map((each) => gradeSpeedChart(each, CHART));
        expect(verdicts[1]?.word).toBe(verdicts[0]?.word);
        expect(verdicts[1]?.leaning).toBe(verdicts[0]?.leaning);
      }),
    );
  });

  it('with a crank left out equals one that never had it, but for the warning that says so', () => {
    fc.assert(
      fc.property(lists, entries, (cranks, extra) => {
        fc.pre(cranks.some(({ leftOut }) => !leftOut));
        const without = deliver(cranks);
        // Listed last, so that the numbers of the others stay.
        const withOne = deliver([...cranks, { ...extra, leftOut: { reason: 'priming' } }]);
        expect(withOne.reasons).toEqual(without.reasons);
        expect(withOne.crankSeconds).toBe(without.crankSeconds);
        expect(withOne.crankSecondsUncertainty).toBe(without.crankSecondsUncertainty);
        expect(withOne.volumeAtTargetMl).toBe(without.volumeAtTargetMl);
        expect(codesOf(withOne.warnings)).toEqual(
          [...codesOf(without.warnings), 'check.crank-left-out'].sort(),
        );
        const { warnings } = gradeSpeedChart(without, CHART);
        expect({ ...gradeSpeedChart(withOne, CHART), warnings }).toEqual(gradeSpeedChart(without, CHART));
      }),
    );
  });

  it('never loses a problem to an override: each is a reason or a warning still', () => {
    fc.assert(
      fc.property(lists, overrides, (cranks, words) => {
        const plain = deliver(cranks);
        const argued = deliver(cranks, { overrides: words });
        for (const problem of [...plain.reasons, ...plain.warnings])
          expect([...argued.reasons, ...argued.warnings]).toContainEqual(problem);
        const aside = plain.reasons.filter((reason) => !argued.reasons.some((kept) => kept === reason));
        const before = plain.warnings.length;
        const said = argued.warnings.filter(({ code }) => code === 'check.overridden');
        const gone =
          plain.reasons.length -
          argued.reasons.filter(({ code }) => code !== 'check.override-without-reason').length;
        expect(said).toHaveLength(gone);
        expect(argued.warnings).toHaveLength(before + 2 * gone);
        expect(aside.length).toBeGreaterThanOrEqual(gone);
      }),
    );
  });

  it('is as uncertain in time as its cranks together at most, and as the surest of them at least', () => {
    fc.assert(
      fc.property(lists, (cranks) => {
        const counting = cranks.filter(({ leftOut }) => !leftOut);
        fc.pre(counting.length > 0);
        const doubts = counting.map(({ time }) => time.standardUncertaintyMs / 1000);
        const { crankSecondsUncertainty } = deliver(cranks);
        expect(crankSecondsUncertainty).toBeLessThanOrEqual(
          doubts.reduce((sum, doubt) => sum + doubt, 0) + 1e-9,
        );
        expect(crankSecondsUncertainty).toBeGreaterThanOrEqual(Math.hypot(...doubts) - 1e-9);
      }),
    );
  });

  it('outside its time scales so that rate and target give the estimate, and inside has none', () => {
    fc.assert(
      fc.property(spans, spans, fc.double({ min: 1, max: 900, noNaN: true }), (first, second, readingMl) => {
        const delivery = deliver([entryOf(first), entryOf(second)], { volume: volumeOf(readingMl) });
        const total = first + second;
        const outside = Math.abs(total - 30) > 1.5 + 1e-9;
        expect(codesOf(delivery.reasons)).toEqual(outside ? ['check.time-outside'] : []);
        if (!outside) expect(delivery.volumeAtTargetMl).toBeNull();
        else expect((delivery.volumeAtTargetMl ?? NaN) / 30).toBeCloseTo(readingMl / total, 9);
      }),
    );
  });

  it('delivers the same estimate from twice the volume in twice the time', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 9, noNaN: true }),
        fc.double({ min: 10, max: 400, noNaN: true }),
        (seconds, ml) => {
          const estimate = (factor: number) =>
            deliver([entryOf(factor * seconds)], { volume: volumeOf(factor * ml) }).volumeAtTargetMl ?? NaN;
          expect(estimate(2)).toBeCloseTo(estimate(1), 9);
        },
      ),
    );
  });
});

describe('the verdict on a whole delivery', () => {
  const rpm = fc.double({ min: 100, max: 260, noNaN: true });
  const ml = fc.double({ min: 0, max: 1000, noNaN: true });

  it('never falls when more was collected at the same speed', () => {
    fc.assert(
      fc.property(rpm, ml, ml, (speed, a, b) => {
        const rank = (readingMl: number) =>
          RANK.indexOf(
            gradeSpeedChart(
              deliver([entryOf(15), entryOf(15)], {
                volume: volumeOf(readingMl),
                average: averageOf(speed, 30_000),
              }),
              CHART,
            ).leaning ?? '',
          );
        expect(rank(Math.max(a, b))).toBeGreaterThanOrEqual(rank(Math.min(a, b)));
        expect(rank(a)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('never rises when the engine turned faster for the same volume', () => {
    fc.assert(
      fc.property(rpm, rpm, ml, (a, b, readingMl) => {
        const rank = (speed: number) =>
          RANK.indexOf(
            gradeSpeedChart(
              deliver([entryOf(15), entryOf(15)], {
                volume: volumeOf(readingMl),
                average: averageOf(speed, 30_000),
              }),
              CHART,
            ).leaning ?? '',
          );
        expect(rank(Math.max(a, b))).toBeLessThanOrEqual(rank(Math.min(a, b)));
      }),
    );
  });

  it('does not exist outside 100 to 260 rpm, whatever was collected', () => {
    const off = fc.oneof(
      fc.double({ min: 0, max: 99.999, noNaN: true }),
      fc.double({ min: 260.001, max: 900, noNaN: true }),
    );
    fc.assert(
      fc.property(off, ml, (speed, readingMl) => {
        const average = averageOf(speed, 30_000);
        const delivery = deliver([entryOf(15), entryOf(15)], { volume: volumeOf(readingMl), average });
        expect(gradeSpeedChart(delivery, CHART)).toMatchObject({ word: 'not valid', probabilities: null });
      }),
    );
  });
});
