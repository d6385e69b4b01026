import { describe, expect, test } from 'vitest';
import type { Defect } from '../../simulators/engine/defects.ts';
import { PARTS_OF } from '../../simulators/engine/parts.ts';
import { SCENARIO_BY_ID, type BenchScenario } from '../../simulators/scenarios.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { closureOf } from '../../src/training/cheapest-closed.ts';
import { compareConclusion, rightDecisionsFor } from '../../src/training/compare-conclusion.ts';
import { minutesOf, runMinutes } from '../../src/training/costs.ts';
import { namedCause } from '../../src/training/named-cause.ts';
import { cured, leftOver, partAgainst, partOfWork } from '../../src/training/part-of-work.ts';
import { reviewCase } from '../../src/training/review-case.ts';
import { shortestPath, type ShortStep } from '../../src/training/shortest-path.ts';
import { at, conclusion, job, run, work } from '../jobs/example-job.ts';
import { SMALL_PROCEDURE } from './small-procedure.ts';

const withDefects = (...defects: readonly Defect[]): BenchScenario => ({
  ...SCENARIO_BY_ID['sound-engine'],
  defects,
});
const SUCTION: Defect = { kind: 'suction restriction', severity: 0.8 };
const SUPPLY: Defect = { kind: 'weak supply pump', severity: 0.8 };
const RELIEF: Defect = { kind: 'leaking rail relief valve', severity: 0.8 };

const words = (steps: readonly ShortStep[]) =>
  steps.map((step) => (step.kind === 'work' ? `[${step.part}]` : `${step.checkId}${step.again ? '*' : ''}`));

/**
 * By hand, from the table for checks of kind "steady pressure" (15 min, 5 again) and for parts: suction line 45 min and 4 points, supply pump 90
 * and 25, relief valve 60 and 15. `supply` asks for two runs: 15 + 5.
 */
describe('the shortest way, against ways worked by hand', () => {
  const way = (...defects: readonly Defect[]) => shortestPath(SMALL_PROCEDURE, withDefects(...defects));

  test('one check that names the cause alone, its part, and the check again: 15 + 45 + 15', () => {
    const { steps, minutes, points } = way(SUCTION);
    expect(words(steps)).toEqual(['suction', '[suction line]', 'suction*']);
    expect([minutes, points]).toEqual([15 + 45 + 15, 4]);
  });

  test('what comes before is counted, also before a repeat: 15 + 20, 90, then 20 + 15 + 15', () => {
    const { steps, minutes, points } = way(SUPPLY);
    expect(words(steps)).toEqual(['suction', 'supply', '[supply pump]', 'supply*', 'relief*', 'drive*']);
    expect([minutes, points]).toEqual([15 + 20 + 90 + 20 + 15 + 15, 25]);
  });

  test('the high side needs the low side: 15 + 20 + 15, 60, 15', () => {
    const { steps, minutes, points } = way(RELIEF);
    expect(words(steps)).toEqual(['suction', 'supply', 'relief', '[relief valve]', 'relief*']);
    expect([minutes, points]).toEqual([15 + 20 + 15 + 60 + 15, 15]);
  });

  test('nothing wrong: the last check, which verifies, and what it needs: 15 + 20 + 15 + 15', () => {
    const { steps, minutes, points } = way();
    expect(words(steps)).toEqual(['suction', 'supply', 'relief', 'drive']);
    expect([minutes, points]).toEqual([65, 0]);
  });

  test('two: the one nearer to the tank first, and what was done for it is not done again', () => {
    const { steps, minutes, points } = way(RELIEF, SUCTION);
    expect(words(steps)).toEqual([
      'suction',
      '[suction line]',
      'suction*',
      'supply',
      'relief',
      '[relief valve]',
      'relief*',
    ]);
    expect([minutes, points]).toEqual([15 + 45 + 15 + 20 + 15 + 60 + 15, 19]);
  });
});

describe('the shortest way on the shipped procedure', () => {
  // Five of all: what is seen at the batteries is simulated, which takes time.
  test.each([
    'clogged filter',
    'worn pump elements',
    'weak battery',
    'stuck rail sensor',
    'loose bridge cable',
  ] as const)('for %s: nothing before what it needs, and the part carries it', (kind) => {
    const { steps, minutes } = shortestPath(LOW_RAIL_PRESSURE, withDefects({ kind, severity: 0.8 }));
    const place = steps.findIndex((step) => step.kind === 'work');
    const repair = steps[place]!;
    expect(repair.kind === 'work' && PARTS_OF[kind].includes(repair.part)).toBe(true);
    const done: string[] = [];
    for (const step of steps) {
      if (step.kind !== 'check') continue;
      for (const need of checkOf(LOW_RAIL_PRESSURE, step.checkId)!.needs) expect(done).toContain(need);
      done.push(step.checkId);
    }
    expect(place).toBeGreaterThan(0);
    expect(minutes).toBe(steps.reduce((sum, step) => sum + step.minutes, 0));
  });
});

