import { describe, expect, expectTypeOf, test } from 'vitest';
import type { z } from 'zod';
import type { Vessel } from '../../src/checks/measurement.ts';
import { DEFAULT_CRANK_SETTINGS, type CrankSettings } from '../../src/crank/crank.ts';
import type { Verdict } from '../../src/grading/verdict.ts';
import type { CodeReport } from '../../src/j1939/trouble-codes.ts';
import type { StoredCodeReport } from '../../src/jobs/code-snapshot.ts';
import { runValues, sheetInForce } from '../../src/jobs/run-entries.ts';
import { RunEntry, type IdentityField, type StoredVessel } from '../../src/jobs/run-entry.ts';
import { readRun } from '../../src/jobs/run-store.ts';
import { StoredCrankSettings, StoredRun, type StoredVerdict } from '../../src/jobs/run.ts';
import type { StoredFoundBridge } from '../../src/recordings/stored-bridge.ts';
import type { FoundBridge } from '../../src/wire/found-bridge.ts';
import { presentForm } from './present-form.ts';
import { RUN_V1 } from './run-v1.ts';
import { RUN_V2 } from './run-v2.ts';
import { RUN_V3 } from './run-v3.ts';

describe('a stored run', () => {
  test('of version 1 opens with everything in it, its verdict untouched', () => {
    const read = readRun(structuredClone(RUN_V1));
    expect(read).toEqual({ ok: true, value: presentForm(RUN_V1) });
    expect(read.ok && read.value.verdict).toEqual(RUN_V1.verdict);
  });

  test('of version 2 opens with everything in it', () => {
    expect(readRun(structuredClone(RUN_V2))).toEqual({ ok: true, value: presentForm(RUN_V2) });
  });

  test('of version 3 opens as it stands, and holds every kind of entry that there is', () => {
    expect(readRun(structuredClone(RUN_V3))).toEqual({ ok: true, value: RUN_V3 });
    const kinds = RunEntry.options.map(({ shape }) => shape.kind.value);
    expect(new Set(RUN_V3.entries.map(({ kind }) => kind))).toEqual(new Set(kinds));
  });

  test('of version 3 folds to the last of each thing, and what was taken back is gone', () => {
    const values = runValues(null, RUN_V3.entries as RunEntry[]);
    expect(values.value).toMatchObject({ value: 1265, typed: '12.65 bar' });
    expect(values.stopwatch).toMatchObject({ startMs: 1000, endMs: 31_000, by: 'hand' });
    expect(values.collectedMs).toBe(30_000);
    expect(values.stretch).toEqual({ startMs: 2000, endMs: 9000, reason: 'the pedal moved before' });
    expect(values.observations.get('level')).toMatchObject({ seen: 'not in order' });
    expect(values.photos.map(({ photoId }) => photoId)).toEqual(['photo-1']);
    const atIso = '2026-11-25T09:00:00.000Z';
    const back = [
      { atIso, reason: '', kind: 'value', value: null, typed: '', tolerance: 0, halfStep: 0, instrument: '' },
      { atIso, reason: '', kind: 'collected-time', spanMs: null, typed: '' },
      { atIso, kind: 'stretch', startMs: null, endMs: null, reason: 'as found' },
    ];
    expect(runValues(null, [...RUN_V3.entries, ...back] as RunEntry[])).toMatchObject({
      value: null,
      collectedMs: null,
      stretch: null,
    });
  });

  test('of version 2 folds to what its person and its bus said', () => {
    const read = readRun(structuredClone(RUN_V2));
    if (!read.ok) throw new Error(read.problem.code);
    const values = runValues(read.value.vessel, read.value.entries);
    expect(values.identity.get('serialNumber')).toEqual({ value: 'X 12', from: 'typed', origin: null });
    expect(values.heardIdentity.get('serialNumber')?.value).toBe('X12');
    expect(sheetInForce(read.value.sheet, values)?.revision).toBe('2');
    expect(values.codes?.active[0]?.codes[0]).toMatchObject({ spn: 157, fmi: 18 });
  });

  test('of a version to come is told apart from a damaged one', () => {
    expect(readRun({ ...RUN_V2, formatVersion: 4 })).toMatchObject({
      problem: { code: 'storage.newer-document' },
    });
    expect(readRun({ ...RUN_V1, state: 'finished' })).toMatchObject({ problem: { code: 'storage.damaged' } });
  });

  test('keeps the distance in percent from a boundary at 0, which is not a number', () => {
    const nearest = { ...RUN_V1.verdict.nearest, atValue: 0, distancePercent: NaN };
    const run = { ...RUN_V1, verdict: { ...RUN_V1.verdict, nearest } };
    expect(readRun(structuredClone(run))).toMatchObject({ value: { verdict: { nearest } } });
  });

  test('with a code of another version in its verdict still opens', () => {
    const verdict = { ...RUN_V1.verdict, reasons: [{ code: 'check.of-tomorrow', context: {} }] };
    const read = readRun({ ...RUN_V1, verdict });
    expect(read).toMatchObject({ value: { verdict: { reasons: [{ code: 'storage.unknown-code' }] } } });
  });

  test.each([
    ['a crank left out', { kind: 'crank-left-out', crank: 0, leftOut: true, reason: ' ' }],
    ['an edge set by hand', { kind: 'crank-edge', crank: 0, edge: 'end', foundMs: 1, atMs: 2, reason: '' }],
    ['another sheet', { kind: 'sheet', sheet: RUN_V1.sheet, reason: '' }],
    ['an override', { kind: 'override', code: 'check.time-outside', holds: true }],
  ])('refuses %s without a reason', (_what, entry) => {
    const entries = [{ atIso: '2026-11-25T08:00:10.000Z', ...entry }];
    expect(readRun({ ...RUN_V1, entries }).ok).toBe(false);
    const withReason = [{ ...entries[0], reason: 'because' }];
    expect(readRun({ ...RUN_V1, entries: withReason }).ok).toBe(true);
  });

  test.each([
    ['an FMI of more than five bits', { fmi: 32 }],
    ['an SPN below zero', { spn: -1 }],
  ])('refuses %s in noted trouble codes', (_what, change) => {
    const noted = RUN_V2.entries.find((entry) => entry.kind === 'codes')!;
    const withCode = (code: object) => [
      { ...noted, active: [{ ...noted.active[0], codes: [{ ...noted.active[0].codes[0], ...code }] }] },
    ];
    expect(readRun({ ...RUN_V2, entries: withCode({}) }).ok).toBe(true);
    expect(readRun({ ...RUN_V2, entries: withCode(change) }).ok).toBe(false);
  });

  test.each([[[]], [[-1]], [[NaN]], [[Infinity]]])('refuses a volume of %j', (readingsMl) => {
    const entries = [{ atIso: '2026-11-25T08:00:10.000Z', kind: 'volume', readingsMl, typed: '?' }];
    expect(readRun({ ...RUN_V1, entries }).ok).toBe(false);
  });

  test('has the very types of the contracts it stores', () => {
    expectTypeOf<z.infer<typeof StoredVerdict>>().toExtend<Verdict>();
    expectTypeOf<Verdict['word']>().toEqualTypeOf<z.infer<typeof StoredVerdict>['word']>();
    expectTypeOf<StoredVessel>().toExtend<Vessel>();
    expectTypeOf<z.infer<typeof StoredCrankSettings>>().toExtend<CrankSettings>();
    expectTypeOf<CrankSettings>().toExtend<z.infer<typeof StoredCrankSettings>>();
    expect(StoredCrankSettings.parse(DEFAULT_CRANK_SETTINGS)).toEqual(DEFAULT_CRANK_SETTINGS);
    expect(StoredRun.shape.formatVersion.value).toBe(3);
    expectTypeOf<z.infer<typeof StoredFoundBridge>>().toExtend<FoundBridge>();
    expectTypeOf<FoundBridge>().toExtend<z.infer<typeof StoredFoundBridge>>();
    expectTypeOf<StoredCodeReport>().toExtend<CodeReport>();
    expectTypeOf<IdentityField>().toEqualTypeOf<
      'vin' | 'make' | 'model' | 'serialNumber' | 'unitNumber' | 'engineHours'
    >();
  });
});
