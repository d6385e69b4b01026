import type { PathStation } from '../../src/procedures/fuel-path.ts';
import type { ConclusionDraft } from '../../src/ui/conclusion-draft.ts';
import type { SuggestionView } from '../../src/ui/conclusion.ts';
import type { JobRow } from '../../src/ui/job-list.ts';
import { EMPTY_FIELD, type JobFieldView } from '../../src/ui/job-form.ts';
import type { HeardCode, TypedCode } from '../../src/ui/typed-codes.ts';
import type { NextStepView } from '../../src/ui/what-next.ts';
import type { CheckRow } from '../../src/ui/check-order.ts';
import type { CheckRunView } from '../../src/ui/check-runs.ts';

/** Invented data of a job for looking at and testing the elements. No number here is a limit of any engine. */
export const run = (change: Partial<CheckRunView>): CheckRunView => ({
  id: 'r1',
  time: '2026-11-25 09:14',
  value: '412 kPa ± 9',
  verdict: 'pass',
  confidence: 0.981,
  leftOut: null,
  ...change,
});

export const check = (change: Partial<CheckRow>): CheckRow => ({
  checkId: 'supply-cranking',
  title: 'Supply pressure while cranking',
  purpose: 'Shows whether the supply pump brings fuel to the high-pressure pump while the starter turns.',
  word: null,
  confidence: null,
  runs: 0,
  runsNeeded: 1,
  skipped: null,
  repeatBecause: null,
  value: '',
  asksFor: [],
  runList: [],
  ...change,
});

export const CHECK_ROWS: readonly CheckRow[] = [
  check({
    checkId: 'fuel',
    title: 'Fuel quality and level',
    word: 'pass',
    runs: 1,
    runList: [run({ id: 'f1', value: 'all 4 points in order', confidence: null })],
  }),
  check({
    word: 'pass',
    confidence: 0.981,
    value: '412 kPa ± 9',
    runs: 1,
    runList: [run({})],
  }),
  check({
    checkId: 'suction',
    title: 'Suction restriction',
    skipped: 'No gauge at hand; the customer agreed.',
  }),
  check({
    checkId: 'pump-return',
    title: 'Pump return volume at raised rail pressure',
    word: 'fail high',
    confidence: 0.9997,
    value: '612 mL ± 14',
    runs: 2,
    runsNeeded: 2,
    repeatBecause: 'The metering valve was replaced since.',
    runList: [
      run({ id: 'p1', value: '240 mL ± 14', verdict: 'pass', leftOut: 'The hose had slipped off.' }),
      run({ id: 'p2', time: '2026-11-25 10:02', value: '605 mL ± 14', verdict: 'fail high' }),
      run({
        id: 'p3',
        time: '2026-11-25 10:20',
        value: '612 mL ± 14',
        verdict: 'fail high',
        confidence: 0.9997,
      }),
    ],
  }),
  check({
    checkId: 'build',
    title: 'Rail pressure build while cranking',
    word: 'marginal',
    confidence: 0.962,
    value: '3.4 s ± 0.2',
    runs: 1,
    runsNeeded: 2,
    runList: [
      run({ id: 'b1', value: '3.4 s ± 0.2', verdict: 'marginal', confidence: 0.962 }),
      run({ id: 'b2', value: '', verdict: null, confidence: null }),
    ],
  }),
  check({
    checkId: 'decay',
    title: 'Rail pressure decay after shut-off',
    word: 'disagree',
    runs: 2,
    runsNeeded: 2,
    runList: [
      run({ id: 'd1', value: '8.1 s ± 0.3' }),
      run({ id: 'd2', value: '5.0 s ± 0.3', verdict: 'too close to call', confidence: 0.71 }),
    ],
  }),
  check({
    checkId: 'crank-delivery',
    title: 'Crank delivery through the calibrated relief valve, rail blocked off',
    runsNeeded: 2,
    asksFor: ['build', 'decay'],
  }),
];

const station = (id: PathStation['station'], state: PathStation['state'], sentence: string): PathStation => ({
  station: id,
  state,
  checkIds: [],
  sentence,
});

