import { describe, expect, test } from 'vitest';
import { codesEntry, controllerCodes, notedCodes } from '../../src/app/bus-codes.ts';
import { addressOf, controllerName } from '../../src/app/origin-words.ts';
import type { CodeReport, Lamps, TroubleCode } from '../../src/j1939/trouble-codes.ts';
import { RunEntry } from '../../src/jobs/run-entry.ts';

const atIso = '2026-11-25T08:00:00.000Z';
const OFF: Lamps = { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'notAvailable' };
const code = (spn: number, fmi: number, change: Partial<TroubleCode> = {}): TroubleCode => ({
  spn,
  fmi,
  occurrences: 1,
  otherSpns: [],
  ...change,
});
const report = (codes: readonly TroubleCode[], change: Partial<CodeReport> = {}): CodeReport => ({
  atMs: 1000,
  lamps: OFF,
  codes,
  ...change,
});
const facts = (
  active: readonly (readonly [number, CodeReport])[],
  previous: readonly (readonly [number, CodeReport])[] = [],
) => ({ active: new Map(active), previous: new Map(previous) });

describe('noting the trouble codes in a run', () => {
  test('gives nothing while no controller has said anything of its codes', () => {
    expect(codesEntry(null, facts([]), atIso)).toBeNull();
  });

  test('keeps who said what with which lamps, as plain data that the store takes', () => {
    const entry = codesEntry(
      null,
      facts(
        [
          [11, report([])],
          [0, report([code(157, 18)])],
        ],
        [[0, report([code(94, 1)])]],
      ),
      atIso,
    );
    expect(entry?.active.map(({ origin }) => origin)).toEqual([0, 11]);
    expect(entry?.active[0]).toEqual({ origin: 0, atMs: 1000, lamps: OFF, codes: [code(157, 18)] });
    expect(entry?.previous[0]?.codes).toEqual([code(94, 1)]);
    expect(RunEntry.parse(entry)).toEqual(entry);
    expect(structuredClone(entry)).toEqual(entry);
  });

  test('notes that a controller has none: that is not the same as not knowing', () => {
    expect(codesEntry(null, facts([[0, report([])]]), atIso)?.active).toMatchObject([
      { origin: 0, codes: [] },
    ]);
  });

  test('of a log without times keeps that there was none', () => {
    const entry = codesEntry(null, facts([[0, report([], { atMs: NaN })]]), atIso);
    expect(RunEntry.parse(entry)).toMatchObject({ active: [{ atMs: NaN }] });
  });

  test.each([
    ['the same report later', report([code(157, 18), code(94, 1)], { atMs: 2000 })],
    ['another count of occurrences', report([code(157, 18, { occurrences: 2 }), code(94, 1)])],
    ['another order', report([code(94, 1), code(157, 18)])],
  ])('does not note %s again', (_what, next) => {
    const first = codesEntry(null, facts([[0, report([code(157, 18), code(94, 1)])]]), atIso);
    expect(codesEntry(first, facts([[0, next]]), atIso)).toBeNull();
  });

  test.each([
    ['another code', [[0, report([code(157, 17)])]]],
    ['a code that is gone', [[0, report([])]]],
    ['another lamp', [[0, report([code(157, 18)], { lamps: { ...OFF, redStop: 'on' } })]]],
    ['another controller', [[11, report([code(157, 18)])]]],
  ] as const)('notes %s', (_what, next) => {
    const first = codesEntry(null, facts([[0, report([code(157, 18)])]]), atIso);
    expect(codesEntry(first, facts(next), atIso)).not.toBeNull();
  });

  test('tells codes that are active now from those that were before', () => {
    const first = codesEntry(null, facts([[0, report([code(157, 18)])]]), atIso);
    expect(codesEntry(first, facts([], [[0, report([code(157, 18)])]]), atIso)).not.toBeNull();
  });

  test('can be shown again as it was heard', () => {
    const heard = facts([[0, report([code(157, 18)])]], [[11, report([])]]);
    expect(notedCodes(codesEntry(null, heard, atIso)!)).toEqual(heard);
  });
});

describe('trouble codes on the screen', () => {
  test('stand by controller, the engine first, with what is not known apart from what there is none of', () => {
    const shown = controllerCodes(
      facts(
        [
          [11, report([])],
          [0, report([code(157, 18)])],
        ],
        [[256, report([])]],
      ),
    );
    expect(shown.map(({ id, name, address }) => [id, name, address])).toEqual([
      ['0', 'engine 1', '00'],
      ['11', 'brakes', '0B'],
      ['256', 'engine 1', '00 ch 2'],
    ]);
    expect(
      shown.map(({ active, previous }) => [active?.codes.length ?? null, previous?.codes.length ?? null]),
    ).toEqual([
      [1, null],
      [0, null],
      [null, 0],
    ]);
  });

  test('say low rail pressure in plain words and mark it (SPN 157 with FMI 18, J1939-73 annex A: low, moderately severe)', () => {
    const [low] = controllerCodes(facts([[0, report([code(157, 18)])]]));
    expect(low?.active?.codes[0]?.mark).toContain('Fuel rail pressure is low');
    expect(low?.active?.codes[0]?.what.toLowerCase()).toContain('rail');
    const [other] = controllerCodes(facts([[0, report([code(110, 0)])]]));
    expect(other?.active?.codes[0]?.mark).toBe('');
  });

  test('keep the other readings of a number in doubt', () => {
    const doubtful = code(157, 18, { otherSpns: [1000, 2000] });
    const [shown] = controllerCodes(facts([[0, report([doubtful])]]));
    expect(shown?.active?.codes[0]).toMatchObject({ spn: 157, otherSpns: [1000, 2000], occurrences: 1 });
  });

  test('of a controller without a usual owner have no invented name', () => {
    expect(controllerCodes(facts([[0x77, report([])]]))[0]).toMatchObject({
      name: 'controller',
      address: '77',
    });
    expect(addressOf(0x3ff)).toBe('FF ch 4');
    expect(addressOf(-1)).toBe(''); // a speed log has no addresses
    expect(controllerName(0x77)).toBe('77');
    expect(controllerName(0x200)).toBe('00 (engine 1), channel 3');
  });
});
