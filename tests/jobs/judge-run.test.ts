import { describe, expect, it } from 'vitest';
import { VESSELS, vesselById } from '../../src/checks/vessels.ts';
import { joinAverages } from '../../src/crank/average-speed.ts';
import { checkFacts } from '../../src/jobs/check-facts.ts';
import { judgeRun, type CrankFacts } from '../../src/jobs/judge-run.ts';
import { startingValues, type RunValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import { ascii, eec1Line, readPieces, tableOf } from '../pipeline/fixtures/eec1-log.ts';

/** Two cranks of 15 s at a steady 140 rpm, where the sheet's boundaries are points: fail below 156 mL, pass above 195 mL. */
const SPEEDS = [2, 15, 3, 15, 3].flatMap((seconds, part) =>
  Array<number>(seconds * 50).fill(part % 2 === 0 ? 0 : 140),
);
const state = readPieces([ascii(SPEEDS.map((rpm, place) => eec1Line(place * 20, rpm)).join(''))]);
const { cranks } = tableOf(state);
const facts: CrankFacts = {
  cranks,
  average: joinAverages(cranks.map(({ average }) => average)),
  conditions: { fuelTemperature: 20 },
};

const typed = (volumeMl: number, more: Partial<RunValues> = {}): RunValues => {
  const volume = {
    kind: 'volume' as const,
    readingsMl: [volumeMl],
    typed: `${volumeMl}`,
    atIso: '2026-01-01T00:00:00Z',
    reason: '',
  };
  return { ...startingValues(vesselById('cylinder-500')), volume, volumes: [volume], ...more };
};
const judge = (values: RunValues, from = facts) => {
  const judged = judgeRun(DEMONSTRATION_SHEET, 'crank-delivery', from, values);
  if (!judged.ok) throw new Error(judged.problem.code);
  return judged.value;
};
const codes = (problems: readonly { code: string }[] | undefined) => problems?.map(({ code }) => code);

describe('judgeRun', () => {
  it('has no verdict before a volume was typed, and no problem with that', () => {
    const { verdict, volumeProblem, delivery } = judge(startingValues(VESSELS[2]!));
    expect({ verdict, volumeProblem }).toEqual({ verdict: null, volumeProblem: null });
    expect(delivery.cranks).toHaveLength(2);
  });

  it('passes 260 mL and fails 100 mL (low) at 140 rpm on the demonstration sheet, and says that it is invented', () => {
    expect(judge(typed(260)).verdict).toMatchObject({ word: 'pass' });
    expect(judge(typed(100)).verdict).toMatchObject({ word: 'fail low' });
    expect(codes(judge(typed(260)).verdict?.warnings)).toContain('limit.invented');
  });

  it('tells how much of the engine speed did not arrive, beside the verdict', () => {
    // Every fifth line is not there: a fifth is missing.
    const thin = readPieces([
      ascii(SPEEDS.map((rpm, place) => (place % 5 === 4 ? '' : eec1Line(place * 20, rpm))).join('')),
    ]);
    const values = typed(260);
    const { verdict } = judge(values, checkFacts(thin, tableOf(thin), values));
    expect(verdict?.word).toBe('pass');
    expect(verdict?.warnings).toContainEqual({ code: 'check.frames-missing', context: { percent: 20 } });
    const whole = judge(values, checkFacts(state, tableOf(state), values));
    expect(codes(whole.verdict?.warnings)).not.toContain('check.frames-missing');
  });

  it('names the vessel where it is missing or too small, and gives no verdict', () => {
    expect(judge(typed(260, { vessel: null }))).toMatchObject({
      verdict: null,
      volumeProblem: { code: 'check.no-vessel' },
    });
    const small = judge(typed(260, { vessel: vesselById('cylinder-100') }));
    expect(small.verdict).toBeNull();
    expect(small.volumeProblem).not.toBeNull();
  });

  it('does not count a crank that was left out, so that the time is outside; an override lets it stand', () => {
    const leftOut = new Map([[1, 'hose slipped']]);
    const without = judge(typed(130, { leftOut }));
    expect(without.delivery.cranks.map(({ counts }) => counts)).toEqual([true, false]);
    expect(without.verdict?.word).toBe('not valid');
    expect(codes(without.verdict?.reasons)).toContain('check.time-outside');
    const overrides = new Map([['check.time-outside', 'one crank only']]);
    expect(codes(judge(typed(130, { leftOut, overrides })).verdict?.reasons)).not.toContain(
      'check.time-outside',
    );
  });

  it('uses the edges that the person set, and the found one where only one was', () => {
    const endMs = cranks[0]!.endMs - 1000;
    const edges = new Map([[0, { startMs: null, endMs, reason: 'late' }]]);
    const table = crankTable(state, { over: true, edges });
    const moved = judge(typed(260, { edges }), { ...facts, cranks: table.cranks });
    expect(moved.delivery.cranks[0]).toMatchObject({ endMs, startMs: cranks[0]!.crank.starterOn.atMs });
    expect(moved.delivery.crankSeconds).toBeCloseTo(judge(typed(260)).delivery.crankSeconds - 1, 6);
  });

  it('warns where a condition of the chart does not hold', () => {
    const hot = judge(typed(260), { ...facts, conditions: { fuelTemperature: 75 } }); // the sheet: 5 to 60 degC
    const warm = codes(judge(typed(260)).delivery.warnings) ?? [];
    expect((codes(hot.delivery.warnings) ?? []).length).toBe(warm.length + 1);
  });

  it('judges by the sheet taken in the run, not by the one that it began with', () => {
    const chart = DEMONSTRATION_SHEET.limits[0]!;
    if (chart.kind !== 'speed chart') throw new Error('no chart');
    const twice = (curve: typeof chart.failBelow) =>
      curve.map(([rpm, ml]): [number, number] => [rpm, 2 * ml]);
    const limit = { ...chart, failBelow: twice(chart.failBelow), passAbove: twice(chart.passAbove) };
    const sheet = {
      ...DEMONSTRATION_SHEET,
      id: 'other',
      invented: false,
      confirmedOn: '2026-01-01',
      limits: [limit],
    };
    const { verdict, chart: used } = judge(typed(260, { sheet })); // fails below 2 * 156 mL at 140 rpm
    expect(verdict?.word).toBe('fail low');
    expect(used).toEqual(limit);
    expect(codes(verdict?.warnings)).not.toContain('limit.invented');
  });

  it('warns where the serial number of the engine lies outside the sheet', () => {
    const sheet = { ...DEMONSTRATION_SHEET, serialRanges: [{ from: 'A100', to: 'A200' }] };
    const warnings = (value: string) => {
      const identity = new Map([['serialNumber', { value, from: 'typed', origin: null }]] as const);
      return codes(judge(typed(260, { sheet, identity })).verdict?.warnings);
    };
    expect(warnings('A201')).toContain('limit.serial-not-covered');
    expect(warnings('A150')).not.toContain('limit.serial-not-covered');
    expect(codes(judge(typed(260, { sheet })).verdict?.warnings)).not.toContain('limit.serial-not-covered');
  });

  it('warns where the sheet was not confirmed for more than 90 days before the run, and stays silent where the day is not known', () => {
    const sheet = {
      ...DEMONSTRATION_SHEET,
      invented: false,
      confirmedBy: 'R. M.',
      confirmedOn: '2026-01-01',
    };
    // By hand: 2026-01-01 to 2026-04-01 are 31 + 28 + 31 = 90 days.
    const warned = (onDate?: string) =>
      codes(judge(typed(260, { sheet }), { ...facts, ...(onDate && { onDate }) }).verdict?.warnings);
    expect(warned('2026-04-02')).toContain('limit.confirm-again');
    expect(warned('2026-04-01')).not.toContain('limit.confirm-again');
    expect(warned()).not.toContain('limit.confirm-again');
    expect(warned('2023-12-31')).toContain('limit.not-yet-valid');
  });

  it('refuses a check that the sheet lacks, and one that is no speed chart', () => {
    expect(judgeRun(null, 'crank-delivery', facts, typed(9))).toMatchObject({
      problem: { code: 'limit.no-sheet', context: { check: 'crank-delivery' } },
    });
    expect(judgeRun(DEMONSTRATION_SHEET, 'no-such', facts, typed(9))).toMatchObject({
      problem: { code: 'limit.check-not-in-sheet' },
    });
    expect(judgeRun(DEMONSTRATION_SHEET, 'pump-return', facts, typed(9))).toMatchObject({
      problem: { code: 'limit.not-a-speed-chart' },
    });
  });
});