test('the closure of a check has all that must come before it, in order, each once', () => {
  expect(closureOf(SMALL_PROCEDURE, ['relief', 'supply', 'nowhere']).map(({ id }) => id)).toEqual([
    'suction',
    'supply',
    'relief',
  ]);
});

describe('costs', () => {
  test('more runs in a row are set up once; a check of another procedure costs by its kind', () => {
    const supply = SMALL_PROCEDURE.checks[1]!;
    expect(minutesOf(supply, 0)).toBe(0);
    expect(minutesOf(supply, 3)).toBe(15 + 5 + 5);
    expect(runMinutes({ ...supply, id: 'constructor' })).toEqual({ first: 15, again: 5 });
  });

  test('each check of the shipped procedure costs something', () => {
    for (const check of LOW_RAIL_PRESSURE.checks) expect(minutesOf(check, 1)).toBeGreaterThan(0);
  });
});

describe('which part a work puts in', () => {
  test('a station’s own, and for what lies beside the fuel path that of the cause', () => {
    expect(partAgainst(null, 'rail')).toBe('rail sensor');
    expect(partAgainst('worn-elements', 'high-pressure pump')).toBe('high-pressure pump');
    expect(partAgainst('weak-battery', 'high-pressure pump')).toBe('battery');
    expect(partAgainst('wrong-set-up', 'high-pressure pump')).toBeNull();
    expect(partAgainst(null, 'tank')).toBeNull();
  });

  test('none where it is cleaned or adjusted', () => {
    expect(partOfWork(work(1))).toBe('high-pressure pump');
    expect(partOfWork(work(1, { what: 'cleaned' }))).toBeNull();
  });

  test('a new part takes away what hangs on it and nothing else', () => {
    expect(cured([SUCTION, RELIEF], ['relief valve'])).toEqual([RELIEF]);
    expect(leftOver([SUCTION, RELIEF], ['relief valve'])).toEqual([SUCTION]);
  });
});

describe('what words name', () => {
  const causes = (text: string) => namedCause(LOW_RAIL_PRESSURE, text).causes;

  test.each(LOW_RAIL_PRESSURE.causes)('the procedure’s own words name $id', ({ id, text }) => {
    expect(causes(`I think: ${text.toUpperCase()}!`)).toEqual([id]);
  });

  test.each([
    ['Clogged pressure filter', ['clogged-pressure-filter']],
    ['dirty filter', ['clogged-filter']],
    ['The batteries are done', ['weak-battery']],
    ['outlet check valve and relief valve', ['leaking-outlet-valve', 'leaking-relief-valve']],
    ['no idea', []],
    ['', []],
  ])('“%s”', (text, ids) => expect(causes(text)).toEqual(ids));

  test('a station by its name, where no cause is named', () => {
    expect(namedCause(LOW_RAIL_PRESSURE, 'something at the metering valve')).toEqual({
      causes: [],
      stations: ['metering valve'],
    });
  });
});

describe('the conclusion beside the truth', () => {
  const compared = (cause: string, decision: string, defects: readonly Defect[], works: JobEntry[] = []) => {
    const entries = [...works, conclusion(50, { cause, decision })];
    const reviewed = reviewCase(
      { job: job(entries, { procedure: LOW_RAIL_PRESSURE }), runs: [] },
      withDefects(...defects),
      at(59),
    );
    const { cause: match, station, decision: decided } = reviewed.compared;
    return [match, station, decided];
  };

  test.each([
    ['A weak supply pump', 'repair now', [SUPPLY], ['right', 'right', 'right']],
    ['A weak supply pump', 'look elsewhere', [SUPPLY], ['right', 'right', 'wrong']],
    ['Worn pumping elements', 'repair now', [SUPPLY], ['wrong', 'wrong', 'right']],
    ['', 'repair now', [SUPPLY], ['not named', 'not named', 'right']],
    ['hm', 'repair now', [SUPPLY], ['open', 'open', 'right']],
    ['weak supply pump', 'repair now', [SUPPLY, RELIEF], ['partly', 'partly', 'right']],
    ['supply pump, and the relief valve leaks', 'repair now', [SUPPLY, RELIEF], ['right', 'right', 'right']],
    ['', 'look elsewhere', [], ['right', 'right', 'right']],
    ['Worn pumping elements', 'repair now', [], ['wrong', 'wrong', 'wrong']],
  ] as const)('“%s”, %s, of %j', (cause, decision, defects, expected) => {
    expect(compared(cause, decision, defects)).toEqual(expected);
  });

  test('work against the cause names it too, and a wrong try before it takes nothing away', () => {
    const works = [
      work(10, { station: 'supply pump', cause: 'weak-supply-pump' }),
      work(5, { station: 'injectors', cause: 'high-injector-return' }),
    ];
    expect(compared('', 'repair now', [SUPPLY], works)).toEqual(['right', 'right', 'right']);
  });

  test('given up, nothing is named', () => {
    const values = { conclusion: null, works: [] };
    expect(compareConclusion(LOW_RAIL_PRESSURE, values, [SUPPLY])).toMatchObject({
      cause: 'not named',
      decision: 'not named',
      decided: null,
    });
  });

  test('what hardly shows may run on; what lies in the measuring is no repair of the engine', () => {
    expect(rightDecisionsFor([{ ...SUPPLY, severity: 0.3 }])).toEqual(['repair now', 'run on and watch']);
    expect(rightDecisionsFor([SUPPLY])).toEqual(['repair now']);
    expect(rightDecisionsFor([{ kind: 'dropped frames', severity: 1 }])).toContain('look elsewhere');
    expect(rightDecisionsFor([])).toEqual(['look elsewhere']);
  });
});

