import { presentForm } from './present-form.ts';
import { RUN_V2 } from './run-v2.ts';

type Before = Record<string, unknown> & {
  sheet: { id: string };
  entries: ({ kind: string } & Record<string, unknown>)[];
};

const atIso = '2026-11-25T08:02:00.000Z';
const at = { atIso, reason: '' };

const before = presentForm(structuredClone(RUN_V2) as unknown as Before);

/**
 * A run as format version 3 writes it, with every kind of entry once: a collected volume within a job. Golden: every later version must open
 * it and show the same verdict. All of it is invented.
 */
export const RUN_V3 = {
  ...before,
  id: 'run-3',
  jobId: 'job-1',
  check: 'pump-return',
  kind: 'collected volume',
  guide: null,
  title: 'Pump return volume',
  valueSummary: {
    quantity: 'volume',
    value: 310,
    standardUncertainty: 2.5,
    step: 10,
    facts: [{ name: 'time', value: 30, unit: 's' }],
  },
  entries: [
    ...before.entries,
    {
      ...at,
      kind: 'volume',
      readingsMl: [310],
      typed: '310 mL',
      photo: { photoId: 'photo-1', standardUncertaintyMl: 1.5 },
    },
    {
      ...at,
      kind: 'value',
      value: 1265,
      typed: '12.65 bar',
      tolerance: 16,
      halfStep: 2.5,
      instrument: 'gauge 0 to 16 bar',
    },
    { ...at, kind: 'stopwatch', clock: 'source', startMs: 1000, endMs: null, by: 'hand' },
    { ...at, kind: 'stopwatch', clock: 'source', startMs: 1000, endMs: 31_000, by: 'hand' },
    { ...at, kind: 'collected-time', spanMs: 30_000, typed: '30 s' },
    { atIso, kind: 'stretch', startMs: 2000, endMs: 9000, reason: 'the pedal moved before' },
    { ...at, kind: 'observation', point: 'level', seen: 'in order', note: '', photoIds: [] },
    {
      ...at,
      kind: 'observation',
      point: 'level',
      seen: 'not in order',
      note: 'gauge wrong, tank empty',
      photoIds: ['photo-1'],
    },
    { ...at, kind: 'photo', photoId: 'photo-1', note: 'the vessel' },
  ],
};
