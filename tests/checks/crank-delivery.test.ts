import { describe, expect, it } from 'vitest';
import { measureCrankDelivery, type CrankDeliveryInput } from '../../src/checks/crank-delivery.ts';
import type { CrankEntry } from '../../src/checks/crank-entry.ts';
import type { CrankDelivery } from '../../src/checks/measurement.ts';
import { VESSELS } from '../../src/checks/vessels.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { averageOf, entryOf } from './example-cranks.ts';

const CYLINDER = VESSELS[2];
if (!CYLINDER) throw new Error('no cylinder');
const VOLUME = { valueMl: 260, standardUncertaintyMl: 2.723, vessel: CYLINDER };
const LIMIT = { cranks: 2, crankSeconds: 15, timeTolerancePercent: 5, conditions: [] };

const deliver = (cranks: readonly CrankEntry[], change: Partial<CrankDeliveryInput> = {}): CrankDelivery =>
  measureCrankDelivery({ limit: LIMIT, cranks, average: averageOf(180, 30_000), volume: VOLUME, ...change });

const reasons = (delivery: CrankDelivery) => delivery.reasons.map(({ code }) => code);
const warnings = (delivery: CrankDelivery) => delivery.warnings.map(({ code }) => code);

describe('two good cranks of 15 s', () => {
  const delivery = deliver([entryOf(15), entryOf(15)]);

  it('are valid with nothing to warn of', () => {
    expect(delivery.reasons).toEqual([]);
    expect(delivery.warnings).toEqual([]);
    expect(delivery.volumeAtTargetMl).toBeNull();
  });

  it('last 30 s, with the doubt of both in quadrature', () => {
    expect(delivery.crankSeconds).toBe(30);
    expect(delivery.targetSeconds).toBe(30);
    expect(delivery.crankSecondsUncertainty).toBeCloseTo(Math.sqrt(2) * 0.04, 12);
  });
});

describe('the doubt of a late first report', () => {
  it('makes every crank look shorter, so over two cranks it adds straight while the edges add in quadrature', () => {
    // By hand: edges 30 and 30 ms are 42.43 ms a crank; with 346.41 ms (0.6 s over the root of 3) beyond them.
    const time = { spanMs: 15_000, standardUncertaintyMs: Math.hypot(30, 30, 346.41) };
    const delivery = deliver([entryOf(15, { time }), entryOf(15, { time })]);
    expect(delivery.crankSecondsUncertainty).toBeCloseTo(Math.hypot(60, 2 * 346.41) / 1000, 9);
  });

  it('does not concern edges that were set by hand', () => {
    const time = { spanMs: 15_000, standardUncertaintyMs: 400 };
    const setEdges = { startMs: 0, endMs: 15_000, reason: 'seen on the battery trace' };
    const delivery = deliver([entryOf(15, { time, setEdges }), entryOf(15, { time, setEdges })]);
    expect(delivery.crankSecondsUncertainty).toBeCloseTo(Math.sqrt(2) * 0.4, 9);
  });
});