describe('the way that was gone', () => {
  const graded = (
    id: string,
    minute: number,
    check: string,
    word: 'pass' | 'fail low' | 'fail high' | 'not valid',
  ) => run(id, minute, { word, value: null }, { check, kind: 'steady pressure', guide: null });
  const review = (entries: readonly JobEntry[], runs: readonly StoredRun[], ...defects: readonly Defect[]) =>
    reviewCase({ job: job(entries, { procedure: SMALL_PROCEDURE }), runs }, withDefects(...defects), at(59));

  const RUNS = [
    graded('a', 1, 'suction', 'pass'),
    graded('b', 2, 'supply', 'pass'),
    graded('c', 3, 'supply', 'pass'),
    graded('d', 4, 'relief', 'fail high'),
    graded('e', 5, 'drive', 'not valid'),
  ];
  const WRONG = work(10, { station: 'supply pump', part: 'pump', cause: 'weak-supply-pump' });
  const RIGHT = work(20, { station: 'relief valve', part: 'valve', cause: 'leaking-relief-valve' });

  test('costs by hand: 15 + 15 + 5 + 15 + 15, a wrong part 90, the right one 60, and the check again 15', () => {
    const again = graded('f', 30, 'relief', 'pass');
    const { path } = review([WRONG, RIGHT, conclusion(40)], [...RUNS, again], RELIEF);
    expect(path.minutes).toBe(15 + 15 + 5 + 15 + 15 + 90 + 60 + 15);
    expect(path.points).toBe(25 + 15);
    const works = path.steps.filter((step) => step.kind === 'work');
    expect(works.map(({ part, cured: gone }) => [part, gone.length])).toEqual([
      ['supply pump', 0],
      ['relief valve', 1],
    ]);
    expect(works[0]?.likeliest).toBe('leaking-relief-valve');
  });

  test('the steps stand in the order in which they were gone, also what was left out', () => {
    const skip: JobEntry = { kind: 'skip', atIso: at(6), checkId: 'drive', skipped: true, reason: 'rain' };
    const { path } = review([skip, RIGHT], RUNS.toReversed(), RELIEF);
    expect(path.steps.map(({ kind }) => kind)).toEqual([
      'run',
      'run',
      'run',
      'run',
      'run',
      'left out',
      'work',
    ]);
  });

  test('work between two runs of a check sets it up anew', () => {
    const { path } = review(
      [WRONG],
      [graded('a', 9, 'suction', 'pass'), graded('b', 11, 'suction', 'pass')],
      RELIEF,
    );
    expect(path.minutes).toBe(15 + 90 + 15);
  });

  test('what was done after the end does not count', () => {
    const late = run('z', 60, { word: 'pass', value: null }, { check: 'drive' });
    const { path, ended } = review([work(61)], [...RUNS, late], RELIEF);
    expect(path.steps).toHaveLength(RUNS.length);
    expect(ended).toBe('given up');
  });

  test('is remarked on with evidence: the wrong part with what spoke for another, the spoiled run, what is unproved', () => {
    const { remarks } = review([WRONG, RIGHT, conclusion(40, { cause: 'relief valve' })], RUNS, RELIEF);
    const costly = remarks.costly.map(({ words: said, evidence }) => `${said} ${evidence}`).join('\n');
    expect(costly).toContain('Supply pump: it was not at fault. 25 part points, 90 min.');
    expect(costly).toContain('spoke most for: something at the relief valve');
    expect(costly).toContain('“The drive check” is not on the shortest way.');
    expect(costly).toContain('One run could not be judged.');
    expect(costly).toContain('Not run again since: ');
    const good = remarks.good.map(({ words: said }) => said).join('\n');
    expect(good).toContain('The decision fits the engine.');
    expect(good).toContain('left out nothing that a check stands on');
    expect(good).not.toContain('Only parts that were at fault');
  });

  test('without a detour nothing is said to have cost', () => {
    const again = graded('f', 30, 'relief', 'pass');
    const runs = [...RUNS.slice(0, 4), again];
    const end = conclusion(40, { cause: SMALL_PROCEDURE.causes[2]!.text });
    const { remarks, path, shortest } = review([RIGHT, end], runs, RELIEF);
    expect(remarks.costly).toEqual([]);
    expect(path.minutes).toBe(shortest.minutes);
    expect(path.points).toBe(shortest.points);
    expect(remarks.good.map(({ words: said }) => said)).toContain(
      'Only parts that were at fault were replaced.',
    );
  });
});
