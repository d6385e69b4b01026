import { at, PROCEDURE } from './example-job.ts';

const when = (minute: number) => ({ atIso: at(minute) });

/** A job as format version 1 writes it, with every kind of entry once. Golden: every later version must open it. All of it is invented. */
export const JOB_V1 = {
  formatVersion: 1,
  id: 'job-1',
  createdAt: '2026-11-25T08:00:00.000Z',
  updatedAt: '2026-11-25T08:12:00.000Z',
  scenarioId: null,
  procedure: PROCEDURE,
  entries: [
    { ...when(1), kind: 'field', field: 'unitNumber', value: 'T-12', from: 'typed' },
    { ...when(1), kind: 'typed-codes', codes: [{ spn: 157, fmi: 18, note: 'came at full load' }] },
    { ...when(2), kind: 'bus-codes', active: [], previous: [] },
    { ...when(3), kind: 'skip', checkId: 'look', skipped: true, reason: 'no light' },
    {
      ...when(4),
      kind: 'work',
      workId: 'w-1',
      station: 'pressure filter',
      what: 'replaced',
      part: 'filter element',
      cause: null,
      note: '',
    },
    {
      ...when(4),
      kind: 'work',
      workId: 'w-2',
      station: 'tank',
      what: 'cleaned',
      part: 'strainer',
      cause: 'water',
      note: 'by mistake',
    },
    { ...when(5), kind: 'primed', workId: 'w-1' },
    { ...when(5), kind: 'work-withdrawn', workId: 'w-2', reason: 'was another truck' },
    { ...when(6), kind: 'run-left-out', runId: 'run-1', leftOut: true, reason: 'spilt' },
    { ...when(7), kind: 'note', text: 'smells of fuel', photoIds: ['photo-1'] },
    {
      ...when(9),
      kind: 'conclusion',
      decision: 'run on and watch',
      words: 'The filter was clogged.',
      cause: 'Clogged filter',
      watchFor: 'Derates under load',
      suggested: 'The low side lost pressure.',
    },
    { ...when(10), kind: 'signed', by: 'A. Person' },
    { ...when(12), kind: 'reopened', reason: 'came back' },
  ],
};