describe('crank time against its target', () => {
  it.each([
    [14.25, 14.25], // 28.5 s, exactly 5 % short
    [15.75, 15.75], // 31.5 s, exactly 5 % long
    [10.1, 18.4], // sums with rounding in them
  ])('%f and %f s are within ±5 %% of 30 s', (first, second) => {
    expect(reasons(deliver([entryOf(first), entryOf(second)]))).toEqual([]);
  });

  it.each([
    [14.2, 14.2, 260 * (30 / 28.4)],
    [16, 16, 260 * (30 / 32)],
  ])(
    '%f and %f s are outside: not valid, with the volume scaled to 30 s as an estimate',
    (first, second, scaled) => {
      const delivery = deliver([entryOf(first), entryOf(second)]);
      expect(reasons(delivery)).toEqual(['check.time-outside']);
      expect(delivery.volumeAtTargetMl).toBeCloseTo(scaled, 9);
    },
  );

  it('the message gives the time, the target and what would have been allowed', () => {
    const [problem] = deliver([entryOf(10), entryOf(10)]).reasons;
    expect(problem && describeProblem(problem).message).toBe(
      'The time was 20 s; the limit asks for 30 s (28.5 to 31.5 s).',
    );
  });

  it('has no estimate while no volume is typed', () => {
    expect(deliver([entryOf(10)], { volume: null }).volumeAtTargetMl).toBeNull();
  });

  it('stands with a reason, which is kept among the warnings beside the problem', () => {
    const why = 'starter too hot for a third crank';
    const delivery = deliver([entryOf(14), entryOf(14)], {
      overrides: [{ code: 'check.time-outside', reason: why }],
    });
    expect(reasons(delivery)).toEqual([]);
    expect(warnings(delivery)).toEqual(['check.time-outside', 'check.overridden']);
    expect(delivery.warnings.map((each) => describeProblem(each).message).join()).toContain(why);
    expect(delivery.volumeAtTargetMl).toBeCloseTo((260 * 30) / 28, 9);
  });

  it('does not stand on a blank reason', () => {
    const delivery = deliver([entryOf(14), entryOf(14)], {
      overrides: [{ code: 'check.time-outside', reason: '  ' }],
    });
    expect(reasons(delivery)).toEqual(['check.time-outside', 'check.override-without-reason']);
  });
});

describe('what happened to a crank', () => {
  it.each<[string, string, Parameters<typeof entryOf>[1]]>([
    ['cut at its end', 'check.crank-cut', { found: { endedBy: 'cut' } }],
    ['cut at its start', 'check.crank-cut', { found: { cutAtStart: true } }],
    ['with its data lost', 'check.crank-data-lost', { found: { endedBy: 'data lost' } }],
    ['in which the engine started', 'check.engine-started', { found: { endedBy: 'engine started' } }],
    ['with speed known for less than half', 'check.coverage-too-low', { speed: { coverage: 0.49 } }],
    ['without any speed', 'check.no-speed-in-crank', { speed: { samples: 0, coverage: 0 } }],
    ['left out in silence', 'check.left-out-without-reason', { leftOut: { reason: ' ' } }],
    [
      'with edges moved in silence',
      'check.edges-without-reason',
      { setEdges: { startMs: 0, endMs: 9, reason: '' } },
    ],
    ['with its edges crossed', 'check.edges-wrong', { setEdges: { startMs: 9, endMs: 1, reason: 'x' } }],
    ['with an edge nowhere', 'check.edges-wrong', { setEdges: { startMs: NaN, endMs: 1, reason: 'x' } }],
    ['without time', 'check.edges-wrong', { time: { spanMs: NaN, standardUncertaintyMs: 1 } }],
  ])('a crank %s makes the run not valid', (_, code, change) => {
    const delivery = deliver([entryOf(15), entryOf(15, change)]);
    expect(reasons(delivery)).toContain(code);
    const text = describeProblem(
      delivery.reasons.find((each) => each.code === code) ?? { code: 'check.no-cranks', context: {} },
    );
    expect(text.message.toLowerCase()).toContain('crank 2');
    expect(text.message + text.remedy).not.toMatch(/\{\w+\}/);
  });

  it('a cut crank may stand with a reason; an engine that started may not', () => {
    const overrides = [
      { code: 'check.crank-cut', reason: 'timed by stopwatch too' },
      { code: 'check.engine-started', reason: 'only for a moment' },
    ] as const;
    expect(
      reasons(deliver([entryOf(15), entryOf(15, { found: { endedBy: 'cut' } })], { overrides })),
    ).toEqual([]);
    const ran = deliver([entryOf(15), entryOf(15, { found: { endedBy: 'engine started' } })], { overrides });
    expect(reasons(ran)).toEqual(['check.engine-started']);
  });

  it('an edge set by hand with a reason takes the place of a cut one, and is warned of', () => {
    const setEdges = { startMs: 200, endMs: 15_200, reason: 'heard the starter engage' };
    const delivery = deliver([entryOf(15), entryOf(15, { found: { endedBy: 'cut' }, setEdges })]);
    expect(reasons(delivery)).toEqual([]);
    expect(warnings(delivery)).toEqual(['check.edges-set']);
    expect(delivery.cranks[1]).toMatchObject({ startMs: 200, endMs: 15_200, counts: true });
    expect(delivery.cranks[1]?.crank.end.atMs).toBe(15_000); // the found edge is kept
  });

  it.each([
    [0.9, []],
    [0.89, ['check.coverage-low']],
    [0.5, ['check.coverage-low']],
  ])('speed known for %f of it warns as it should', (coverage, expected) => {
    const delivery = deliver([entryOf(15), entryOf(15, { speed: { coverage } })]);
    expect(warnings(delivery)).toEqual(expected);
    expect(reasons(delivery)).toEqual([]);
  });
});

