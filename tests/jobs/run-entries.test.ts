import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nextRunValues, runValues, volumeMl } from '../../src/jobs/run-entries.ts';
import type { RunEntry, StoredVessel } from '../../src/jobs/run-entry.ts';

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
const override = (holds: boolean): RunEntry => ({
  atIso,
  kind: 'override',
  code: 'check.time-outside',
  holds,
  reason: 'timed',
});

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

  test('fold the same whether read at once or one after the other, and change no earlier values', () => {
    const entry = fc.oneof(
      fc.nat(500).map((ml) => volume(ml)),
      fc.tuple(fc.nat(3), fc.boolean()).map(([crank, out]) => leftOut(crank, out)),
      fc.option(fc.nat(90)).map((atMs) => edge('start', atMs)),
      fc.boolean().map(override),
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
