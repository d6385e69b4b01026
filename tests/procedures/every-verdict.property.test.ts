import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { clearedStretch, fuelPath } from '../../src/procedures/fuel-path.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { checkOrder, standsFirm } from '../../src/procedures/order.ts';
import { ADVICE_WORDS, type ProcedureCheck } from '../../src/procedures/procedure.ts';
import { STATIONS } from '../../src/procedures/station.ts';
import { rankCauses } from '../../src/procedures/suspicion.ts';
import { whatNext } from '../../src/procedures/what-next.ts';
import { finding } from './findings.ts';

const PROCEDURE = LOW_RAIL_PRESSURE;
const { checks } = PROCEDURE;
const RUNS = { numRuns: 60 };
const FAILS = ['fail low', 'fail high'] as const;
const WORDS = [...ADVICE_WORDS, 'disagree', null] as const;

/** Any job: each check with any word, left out or not, to be repeated or not. */
const jobs = fc
  .array(
    fc.record({
      word: fc.constantFrom(...WORDS),
      skipped: fc.constantFrom(null, null, 'no gauge'),
      repeatBecause: fc.constantFrom(null, null, null, 'a part was replaced after its last run: pump'),
    }),
    { minLength: checks.length, maxLength: checks.length },
  )
  .map((each) =>
    each.map(({ word, ...change }, place): CheckFinding => finding(checks[place]!.id, word, change)),
  );
const isOnly =
  (side: 'low' | 'high') =>
  ({ stations }: ProcedureCheck) =>
    stations.length > 0 && stations.every((station) => STATIONS[station].side === side);
const pairs = checks
  .filter(isOnly('low'))
  .flatMap((low) => checks.filter(isOnly('high')).map((high) => [low, high] as const));

describe('the order of the library', () => {
  it('has pairs to hold it to', () => expect(pairs.length).toBeGreaterThan(10));

  it.each(pairs.map(([low, high]) => [low.id, high.id]))('puts %s before %s', (low, high) => {
    const order = checkOrder(PROCEDURE, []).map(({ checkId }) => checkId);
    expect(order.indexOf(low)).toBeLessThan(order.indexOf(high));
  });

  it('is not moved by anything that was found', () => {
    const order = checks.map(({ id }) => id);
    fc.assert(
      fc.property(jobs, (found) => {
        expect(checkOrder(PROCEDURE, found).map(({ checkId }) => checkId)).toEqual(order);
      }),
      RUNS,
    );
  });
});

