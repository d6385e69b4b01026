import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nextRunValues, runValues, sheetInForce, volumeMl } from '../../src/jobs/run-entries.ts';
import type { IdentityField, RunEntry, StoredVessel } from '../../src/jobs/run-entry.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';

const atIso = '2026-11-25T08:00:00.000Z';
const vessel = (id: string): StoredVessel => ({
  id,
  name: id,
  capacityMl: 100,
  graduationMl: 1,
  tolerance: { kind: 'mL', halfWidth: 0.5 },
  measures: true,
});
const volume = (...readingsMl: number[]): RunEntry => ({
  atIso,
  reason: '',
  kind: 'volume',
  readingsMl,
  typed: '',
});
const leftOut = (crank: number, out: boolean, reason = 'bumped'): RunEntry => ({
  atIso,
  kind: 'crank-left-out',
  crank,
  leftOut: out,
  reason,
});
const edge = (side: 'start' | 'end', atMs: number | null): RunEntry => ({
  atIso,
  kind: 'crank-edge',
  crank: 1,
  edge: side,
  foundMs: 10,
  atMs,
  reason: 'seen in the trace',
});
const said = (
  value: string,
  from: 'bus' | 'typed' = 'bus',
  field: IdentityField = 'serialNumber',
): RunEntry => ({
  atIso,
  reason: '',
  kind: 'identity',
  field,
  value,
  from,
  origin: from === 'bus' ? 0 : null,
});
const override = (holds: boolean): RunEntry => ({
  atIso,
  kind: 'override',
  code: 'check.time-outside',
  holds,
  reason: 'timed',
});