describe('cranks that count', () => {
  it('a crank left out with a reason adds no time, and the vessel is asked about', () => {
    const leftOut = { reason: 'priming' };
    const delivery = deliver([entryOf(8, { leftOut }), entryOf(15), entryOf(15)]);
    expect(delivery.crankSeconds).toBe(30);
    expect(delivery.cranks.map(({ counts }) => counts)).toEqual([false, true, true]);
    expect(warnings(delivery)).toEqual(['check.crank-left-out']);
    expect(reasons(delivery)).toEqual([]);
  });

  it('what is wrong with a crank left out is no concern', () => {
    const broken = entryOf(2, { leftOut: { reason: 'engine caught' }, found: { endedBy: 'engine started' } });
    expect(reasons(deliver([broken, entryOf(15), entryOf(15)]))).toEqual([]);
  });

  it('three cranks of 10 s are long enough together but not as asked', () => {
    const delivery = deliver([entryOf(10), entryOf(10), entryOf(10)]);
    expect(reasons(delivery)).toEqual([]);
    expect(warnings(delivery)).toEqual(['check.crank-count']);
  });

  it('one crank of 30 s is not as asked either, and hard on the starter', () => {
    expect(warnings(deliver([entryOf(30)]))).toEqual(['check.crank-count', 'check.crank-long']);
  });

  it('none found, and all left out, are told apart, and neither complains of time as well', () => {
    expect(reasons(deliver([]))).toEqual(['check.no-cranks']);
    const none = deliver([entryOf(15, { leftOut: { reason: 'air' } })]);
    expect(reasons(none)).toEqual(['check.all-cranks-left-out']);
    expect(none.average).toBeNull();
  });
});

describe('the conditions of the limit', () => {
  const fuel = { signal: 'fuelTemperature', min: 5, max: 60, outside: 'warn' } as const;
  const battery = { signal: 'batteryVoltage', min: 18, max: null, outside: 'not valid' } as const;
  const limit = { ...LIMIT, conditions: [fuel, battery] };
  const with_ = (conditions: CrankDeliveryInput['conditions']) =>
    deliver([entryOf(15), entryOf(15)], { limit, ...(conditions ? { conditions } : {}) });

  it('are quiet when they hold, ends included', () => {
    const delivery = with_({ fuelTemperature: 60, batteryVoltage: 18 });
    expect([...reasons(delivery), ...warnings(delivery)]).toEqual([]);
  });

  it('outside, warn or decide as the sheet says', () => {
    const delivery = with_({ fuelTemperature: 60.5, batteryVoltage: 17.9 });
    expect(reasons(delivery)).toEqual(['check.condition-outside']);
    expect(warnings(delivery)).toEqual(['check.condition-outside']);
    const [reason, warning] = [...delivery.reasons, ...delivery.warnings].map(
      (each) => describeProblem(each).message,
    );
    expect(reason).toBe('The battery voltage was 17.9 V; the limit holds for at least 18 V.');
    expect(warning).toBe('The fuel temperature was 60.5 °C; the limit holds for 5 to 60 °C.');
  });

  it('not measured, never pass in silence', () => {
    const delivery = with_({ fuelTemperature: null });
    expect(reasons(delivery)).toEqual(['check.condition-unknown']);
    expect(warnings(delivery)).toEqual(['check.condition-unknown']);
  });
});