const combinations = checks.flatMap(({ id }) => ADVICE_WORDS.map((word) => [id, word] as const));
describe.each(combinations)('after %s came out as "%s"', (id, word) => {
  const check = checks.find((each) => each.id === id)!;
  const before = checks.slice(0, checks.indexOf(check)).map((each) => finding(each.id, 'pass'));
  const next = whatNext(PROCEDURE, [...before, finding(id, word)]);

  it('the next step is one whole sentence that names the check', () => {
    expect(next.sentence).toMatch(/^["A-Z].*\.$/s);
    expect(next.sentence).not.toMatch(/undefined|null|NaN/);
    const ends = next.step === 'conclude';
    if (!ends) expect(next.sentence).toContain(check.title);
  });

  it('goes on, repeats or repairs as that verdict asks', () => {
    if (word === 'too close to call' || word === 'not valid')
      expect(next).toMatchObject({ step: 'repeat check', checkId: id });
    else if (word === 'pass' || word === 'marginal') expect(['do check', 'conclude']).toContain(next.step);
    else expect(next.checkId).not.toBe(id);
  });

  it('the causes that its advice names are reasoned by it, and only those', () => {
    const { causes } = check.advice[word];
    const counts = word !== 'pass' && word !== 'too close to call';
    const because = next.causes
      .filter(({ because: reasons }) => reasons.some(({ checkId }) => checkId === id))
      .map(({ causeId }) => causeId);
    expect([...because].sort()).toEqual(counts ? [...new Set(causes)].sort() : []);
  });

  it('a failure has a cause to look at that it names, unless the passes before it speak against all of them', () => {
    if (word !== 'fail low' && word !== 'fail high') return;
    const alone = rankCauses(PROCEDURE, [finding(id, word)]);
    expect(check.advice[word].causes).toContain(alone[0]?.causeId);
  });
});

describe('suspicion', () => {
  const odds = (found: readonly CheckFinding[], causeId: string, against: string) => {
    const share = (of: string) => rankCauses(PROCEDURE, found).find((each) => each.causeId === of)!.share;
    return share(causeId) / share(against);
  };

  it('is the same in whatever order the findings arrive', () => {
    fc.assert(
      fc.property(
        jobs.chain((found) =>
          fc.tuple(fc.constant(found), fc.shuffledSubarray(found, { minLength: found.length })),
        ),
        ([found, shuffled]) => {
          expect(rankCauses(PROCEDURE, shuffled)).toEqual(rankCauses(PROCEDURE, found));
        },
      ),
      RUNS,
    );
  });

  it.each(combinations.filter(([, word]) => FAILS.some((fail) => fail === word)))(
    '%s as "%s" never lowers a cause that it names against one that the check does not know',
    (id, word) => {
      const check = checks.find((each) => each.id === id)!;
      const known = new Set(ADVICE_WORDS.flatMap((each) => check.advice[each].causes));
      const stranger = PROCEDURE.causes.find((cause) => !known.has(cause.id));
      if (!stranger) return;
      for (const causeId of check.advice[word].causes)
        expect(odds([finding(id, word)], causeId, stranger.id)).toBeGreaterThanOrEqual(
          odds([], causeId, stranger.id),
        );
    },
  );

  it('adds up to one, whatever was found', () => {
    fc.assert(
      fc.property(jobs, (found) => {
        const shares = rankCauses(PROCEDURE, found).map(({ share }) => share);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
        for (const share of shares) expect(share).toBeGreaterThanOrEqual(0);
        expect(shares).toEqual([...shares].sort((a, b) => b - a));
      }),
      RUNS,
    );
  });
});

describe('the fuel path', () => {
  const named = (check: ProcedureCheck, { word, causes }: CheckFinding, station: string) => {
    if (word !== 'fail low' && word !== 'fail high') return false;
    const ids = causes.length > 0 ? causes : check.advice[word].causes;
    return PROCEDURE.causes.some((cause) => cause.station === station && ids.includes(cause.id));
  };

  it('clears nothing by checks that were left out', () => {
    const left = checks.map(({ id }) => finding(id, null, { skipped: 'no time' }));
    expect(fuelPath(PROCEDURE, left).every(({ state }) => state === 'not checked')).toBe(true);
    expect(clearedStretch(fuelPath(PROCEDURE, left))).toBeNull();
  });

  it('leaves a check out or not done at all with the same colours', () => {
    fc.assert(
      fc.property(jobs, (found) => {
        const without = found.filter(({ word }) => word !== null);
        expect(fuelPath(PROCEDURE, found)).toEqual(fuelPath(PROCEDURE, without));
      }),
      RUNS,
    );
  });

  it('clears no station by less than a firm pass that says so, and none that a check as narrow blames', () => {
    fc.assert(
      fc.property(jobs, (found) => {
        const of = (id: string) => checks.find((check) => check.id === id)!;
        for (const { station, state, checkIds } of fuelPath(PROCEDURE, found)) {
          if (state !== 'cleared') continue;
          const clearing = found.filter(({ checkId }) => checkIds.includes(checkId));
          expect(clearing.length).toBeGreaterThan(0);
          for (const each of clearing) {
            expect(each.word).toBe('pass');
            expect(standsFirm(each)).toBe(true);
            expect(of(each.checkId).clears).toContain(station);
          }
          const narrowest = Math.min(...clearing.map(({ checkId }) => of(checkId).stations.length));
          const blaming = found.filter(
            (each) =>
              standsFirm(each) &&
              of(each.checkId).stations.includes(station) &&
              of(each.checkId).stations.length <= narrowest &&
              named(of(each.checkId), each, station),
          );
          expect(blaming).toEqual([]);
        }
      }),
      RUNS,
    );
  });
});
