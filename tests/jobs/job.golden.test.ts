import { describe, expect, test } from 'vitest';
import { JobEntry } from '../../src/jobs/job-entry.ts';
import { summaryOf } from '../../src/jobs/job-summary.ts';
import { jobValues } from '../../src/jobs/job-values.ts';
import { readJob } from '../../src/jobs/read-job.ts';
import { JOB_V1 } from './job-v1.ts';

describe('a stored job', () => {
  test('of version 1 opens as it stands, and holds every kind of entry that there is', () => {
    expect(readJob(structuredClone(JOB_V1))).toEqual({ ok: true, value: JOB_V1 });
    const kinds = JobEntry.options.map(({ shape }) => shape.kind.value);
    expect(new Set(JOB_V1.entries.map(({ kind }) => kind))).toEqual(new Set(kinds));
  });

  test('of version 1 folds to what its person did', () => {
    const read = readJob(structuredClone(JOB_V1));
    if (!read.ok) throw new Error(read.problem.code);
    expect(jobValues(read.value)).toMatchObject({
      state: 'open',
      revision: 2,
      works: [{ workId: 'w-1', primedAtIso: '2026-11-25T08:05:00.000Z' }],
      withdrawnWorks: [{ work: { workId: 'w-2' }, reason: 'was another truck' }],
      earlier: [{ conclusion: { decision: 'run on and watch' }, signed: { by: 'A. Person' } }],
      notes: [{ photoIds: ['photo-1'] }],
    });
    expect(summaryOf(read.value)).toMatchObject({ unitNumber: 'T-12', codes: ['157/18'], decision: null });
  });

  test('of a version to come is told apart from a damaged one', () => {
    expect(readJob({ ...JOB_V1, formatVersion: 2 })).toMatchObject({
      problem: { code: 'storage.newer-document' },
    });
    expect(readJob({ ...JOB_V1, entries: [{ kind: 'tea' }] })).toMatchObject({
      problem: { code: 'storage.damaged' },
    });
  });

  test.each([
    ['signed by nobody', { kind: 'signed', by: ' ' }],
    ['opened again without a reason', { kind: 'reopened', reason: ' ' }],
    [
      'a conclusion without words',
      { ...JOB_V1.entries.find(({ kind }) => kind === 'conclusion'), words: '' },
    ],
    ['a code of more than 19 bits', { kind: 'typed-codes', codes: [{ spn: 0x80000, fmi: 0, note: '' }] }],
    ['a failure mode of more than 5 bits', { kind: 'typed-codes', codes: [{ spn: 1, fmi: 32, note: '' }] }],
  ])('refuses %s', (_what, entry) => {
    expect(readJob({ ...JOB_V1, entries: [{ atIso: JOB_V1.createdAt, ...entry }] }).ok).toBe(false);
  });
});
