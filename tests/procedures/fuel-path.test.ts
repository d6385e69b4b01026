import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { fuelPath, stretchWords } from '../../src/procedures/fuel-path.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { STATION_IDS } from '../../src/procedures/station.ts';
import { finding, findings } from './findings.ts';

const states = (some: readonly CheckFinding[]) =>
  Object.fromEntries(fuelPath(procedure, some).map(({ station, state }) => [station, state]));
const words = (some: readonly CheckFinding[]) => stretchWords(fuelPath(procedure, some));

describe('the fuel path', () => {
  test('knows nothing at the beginning', () => {
    expect(new Set(Object.values(states([])))).toEqual(new Set(['not checked']));
    expect(words([])).toBe('No stretch is cleared yet.');
  });

  test('is cleared as a whole when everything passed', () => {
    expect(new Set(Object.values(states(findings({}))))).toEqual(new Set(['cleared']));
    expect(words(findings({}))).toBe('The whole path from tank to injectors is cleared.');
  });

  test('supply pressure in order clears from the tank to the pressure filter, and no further', () => {
    const some = [finding('supply-idle', 'pass')];
    expect(states(some)).toMatchObject({
      tank: 'cleared',
      'pressure filter': 'cleared',
      'metering valve': 'not checked',
    });
    expect(words(some)).toMatch(/^From the tank and fuel to the pressure filter the path is cleared\./);
    expect(words(some)).toMatch(/From the metering valve and housing on nothing is settled yet/);
  });

  test('a supply pressure that fails under load takes back what idle cleared', () => {
    const some = [finding('supply-idle', 'pass'), finding('supply-load', 'fail low')];
    expect(states(some)).toMatchObject({ 'suction filter': 'suspect', 'supply pump': 'suspect' });
  });

  test('a final drive that fails does not take back what the supply checks cleared', () => {
    const some = [
      finding('supply-idle', 'pass'),
      finding('supply-load', 'pass'),
      finding('final-drive', 'fail high'),
    ];
    expect(states(some)).toMatchObject({
      'supply pump': 'cleared',
      'high-pressure pump': 'suspect',
      injectors: 'suspect',
    });
  });

  test('the loss lies where a check of that station alone failed', () => {
    const some = findings({
      'relief-valve-leak': 'fail high',
      'rail-decay': 'fail low',
      'final-drive': 'fail high',
    });
    expect(states(some)).toMatchObject({
      'relief valve': 'fails',
      injectors: 'cleared',
      'high-pressure pump': 'cleared',
    });
    expect(words(some)).toMatch(/The loss lies at the rail relief valve\.$/);
  });

  test('a leaking pump stands between what is cleared before and behind it', () => {
    const some = findings({
      'pump-return': 'fail high',
      'crank-delivery': 'fail low',
      'rail-build': 'fail high',
      'final-drive': 'fail high',
    });
    expect(states(some)).toMatchObject({
      'pressure filter': 'cleared',
      'metering valve': 'suspect',
      'high-pressure pump': 'suspect',
      'relief valve': 'cleared',
      injectors: 'cleared',
    });
    expect(words(some)).toMatch(/must lie at the metering valve and housing or the pumping elements/);
  });

  test('an inspection that saw the cause fails its station', () => {
    const seen = finding('filters', 'fail low', { causes: ['water-in-fuel'] });
    expect(states([seen])).toMatchObject({ 'suction filter': 'fails' });
  });

  test('what is not settled, and what is to be repeated after work, says so', () => {
    expect(states([finding('relief-valve-leak', 'too close to call')])).toMatchObject({
      'relief valve': 'open question',
    });
    const stale = finding('relief-valve-leak', 'fail high', { repeatBecause: 'the valve was replaced' });
    expect(states([stale])).toMatchObject({ 'relief valve': 'to be repeated' });
  });

  test('names every station once with a sentence, whatever was found', () => {
    const word = fc.constantFrom<CheckFinding['word']>(
      'pass',
      'marginal',
      'fail low',
      'fail high',
      'not valid',
      'disagree',
      null,
    );
    fc.assert(
      fc.property(
        fc.tuple(...procedure.checks.map(({ id }) => word.map((each) => finding(id, each)))),
        (some) => {
          const path = fuelPath(procedure, some);
          expect(path.map(({ station }) => station)).toEqual(STATION_IDS);
          for (const { sentence, state, checkIds } of path) {
            expect(sentence).toMatch(/^[A-Z].+\.$/);
            if (state !== 'not checked') expect(checkIds.length).toBeGreaterThan(0);
          }
          expect(stretchWords(path)).toMatch(/\.$/);
        },
      ),
      { numRuns: 300 },
    );
  });
});
