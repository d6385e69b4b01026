import { describe, expect, test } from 'vitest';
import { checkOf, causeOf, LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { ADVICE_WORDS, Procedure } from '../../src/procedures/procedure.ts';
import { procedureMistakes } from '../../src/procedures/procedure-mistakes.ts';
import { STATION_IDS, STATIONS } from '../../src/procedures/station.ts';

describe('the generic procedure for low rail pressure', () => {
  test('goes from the low-pressure side to the high-pressure side, and verifies last', () => {
    expect(procedure.checks.map(({ id }) => id)).toEqual([
      'fuel-quality',
      'filters',
      'air-in-fuel',
      'batteries',
      'suction-restriction',
      'supply-cranking',
      'supply-idle',
      'supply-high-idle',
      'supply-load',
      'rail-at-rest',
      'rail-build',
      'pump-return',
      'injector-return-cranking',
      'injector-return-idle',
      'relief-valve-leak',
      'rail-decay',
      'crank-delivery',
      'final-drive',
    ]);
    const lowOnly = procedure.checks.map(({ stations }) =>
      stations.every((each) => STATIONS[each].side === 'low'),
    );
    expect(lowOnly.lastIndexOf(true)).toBeLessThan(lowOnly.indexOf(false));
  });

  test('has no mistakes, and each station is spoken for and can be cleared', () => {
    expect(procedureMistakes(procedure)).toEqual([]);
    for (const station of STATION_IDS) {
      expect(procedure.checks.some(({ stations }) => stations.includes(station))).toBe(true);
      expect(procedure.checks.some(({ clears }) => clears.includes(station))).toBe(true);
    }
    for (const { clears, stations } of procedure.checks)
      for (const station of clears) expect(stations).toContain(station);
  });

  test('defers to the engine maker in every check, before anything is done', () => {
    expect(procedure.defersTo).toMatch(/maker/);
    for (const { preparations } of procedure.checks) expect(preparations.join(' ')).toMatch(/maker’s/);
  });

  test('says the dangers of each check before it can run', () => {
    for (const check of procedure.checks) {
      const text = check.cautions.map((caution) => caution.text).join(' ');
      if (check.settings.kind !== 'inspection') expect(text, check.id).toMatch(/turn|move|roll/);
      expect(text, check.id).toMatch(/burn|scald/);
      const cranked = [
        'batteries',
        'supply-cranking',
        'rail-build',
        'injector-return-cranking',
        'crank-delivery',
      ];
      if (cranked.includes(check.id)) {
        expect(text, check.id).toMatch(/can start/);
        expect(text, check.id).toMatch(/overheat/);
      }
    }
    const high = procedure.checks.filter(({ stations }) =>
      stations.some((each) => STATIONS[each].side === 'high'),
    );
    for (const { id, cautions } of high.filter(({ id: each }) => each !== 'final-drive')) {
      const text = cautions.map((caution) => caution.text).join(' ');
      expect(text, id).toMatch(/skin/);
      expect(text, id).toMatch(/surgeon|surgical/);
      expect(text, id).toMatch(/at once/);
    }
    expect(
      checkOf(procedure, 'final-drive')!
        .cautions.map(({ text }) => text)
        .join(' '),
    ).toMatch(/driv/);
  });

  test('keeps single cranks and rests inside the published starter rules', () => {
    // 40 CFR 1065.520: stop after 15 s of cranking and find out why; TM 5-3805-255-14: 30 s or less at a time.
    // Operator manuals, common practice: 30 s at most, then 2 min of cooling. See check-values.md E.
    const { settings } = checkOf(procedure, 'crank-delivery')!;
    if (settings.kind !== 'crank delivery') throw new Error('not a crank delivery');
    expect(settings.longestCrankSeconds).toBeLessThanOrEqual(30);
    expect(settings.leastRestSeconds).toBeGreaterThanOrEqual(120);
  });

  test('has advice for every word of every check, and names causes where a check failed', () => {
    for (const { id, advice } of procedure.checks)
      for (const word of ADVICE_WORDS) {
        expect(advice[word].headline.length, `${id} ${word}`).toBeGreaterThan(10);
        expect(
          advice[word].next.every((step) => step.length > 10),
          `${id} ${word}`,
        ).toBe(true);
        if (word === 'fail low' || word === 'fail high')
          expect(advice[word].causes.length, `${id} ${word}`).toBeGreaterThan(0);
      }
  });

  test('gives each cause what to look at, the work, and what to repeat', () => {
    for (const { id, look, repair, repeat } of procedure.causes) {
      expect(look.length, id).toBeGreaterThan(20);
      expect(repair.length, id).toBeGreaterThan(10);
      expect(repeat.length, id).toBeGreaterThan(0);
    }
  });

  test('holds no limit of any maker: limits come from sheets', () => {
    expect(JSON.stringify(procedure)).not.toMatch(/"(min|max)imum"|limitKPa|limitMl/i);
  });
});

describe('looking up', () => {
  test('gives null for ids that are not there', () => {
    expect(checkOf(procedure, 'no-such')).toBeNull();
    expect(causeOf(procedure, 'no-such')).toBeNull();
    expect(causeOf(procedure, 'worn-elements')?.station).toBe('high-pressure pump');
  });

  test('a procedure with an unknown kind of check, or without cautions, is refused', () => {
    const [first, ...rest] = structuredClone(procedure).checks;
    const withFirst = (change: object) => ({ ...procedure, checks: [{ ...first, ...change }, ...rest] });
    expect(Procedure.safeParse(procedure).success).toBe(true);
    expect(Procedure.safeParse(withFirst({ settings: { kind: 'guess' } })).success).toBe(false);
    expect(Procedure.safeParse(withFirst({ cautions: [] })).success).toBe(false);
    expect(Procedure.safeParse(withFirst({ id: 'No Spaces' })).success).toBe(false);
    expect(Procedure.safeParse({ ...procedure, formatVersion: 2 }).success).toBe(false);
  });
});
