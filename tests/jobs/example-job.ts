import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import type { StoredJob } from '../../src/jobs/job.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { StoredRun } from '../../src/jobs/run.ts';
import { Procedure } from '../../src/procedures/procedure.ts';
import { presentForm } from './present-form.ts';
import { RUN_V1 } from './run-v1.ts';

/** The instant of a minute of the invented visit. */
export const at = (minute: number): string => new Date(Date.UTC(2026, 10, 25, 8, minute)).toISOString();

const advice = (headline: string) => ({ headline, next: ['Go on'] });
const allAdvice = {
  pass: advice('In order'),
  marginal: advice('Near the limit'),
  'fail low': advice('Too low'),
  'fail high': advice('Too high'),
  'too close to call': advice('Repeat'),
  'not valid': advice('Repeat'),
};
const common = {
  purpose: 'To know.',
  clears: [],
  cautions: [{ id: 'spray', text: 'Fuel under pressure.' }],
  preparations: ['Warm up'],
  howTo: ['Measure'],
  advice: allAdvice,
};

/** Three checks, invented: an inspection, a steady pressure, and a return volume that is to be run twice. */
export const PROCEDURE: Procedure = Procedure.parse({
  formatVersion: 1,
  id: 'example',
  title: 'Example',
  revision: '1',
  source: 'Invented for tests.',
  complaint: 'Low rail pressure',
  defersTo: 'The maker decides.',
  priming: ['Prime'],
  checks: [
    {
      ...common,
      id: 'look',
      title: 'Look',
      stations: ['tank'],
      settings: {
        kind: 'inspection',
        points: [
          { id: 'water', ask: 'Water?', look: 'Bowl', whenNot: 'fail low', cause: 'water' },
          { id: 'level', ask: 'Level?', look: 'Gauge', whenNot: 'marginal', cause: null },
          { id: 'colour', ask: 'Colour?', look: 'Sample', whenNot: 'marginal', cause: 'water' },
        ],
      },
    },
    {
      ...common,
      id: 'supply',
      title: 'Supply pressure',
      stations: ['supply pump'],
      repeatAfter: ['pressure filter'],
      settings: {
        kind: 'steady pressure',
        signal: 'supplyPressure',
        speed: null,
        leastSeconds: 5,
        steadyWithinKPa: 50,
        vacuum: false,
      },
    },
    {
      ...common,
      id: 'return',
      title: 'Return volume',
      stations: ['high-pressure pump'],
      repeatAfter: ['high-pressure pump'],
      runsNeeded: 2,
      settings: {
        kind: 'collected volume',
        seconds: 30,
        startedBy: 'hand',
        trigger: null,
        speed: null,
        holds: null,
      },
    },
  ],
  causes: [
    {
      id: 'water',
      station: 'tank',
      text: 'Water in the fuel',
      look: 'Bowl',
      repair: 'Drain it',
      repeat: ['look', 'supply'],
    },
  ],
});

/** A job in which nothing was entered. */
export const job = (entries: readonly JobEntry[] = [], change: Partial<StoredJob> = {}): StoredJob => ({
  formatVersion: 1,
  id: 'job-1',
  createdAt: at(0),
  updatedAt: entries.at(-1)?.atIso ?? at(0),
  scenarioId: null,
  procedure: PROCEDURE,
  entries: [...entries],
  ...change,
});

type Field = Extract<JobEntry, { kind: 'field' }>;
export const field = (
  name: Field['field'],
  value: string,
  minute = 1,
  from: Field['from'] = 'typed',
): JobEntry => ({ atIso: at(minute), kind: 'field', field: name, value, from });
export const note = (text: string, minute = 1): JobEntry => ({
  atIso: at(minute),
  kind: 'note',
  text,
  photoIds: [],
});
type Work = Extract<JobEntry, { kind: 'work' }>;
export const work = (minute: number, change: Partial<Work> = {}): Work => ({
  atIso: at(minute),
  kind: 'work',
  workId: `work-${minute}`,
  station: 'high-pressure pump',
  what: 'replaced',
  part: 'pumping element',
  cause: null,
  note: '',
  ...change,
});
export const conclusion = (minute: number, change: object = {}): JobEntry => ({
  atIso: at(minute),
  kind: 'conclusion',
  decision: 'repair now',
  words: 'The pump is worn.',
  cause: 'Worn pumping elements',
  watchFor: '',
  suggested: 'The pump loses fuel.',
  ...change,
});
export const signed = (minute: number): JobEntry => ({ atIso: at(minute), kind: 'signed', by: 'A. Person' });
export const reopened = (minute: number): JobEntry => ({
  atIso: at(minute),
  kind: 'reopened',
  reason: 'The owner asks again',
});

type Word = NonNullable<StoredRun['verdict']>['word'];

/** A graded run of the return volume, or what `change` says. */
export function run(
  id: string,
  minute: number,
  graded: { readonly word: Word; readonly value: number | null; readonly uncertainty?: number } | null,
  change: Partial<StoredRun> = {},
): StoredRun {
  const golden = StoredRun.parse(structuredClone(presentForm(RUN_V1)));
  return {
    ...golden,
    id,
    createdAt: at(minute),
    jobId: 'job-1',
    check: 'return',
    kind: 'collected volume',
    guide: PROCEDURE.checks.find((check) => check.id === (change.check ?? 'return')) ?? null,
    title: `Run ${id}`,
    recordingId: null,
    sheet: { ...DEMONSTRATION_SHEET, serialRanges: [...DEMONSTRATION_SHEET.serialRanges] },
    entries: [],
    measurementSummary: null,
    valueSummary:
      graded === null || graded.value === null
        ? null
        : {
            quantity: 'volume',
            value: graded.value,
            standardUncertainty: graded.uncertainty ?? 2,
            step: 10,
            facts: [],
          },
    verdict: graded && { ...golden.verdict!, word: graded.word, confidence: 0.99 },
    gradingRevision: graded && 1,
    state: graded ? 'graded' : 'open',
    ...change,
  };
}

export const observation = (point: string, seen: 'in order' | 'not in order', minute: number): RunEntry => ({
  atIso: at(minute),
  reason: '',
  kind: 'observation',
  point,
  seen,
  note: '',
  photoIds: [],
});
