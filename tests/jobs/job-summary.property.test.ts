import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DECISIONS } from '../../src/jobs/job-entry.ts';
import { JobSummary, readSummary } from '../../src/jobs/job-summary.ts';
import { JOB_STATES } from '../../src/jobs/job.ts';

const instant = fc
  .date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString());

const row = fc.record({
  formatVersion: fc.constant(1),
  id: fc.string({ minLength: 1 }),
  createdAt: instant,
  updatedAt: instant,
  scenarioId: fc.option(fc.string()),
  state: fc.constantFrom(...JOB_STATES),
  revision: fc.integer({ min: 1, max: 99 }),
  decision: fc.option(fc.constantFrom(...DECISIONS)),
  unitNumber: fc.string(),
  vin: fc.string(),
  engineFamily: fc.string(),
  serialNumber: fc.string(),
  customer: fc.string(),
  complaint: fc.string(),
  technician: fc.string(),
  codes: fc.array(fc.string()),
});

test('a row is taken as the schema takes it', () => {
  fc.assert(
    fc.property(row, (document) => {
      expect(readSummary(document)).toEqual({ ok: true, value: JobSummary.parse(document) });
    }),
  );
});

test('a row with one field spoiled, missing or too many is taken only where the schema takes it', () => {
  const spoiled = fc.oneof(
    fc.anything(),
    fc.constantFrom(
      '',
      'open',
      'archived',
      '2026-02-30T08:00:00.000Z',
      '2026-02-31T08:00:00.000Z',
      0,
      -1,
      1.5,
      1e300,
    ),
  );
  const field = fc.constantFrom(...Object.keys(JobSummary.shape), 'other');
  fc.assert(
    fc.property(row, field, spoiled, fc.boolean(), (document, key, value, remove) => {
      const rest = Object.fromEntries(Object.entries(document).filter(([name]) => name !== key));
      const changed: unknown = remove ? rest : { ...document, [key]: value };
      expect(readSummary(changed).ok).toBe(JobSummary.safeParse(changed).success);
    }),
    { numRuns: 3000 },
  );
});