const LAMPS_OFF = { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' } as const;

describe('the entries of a run', () => {
  test('begin with the vessel of the run and nothing else', () => {
    expect(runValues(vessel('a'), [])).toMatchObject({
      vessel: { id: 'a' },
      volume: null,
      givenIntervalMs: null,
    });
    expect(volumeMl(runValues(null, []))).toBeNull();
  });

  test('of volume: the last one holds and the earlier ones stand', () => {
    const values = runValues(null, [volume(80), volume(85)]);
    expect(volumeMl(values)).toBe(85);
    expect(values.volumes.map(({ readingsMl }) => readingsMl)).toEqual([[80], [85]]);
  });

  test('of a vessel emptied in between add up', () => {
    expect(volumeMl(runValues(null, [volume(100, 95, 12)]))).toBe(207);
  });

  test('of a vessel: the last one holds', () => {
    expect(
      runValues(vessel('a'), [{ atIso, reason: '', kind: 'vessel', vessel: vessel('b') }]).vessel?.id,
    ).toBe('b');
  });

  test('leave a crank out and let it count again', () => {
    expect([...runValues(null, [leftOut(0, true), leftOut(2, true, 'fired')]).leftOut]).toEqual([
      [0, 'bumped'],
      [2, 'fired'],
    ]);
    expect([...runValues(null, [leftOut(0, true), leftOut(0, false)]).leftOut]).toEqual([]);
  });

  test('set each edge of a crank apart and set it back', () => {
    const both = runValues(null, [edge('start', 12), edge('end', 40)]);
    expect(both.edges.get(1)).toEqual({ startMs: 12, endMs: 40, reason: 'seen in the trace' });
    const one = nextRunValues(both, edge('start', null));
    expect(one.edges.get(1)).toMatchObject({ startMs: null, endMs: 40 });
    expect(nextRunValues(one, edge('end', null)).edges.size).toBe(0);
  });

  test('override a reason and take it back', () => {
    expect([...runValues(null, [override(true)]).overrides]).toEqual([['check.time-outside', 'timed']]);
    expect([...runValues(null, [override(true), override(false)]).overrides]).toEqual([]);
  });

  test('collect cautions, origins, notes and the interval', () => {
    const values = runValues(null, [
      { atIso, reason: '', kind: 'caution-ticked', caution: 'chocks' },
      { atIso, reason: '', kind: 'caution-ticked', caution: 'chocks' },
      { atIso, reason: '', kind: 'origin-chosen', signal: 'engineSpeed', origin: 3 },
      { atIso, reason: '', kind: 'note', text: 'slow crank' },
      { atIso, reason: '', kind: 'interval', intervalMs: 500 },
    ]);
    expect([...values.cautions]).toEqual(['chocks']);
    expect(values.origins.get('engineSpeed')).toBe(3);
    expect(values.notes).toEqual(['slow crank']);
    expect(values.givenIntervalMs).toBe(500);
  });

  test('of identity: the bus is believed until something is typed, and again once that is taken back', () => {
    const serial = (...entries: RunEntry[]) => runValues(null, entries).identity.get('serialNumber');
    expect(serial(said('A1'))).toEqual({ value: 'A1', from: 'bus', origin: 0 });
    expect(serial(said('A1'), said('A2'))?.value).toBe('A2');
    expect(serial(said('A1'), said('B7', 'typed'))).toEqual({ value: 'B7', from: 'typed', origin: null });
    expect(serial(said('B7', 'typed'), said('A1'))?.value).toBe('B7');
    expect(serial(said('B7', 'typed'), said('B8', 'typed'))?.value).toBe('B8');
    expect(serial(said('B7', 'typed'), said('A1'), said('', 'typed'))?.value).toBe('A1');
    expect(serial(said('B7', 'typed'), said('', 'typed'))).toBeUndefined();
  });

  test('of identity: what the bus says stays to be compared with what was typed, field by field', () => {
    const values = runValues(null, [said('B7', 'typed'), said('A1'), said('Bench', 'bus', 'make')]);
    expect(values.heardIdentity.get('serialNumber')?.value).toBe('A1');
    expect(values.identity.get('make')?.value).toBe('Bench');
    expect(values.identity.has('vin')).toBe(false);
  });

  test('of a limit sheet: the last one taken holds instead of the one that the run began with', () => {
    const began = DEMONSTRATION_SHEET;
    const taken = (revision: string): RunEntry => ({
      atIso,
      kind: 'sheet',
      sheet: { ...began, revision },
      reason: 'for this serial number',
    });
    expect(sheetInForce(began, runValues(null, []))).toBe(began);
    expect(sheetInForce(began, runValues(null, [taken('2'), taken('3')]))?.revision).toBe('3');
  });

  test('of trouble codes: the last ones noted hold', () => {
    const noted = (spn: number): RunEntry => ({
      atIso,
      reason: '',
      kind: 'codes',
      active: [
        { origin: 0, atMs: 1, lamps: LAMPS_OFF, codes: [{ spn, fmi: 18, occurrences: 1, otherSpns: [] }] },
      ],
      previous: [],
    });
    expect(runValues(null, [noted(157), noted(94)]).codes?.active[0]?.codes[0]?.spn).toBe(94);
    expect(runValues(null, []).codes).toBeNull();
  });

  test('of a crank hold for the origin that they were made on, older ones without an origin for any', () => {
    const of = (entry: RunEntry, origin: number): RunEntry => ({ ...entry, origin }) as RunEntry;
    const entries = [
      of(leftOut(0, true, 'of the engine'), 0),
      of(leftOut(1, true, 'of the dash'), 23),
      leftOut(2, true, 'of version 1'),
      of(edge('start', 12), 0),
      of(edge('end', 40), 23),
    ];
    const engine = runValues(null, entries, 0);
    expect([...engine.leftOut.values()]).toEqual(['of the engine', 'of version 1']);
    expect(engine.edges.get(1)).toMatchObject({ startMs: 12, endMs: null });
    const dash = runValues(null, entries, 23);
    expect([...dash.leftOut.values()]).toEqual(['of the dash', 'of version 1']);
    expect(dash.edges.get(1)).toMatchObject({ startMs: null, endMs: 40 });
    expect([...runValues(null, entries).leftOut.keys()]).toEqual([0, 1, 2]);
  });

  test('of everything but cranks hold whatever origin is looked at', () => {
    const entries = [volume(80), said('A1'), override(true)];
    expect(runValues(null, entries, 5)).toEqual(runValues(null, entries));
  });

  test('fold the same whether read at once or one after the other, and change no earlier values', () => {
    const entry = fc.oneof(
      fc.nat(500).map((ml) => volume(ml)),
      fc.tuple(fc.nat(3), fc.boolean()).map(([crank, out]) => leftOut(crank, out)),
      fc.option(fc.nat(90)).map((atMs) => edge('start', atMs)),
      fc.boolean().map(override),
      fc
        .tuple(fc.constantFrom('', 'A', 'B'), fc.constantFrom('bus' as const, 'typed' as const))
        .map(([value, from]) => said(value, from)),
    );
    fc.assert(
      fc.property(fc.array(entry), fc.nat(), (entries, cut) => {
        const at = cut % (entries.length + 1);
        const before = runValues(null, entries.slice(0, at));
        const copy = structuredClone(before);
        expect(entries.slice(at).reduce(nextRunValues, before)).toEqual(runValues(null, entries));
        expect(before).toEqual(copy);
      }),
    );
  });
});
