import { describe, expect, test } from 'vitest';
import { boundaryAt } from '../../src/limits/boundary-curve.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { findScenario, SCENARIOS } from '../../simulators/scenarios.ts';
import { cranksIn, gradeRun } from './graded-run.ts';
import { playBench, readingOf, readLines, speedsOf, TWO_CRANKS } from './bench-runs.ts';

const chart = DEMONSTRATION_SHEET.limits.find((limit) => limit.kind === 'speed chart')!;
if (chart.kind !== 'speed chart') throw new Error('the demonstration sheet has no speed chart');

/** What a person with a spreadsheet would find: seconds and mean of what was reported between 50 and 400 rpm. */
function cranksOf(text: string): { seconds: number; meanRpm: number; topRpm: number } {
  const speeds = speedsOf(readLines(text));
  const everyMs = speeds[1]!.timeMs - speeds[0]!.timeMs;
  const within = speeds.filter(({ rpm }) => rpm > 50 && rpm < 400);
  const meanRpm = within.reduce((sum, { rpm }) => sum + rpm, 0) / within.length;
  return {
    seconds: (within.length * everyMs) / 1000,
    meanRpm,
    topRpm: Math.max(...speeds.map(({ rpm }) => rpm)),
  };
}

/**
 * 1.645 times a generous standard uncertainty of 6 mL (vessel 2.7, crank time 0.25 s of 30 s, speed 2 rpm): beyond that a
 * verdict is sure to more than 95 % on the rules of measurement.md 6.
 */
const SURE_ML = 10;

describe.each(SCENARIOS)('scenario $id', (scenario) => {
  const run = playBench(scenario, TWO_CRANKS);
  const found = cranksOf(run.text);
  const boundary = (curve: typeof chart.failBelow) =>
    boundaryAt(curve, chart.join, found.meanRpm)?.volumeMl ?? null;

  test('keeps its promise on the demonstration sheet with room to spare', () => {
    const { verdict, because } = scenario.promise;
    const reading = readingOf(run);
    const fail = boundary(chart.failBelow);
    const pass = boundary(chart.passAbove);
    if (verdict === 'pass') expect(reading! - pass!).toBeGreaterThan(SURE_ML);
    if (verdict === 'fail low') expect(fail! - reading!).toBeGreaterThan(SURE_ML);
    if (verdict === 'marginal') {
      expect(reading! - fail!).toBeGreaterThan(SURE_ML);
      expect(pass! - reading!).toBeGreaterThan(SURE_ML);
    }
    if (because === 'too slow for the chart') expect(found.meanRpm).toBeLessThan(chart.failBelow[0]![0] - 5);
    if (because === 'engine started') expect(found.topRpm).toBeGreaterThan(600);
  });

  test.runIf(scenario.promise.because !== 'engine started')(
    'the product finds two cranks and gives the verdict promised, sure to more than 95 %',
    () => {
      expect(cranksIn(run).map(({ endedBy }) => endedBy)).toEqual(['released', 'released']);
      const verdict = gradeRun(run, chart);
      expect(verdict.word).toBe(scenario.promise.verdict);
      if (scenario.promise.because === null) expect(verdict.confidence).toBeGreaterThan(0.95);
      else expect(verdict.reasons.map(({ code }) => code)).toContain('check.too-slow-for-chart');
    },
  );

  test.runIf(scenario.promise.because === 'engine started')(
    'the product finds one crank, ended by the engine',
    () => {
      expect(cranksIn(run).map(({ endedBy }) => endedBy)).toEqual(['engine started']);
    },
  );

  test.runIf(scenario.promise.because === null)(
    'its reported cranks add up to 30 s within the 5 % of the sheet',
    () => {
      expect(found.seconds).toBeGreaterThan(28.5);
      expect(found.seconds).toBeLessThan(31.5);
    },
  );

  test.runIf(scenario.promise.because !== 'engine started')(
    'never starts, and stays a crank: above 50 rpm',
    () => {
      expect(found.topRpm).toBeLessThan(250);
      const cranking = speedsOf(readLines(run.text)).filter(({ timeMs }) => timeMs > 7000 && timeMs < 18_000);
      expect(Math.min(...cranking.map(({ rpm }) => rpm))).toBeGreaterThan(55);
    },
  );

  test('tells a story that says it is invented', () => {
    expect(scenario.story).toMatch(/Invented engine\.$/);
  });
});

describe('the list', () => {
  test('names each scenario once', () => {
    expect(new Set(SCENARIOS.map(({ id }) => id)).size).toBe(SCENARIOS.length);
    expect(new Set(SCENARIOS.map(({ title }) => title)).size).toBe(SCENARIOS.length);
  });

  test('finds by name, and nothing for a name that it does not hold', () => {
    expect(findScenario('worn')?.title).toBe('Worn pump');
    expect(findScenario('constructor')).toBeNull();
  });
});