/** The metering valve is left out: an unknown station counts as not checked. */
export const PATH: readonly PathStation[] = [
  station('tank', 'cleared', 'Cleared by Fuel quality and level.'),
  station('suction line', 'cleared', 'Cleared by Supply pressure while cranking.'),
  station('suction filter', 'cleared', 'Cleared by Supply pressure while cranking.'),
  station('supply pump', 'to be repeated', 'The filter was replaced since.'),
  station('pressure filter', 'open question', 'The runs disagree.'),
  station('high-pressure pump', 'fails', 'Pump return volume: fail high.'),
  station('rail', 'suspect', 'Rail pressure build: marginal.'),
  station('injectors', 'cleared', 'Cleared by Injector return volume.'),
];

export const NEXT: NextStepView = {
  step: 'repeat check',
  checkId: 'pump-return',
  sentence: 'Repeat “Pump return volume at raised rail pressure”.',
  why: 'The metering valve was replaced since the last run, so what that run said holds no longer.',
  action: 'Start the check',
  causes: [
    {
      id: 'elements',
      text: 'Worn pumping elements',
      station: 'Pumping elements and outlet check valves',
      look: 'Swarf in the filter; the return hose hot within a minute.',
      repair: 'Replace the pump.',
      because: ['Pump return volume: fail high', 'Rail pressure build: marginal'],
    },
    {
      id: 'valve',
      text: 'Metering valve sticks',
      station: 'Metering valve and housing',
      look: 'The plug and its seal.',
      repair: 'Clean or replace the valve.',
      because: [],
    },
  ],
};

export const FIELDS: Readonly<Record<string, JobFieldView>> = {
  complaint: {
    ...EMPTY_FIELD,
    value: 'Loses power on hills, starts badly when hot.\nSince the last filter change.',
    from: 'typed',
  },
  unitNumber: { ...EMPTY_FIELD, value: 'T-114', from: 'typed' },
  serialNumber: { ...EMPTY_FIELD, value: 'P321', from: 'typed', proposal: 'P3210' },
  vin: {
    ...EMPTY_FIELD,
    value: '1M8GDM9AXKP042788',
    from: 'bus',
    note: 'The check digit does not fit: compare it with the plate.',
    noteTone: 'doubt',
  },
  engineHours: { ...EMPTY_FIELD, proposal: '8123.5' },
};

export const TYPED: readonly TypedCode[] = [{ spn: 157, fmi: 18, note: 'dash display' }];

export const HEARD: readonly HeardCode[] = [
  { spn: 157, fmi: 18, words: 'Rail pressure: too low', state: 'active' },
  { spn: 94, fmi: 1, words: '', state: 'previous' },
];

export const SUGGESTION: SuggestionView = {
  decision: 'repair now',
  cause: 'Worn pumping elements',
  sentences: [
    'Pump return volume fails high in two runs.',
    'Supply pressure passes, so the low side is cleared.',
  ],
  watchFor: ['loss of power on hills'],
};

export const CONCLUSION: ConclusionDraft = {
  decision: 'repair now',
  words: 'The pump loses through its return.\nReplaced, primed, repeated: in order.',
  cause: 'Worn pumping elements',
  watchFor: '',
};

export const job = (change: Partial<JobRow>): JobRow => ({
  id: 'j1',
  unitNumber: 'T-114',
  vin: '',
  customer: 'Invented Haulage',
  engineFamily: 'Demo family',
  serialNumber: 'P321',
  complaint: 'Loses power on hills, starts badly when hot.',
  state: 'open',
  decision: null,
  scenarioId: null,
  updatedAt: '2026-11-25T12:04:00.000Z',
  ...change,
});

export const JOBS: readonly JobRow[] = [
  job({}),
  job({ id: 'j2', unitNumber: 'T-115', state: 'concluded', decision: 'run on and watch' }),
  job({
    id: 'j3',
    unitNumber: 'T-7',
    state: 'signed',
    decision: 'repair now',
    updatedAt: '2026-10-02T09:30:00.000Z',
  }),
  job({
    id: 'j4',
    unitNumber: '',
    customer: '',
    engineFamily: '',
    serialNumber: '',
    complaint: '',
    scenarioId: 'sound',
    updatedAt: '2026-09-30T07:00:00.000Z',
  }),
];
