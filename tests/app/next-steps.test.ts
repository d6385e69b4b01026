import { expect, test } from 'vitest';
import { nextSteps } from '../../src/app/next-steps.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { joinAverages } from '../../src/crank/average-speed.ts';
import { judgeRun, type JudgedRun } from '../../src/jobs/judge-run.ts';
import { startingValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { CRANK_DELIVERY } from '../../src/app/guide-of.ts';
import { ascii, eec1Line, readPieces, tableOf } from '../pipeline/fixtures/eec1-log.ts';

/** Two cranks of 15 s at a steady 140 rpm: on the demonstration sheet the pass line stands at 195 mL there. */
const SPEEDS = [2, 15, 3, 15, 3].flatMap((seconds, part) =>
  Array<number>(seconds * 50).fill(part % 2 === 0 ? 0 : 140),
);
const { cranks } = tableOf(
  readPieces([ascii(SPEEDS.map((rpm, place) => eec1Line(place * 20, rpm)).join(''))]),
);

function judged(volumeMl: number | null): JudgedRun {
  const typed = { atIso: '2026-01-01T00:00:00Z', reason: '', typed: String(volumeMl) };
  const volume = volumeMl === null ? null : { kind: 'volume' as const, readingsMl: [volumeMl], ...typed };
  const facts = {
    cranks,
    average: joinAverages(cranks.map(({ average }) => average)),
    conditions: { fuelTemperature: 20 },
  };
  const values = { ...startingValues(vesselById('cylinder-500')), volume };
  const result = judgeRun(DEMONSTRATION_SHEET, 'crank-delivery', facts, values);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

test('a clear verdict is followed by the steps of the guide for its word', () => {
  const run = judged(260);
  expect(run.verdict?.word).toBe('pass');
  expect(nextSteps(run, CRANK_DELIVERY)).toEqual(CRANK_DELIVERY.advice.pass.next);
});

test('a verdict too close to call is followed by what would settle this run, not by general advice', () => {
  const run = judged(196);
  expect(run.verdict?.word).toBe('too close to call');
  const steps = nextSteps(run, CRANK_DELIVERY);
  expect(steps.length).toBeGreaterThan(0);
  expect(steps).not.toEqual(CRANK_DELIVERY.advice['too close to call'].next);
});

test('before a volume was typed there is nothing to follow', () => {
  expect(nextSteps(judged(null), CRANK_DELIVERY)).toEqual([]);
});
