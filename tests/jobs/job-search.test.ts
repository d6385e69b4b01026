import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { searchJobs, searchRows } from '../../src/jobs/job-search.ts';
import { summaryOf, type JobSummary } from '../../src/jobs/job-summary.ts';
import { job } from './example-job.ts';

const row = (id: string, change: Partial<JobSummary>): JobSummary => ({
  ...summaryOf(job([], { id })),
  ...change,
});
const ROWS = [
  row('derate', {
    unitNumber: 'T-104',
    complaint: 'Stalls under load, unit 7 behaves alike',
    codes: ['157/18'],
  }),
  row('seven', { unitNumber: '7', serialNumber: 'X 99-1207', customer: 'Müller Transporte' }),
  row('seventy', { unitNumber: '70', vin: '1M8GDM9AXKP042788', technician: 'Zoë Ångström' }),
  row('empty', {}),
];
const find = (query: string) => searchJobs(searchRows(ROWS), query).map(({ id }) => id);

describe('the search of jobs', () => {
  test.each([
    ['unit', 't-104', ['derate']],
    ['unit without its dash', 'T104', ['derate']],
    ['serial number as it is spoken', 'x991207', ['seven']],
    ['part of a serial number', '1207', ['seven']],
    ['part of a VIN', 'kp0427', ['seventy']],
    ['complaint', 'LOAD', ['derate']],
    ['customer without accents', 'muller', ['seven']],
    ['customer with other case and accents', 'MÜLLER', ['seven']],
    ['technician', 'angstrom zoe', ['seventy']],
    ['code', '157/18', ['derate']],
    ['code in words', 'spn 157 fmi 18', ['derate']],
    ['two words of two fields', 'stalls T-104', ['derate']],
    ['a word that occurs nowhere beside one that does', 'stalls nowhere', []],
    ['a mark alone', '-', ['derate', 'seven']],
    ['nothing', ' ', ['derate', 'seven', 'seventy', 'empty']],
  ])('finds by %s', (_what, query, ids) => {
    expect(find(query)).toEqual(ids);
  });

  test('puts a whole number first, then what begins with it, then what holds it, then texts', () => {
    expect(find('7')).toEqual(['seven', 'seventy', 'derate']);
  });

  test('keeps the order of equals, and each word only narrows', () => {
    const words = fc.constantFrom('7', 'stalls', 'm', '1', 'zoe', 'spn', 't');
    fc.assert(
      fc.property(fc.array(words, { minLength: 1, maxLength: 3 }), words, (some, more) => {
        const wide = new Set(find(some.join(' ')));
        for (const id of find([...some, more].join(' '))) expect(wide.has(id)).toBe(true);
      }),
    );
    const twins = searchRows(['a', 'b', 'c'].map((id) => row(id, { complaint: 'smoke' })));
    expect(searchJobs(twins, 'smoke').map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  });
});
