import { describe, expect, it } from 'vitest';
import type { CheckSettings } from '../../src/checks/check-settings.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { joinAverages } from '../../src/crank/average-speed.ts';
import { NO_FACTS } from '../../src/jobs/check-facts.ts';
import { judgeCheck } from '../../src/jobs/judge-check.ts';
import { judgeRun } from '../../src/jobs/judge-run.ts';
import { startingValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { codesOf, sampled, signalsFrom } from '../checks/example-signals.ts';
import { entryOf } from '../checks/example-cranks.ts';
import { guideOf, judgeExample, observed, sheetOf, typedValue, typedVolumeMl } from './example-checks.ts';

const STEADY: CheckSettings = {
  kind: 'steady pressure',
  signal: 'supplyPressure',
  speed: null,
  leastSeconds: 5,
  steadyWithinKPa: 40,
  vacuum: false,
};
const CRANKING: CheckSettings = { kind: 'crank delivery', longestCrankSeconds: 30, leastRestSeconds: 120 };
const still = signalsFrom({ supplyPressure: sampled(10_000, 100, () => 500) });
const cranks = [entryOf(15), entryOf(15)];
const delivered = {
  ...NO_FACTS,
  cranks,
  average: joinAverages(cranks.map(({ average }) => average)),
  conditions: { fuelTemperature: 20 },
};

describe('judgeCheck', () => {
  it('judges a typed value like a measured one', () => {
    // 450 kPa typed, tolerance ±10 kPa: u = 10/√3 = 5.77; (450 − 400)/5.77 = 8.7 standard uncertainties above the lowest value.
    const { verdict, valueSummary } = judgeExample(
      STEADY,
      sheetOf('pressure', 400, null),
      {},
      {
        values: typedValue(450, 10),
      },
    );
    expect(verdict).toMatchObject({ word: 'pass', nearest: { name: 'min', distance: 50 } });
    expect(valueSummary).toMatchObject({ quantity: 'pressure', value: 450 });
    expect(valueSummary?.standardUncertainty).toBeCloseTo(5.7735, 4);
  });

  it('has no verdict while the value may still come, and a reason once the data are over', () => {
    const short = { signals: signalsFrom({ supplyPressure: sampled(2000, 100, () => 500) }) };
    const sheet = sheetOf('pressure', 400, null);
    const live = judgeExample(STEADY, sheet, short, { over: false });
    expect(live.verdict).toBeNull();
    expect(live.measurement).toMatchObject({ value: { reasons: [{ code: 'check.not-steady' }] } });
    const over = judgeExample(STEADY, sheet, short).verdict;
    expect(over?.word).toBe('not valid');
    expect(codesOf(over?.reasons ?? [])).toEqual(['check.not-steady']);
  });

  it('measures without a sheet, and says that nothing can be judged', () => {
    const judged = judgeExample(STEADY, null, { signals: still });
    expect(judged.measurement).toMatchObject({ value: { value: 500 } });
    expect(judged.valueSummary?.value).toBe(500);
    expect(codesOf(judged.verdict?.reasons ?? [])).toEqual(['limit.no-sheet']);
    expect(judged).toMatchObject({ limit: null, verdict: { word: 'not valid' } });
  });

  it('says which limits a sheet has where this one is missing', () => {
    const { verdict } = judgeExample(STEADY, DEMONSTRATION_SHEET, { signals: still });
    expect(codesOf(verdict?.reasons ?? [])).toEqual(['limit.check-not-in-sheet']);
  });

  it('does not hold a pressure against a chart of volumes', () => {
    const chart = { ...DEMONSTRATION_SHEET.limits[0]!, check: 'example' };
    const sheet = { ...DEMONSTRATION_SHEET, limits: [chart] };
    const { verdict, limit } = judgeExample(STEADY, sheet, { signals: still });
    expect(limit).toEqual(chart);
    expect(codesOf(verdict?.reasons ?? [])).toEqual(['check.limit-not-a-window']);
  });

  it('lets the warnings of the sheet enter every verdict', () => {
    const sheet = { ...sheetOf('pressure', 400, null), invented: true };
    const { verdict } = judgeExample(STEADY, sheet, { signals: still });
    expect(verdict?.word).toBe('pass');
    expect(codesOf(verdict?.warnings ?? [])).toContain('limit.invented');
  });

  it('weighs the conditions of the limit over the stretch that was measured', () => {
    const conditions = [
      { signal: 'fuelTemperature' as const, min: 5, max: 60, outside: 'not valid' as const },
    ];
    const hot = signalsFrom({
      supplyPressure: sampled(10_000, 100, () => 500),
      fuelTemperature: sampled(10_000, 1000, () => 72),
    });
    const sheet = sheetOf('pressure', 400, null, { conditions });
    expect(codesOf(judgeExample(STEADY, sheet, { signals: hot }).verdict?.reasons ?? [])).toEqual([
      'check.condition-outside',
    ]);
    const silent = judgeExample(STEADY, sheet, { signals: still }).verdict;
    expect(codesOf(silent?.reasons ?? [])).toEqual(['check.condition-unknown']);
  });

  it('needs no sheet for an inspection', () => {
    const settings: CheckSettings = {
      kind: 'inspection',
      points: [{ id: 'water', ask: 'Is it dry?', look: 'Look.', whenNot: 'fail low', cause: 'water' }],
    };
    const { verdict, valueSummary } = judgeExample(
      settings,
      null,
      {},
      {
        values: observed({ water: 'in order' }),
      },
    );
    expect(verdict).toMatchObject({ word: 'pass', reasons: [] });
    expect(valueSummary).toBeNull();
  });

  it('fails where the run does not say how its check is done', () => {
    for (const guide of [null, guideOf(CRANKING)]) {
      const asked = { kind: 'inspection', check: 'example', sheet: null, guide } as const;
      const judged = judgeCheck({ ...asked, facts: NO_FACTS, values: startingValues(null) });
      expect(judged).toMatchObject({ ok: false, problem: { code: 'check.no-settings' } });
    }
  });
});

describe('judgeCheck of a crank delivery', () => {
  const values = { ...startingValues(vesselById('cylinder-500')), ...typedVolumeMl(300) };
  const asked = { kind: 'crank delivery', guide: null, check: 'crank-delivery' } as const;

  it('is what judgeRun gives, with the summary and every step', () => {
    const judged = judgeCheck({ ...asked, sheet: DEMONSTRATION_SHEET, facts: delivered, values });
    const run = judgeRun(DEMONSTRATION_SHEET, 'crank-delivery', delivered, values);
    if (!judged.ok || !run.ok) throw new Error('not judged');
    const { chart, delivery, verdict } = run.value;
    expect(judged.value).toMatchObject({ verdict, limit: chart, measurement: { chart, delivery } });
    expect(judged.value.valueSummary).toMatchObject({ quantity: 'volume', value: 300, step: 5 });
    expect(judged.value.arithmetic.at(-1)?.label).toBe('Verdict');
  });

  it('is measured without a sheet, against no target, and judged by nothing', () => {
    const judged = judgeCheck({ ...asked, sheet: null, facts: delivered, values });
    if (!judged.ok) throw new Error(judged.problem.code);
    const { measurement, verdict } = judged.value;
    expect(measurement).toMatchObject({ chart: null, delivery: { crankSeconds: 30, reasons: [] } });
    expect(codesOf(verdict?.reasons ?? [])).toEqual(['limit.no-sheet']);
    const before = judgeCheck({ ...asked, sheet: null, facts: delivered, values: startingValues(null) });
    expect(before.ok && before.value.verdict).toBeNull();
  });
});
