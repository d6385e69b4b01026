import { describe, expect, expectTypeOf, test } from 'vitest';
import type { z } from 'zod';
import type { Vessel } from '../../src/checks/measurement.ts';
import { DEFAULT_CRANK_SETTINGS, type CrankSettings } from '../../src/crank/crank.ts';
import type { Verdict } from '../../src/grading/verdict.ts';
import type { StoredVessel } from '../../src/jobs/run-entry.ts';
import { readRun } from '../../src/jobs/run-store.ts';
import { StoredCrankSettings, StoredRun, type StoredVerdict } from '../../src/jobs/run.ts';
import { RUN_V1 } from './run-v1.ts';

describe('a stored run', () => {
  test('of version 1 opens with everything in it', () => {
    expect(readRun(structuredClone(RUN_V1))).toEqual({ ok: true, value: RUN_V1 });
  });

  test('of a version to come is told apart from a damaged one', () => {
    expect(readRun({ ...RUN_V1, formatVersion: 2 })).toMatchObject({
      problem: { code: 'storage.newer-document' },
    });
    expect(readRun({ ...RUN_V1, state: 'finished' })).toMatchObject({ problem: { code: 'storage.damaged' } });
  });

  test('keeps the distance in percent from a boundary at 0, which is not a number', () => {
    const nearest = { ...RUN_V1.verdict.nearest, atValue: 0, distancePercent: NaN };
    const run = { ...RUN_V1, verdict: { ...RUN_V1.verdict, nearest } };
    expect(readRun(structuredClone(run))).toEqual({ ok: true, value: run });
  });

  test('with a code of another version in its verdict still opens', () => {
    const verdict = { ...RUN_V1.verdict, reasons: [{ code: 'check.of-tomorrow', context: {} }] };
    const read = readRun({ ...RUN_V1, verdict });
    expect(read).toMatchObject({ value: { verdict: { reasons: [{ code: 'storage.unknown-code' }] } } });
  });

  test.each([
    ['a crank left out', { kind: 'crank-left-out', crank: 0, leftOut: true, reason: ' ' }],
    ['an edge set by hand', { kind: 'crank-edge', crank: 0, edge: 'end', foundMs: 1, atMs: 2, reason: '' }],
    ['an override', { kind: 'override', code: 'check.time-outside', holds: true }],
  ])('refuses %s without a reason', (_what, entry) => {
    const entries = [{ atIso: '2026-11-25T08:00:10.000Z', ...entry }];
    expect(readRun({ ...RUN_V1, entries }).ok).toBe(false);
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
    expect(StoredRun.shape.formatVersion.value).toBe(1);
  });
});
