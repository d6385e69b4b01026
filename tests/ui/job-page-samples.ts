import type { BeforeAfterRow } from '../../src/ui/before-after.ts';
import type { JobSheetView, SheetCheckRow } from '../../src/ui/job-sheet-view.ts';
import type { WorkCause } from '../../src/ui/work-form.ts';
import type { WorkRunMark, WorkView } from '../../src/ui/work-list.ts';
import { PATH } from './job-samples.ts';

/** Invented works, comparisons and a whole page for looking at and testing the elements. No number here is a limit of any engine. */
export const work = (change: Partial<WorkView>): WorkView => ({
  kind: 'work',
  id: 'w1',
  time: '2026-11-25 10:40',
  what: 'replaced',
  station: 'Metering valve and housing',
  part: 'Metering valve 12-34',
  cause: 'Metering valve sticks',
  note: '',
  primed: null,
  repeat: ['Pump return volume at raised rail pressure'],
  withdrawn: null,
  ...change,
});

export const WORKS: readonly (WorkView | WorkRunMark)[] = [
  {
    kind: 'run',
    id: 'p3',
    time: '2026-11-25 10:20',
    title: 'Pump return volume',
    value: '612 mL ± 14',
    word: 'fail high',
  },
  work({ note: 'Swarf on the seal.' }),
  work({ id: 'w2', part: 'Filter', primed: '2026-11-25 10:50', cause: '', withdrawn: 'Entered twice.' }),
  work({ id: 'w3', part: 'Seal', primed: '2026-11-25 11:00', repeat: [] }),
  {
    kind: 'run',
    id: 'p4',
    time: '2026-11-25 11:20',
    title: 'Pump return volume',
    value: '240 mL ± 14',
    word: 'pass',
  },
];

export const CAUSES: readonly WorkCause[] = [
  { id: 'elements', station: 'high-pressure pump', text: 'Worn pumping elements' },
  { id: 'valve', station: 'metering valve', text: 'Metering valve sticks' },
];

export const BEFORE_AFTER: readonly BeforeAfterRow[] = [
  {
    checkId: 'pump-return',
    title: 'Pump return volume at raised rail pressure',
    before: { value: '612 mL ± 14', word: 'fail high', confidence: 0.9997, runs: 2 },
    after: { value: '240 mL ± 14', word: 'pass', confidence: 0.991, runs: 1 },
    difference: '−372 mL ± 20',
    chance: 'more than chance',
  },
  {
    checkId: 'build',
    title: 'Rail pressure build while cranking',
    before: { value: '3.4 s ± 0.2', word: 'marginal', confidence: 0.962, runs: 2 },
    after: { value: '3.3 s ± 0.2', word: 'too close to call', confidence: 0.7, runs: 1 },
    difference: '−0.1 s ± 0.3',
    chance: 'may be chance',
  },
  {
    checkId: 'decay',
    title: 'Rail pressure decay after shut-off',
    before: { value: '', word: 'disagree', confidence: null, runs: 2 },
    after: null,
    difference: '',
    chance: 'not comparable',
  },
];

const sheetRow = (change: Partial<SheetCheckRow>): SheetCheckRow => ({
  title: 'Supply pressure while cranking',
  value: '412 kPa ± 9',
  limit: 'at least 300 kPa',
  sheet: 'Invented limits, revision 3',
  word: 'pass',
  sure: '98.1 % sure',
  state: '',
  notes: [],
  ...change,
});

export const SHEET_VIEW: JobSheetView = {
  title: 'Low rail pressure: unit T-114',
  dates: 'Begun 2026-11-25 08:40, last entry 2026-11-25 12:04',
  standing: 'Signed, revision 2',
  practice: 'For practice: the engine is simulated and the limits are invented.',
  complaint: 'Loses power on hills, starts badly when hot.',
  identity: [
    ['Unit number', 'T-114'],
    ['Engine family', 'Demo family'],
    ['Engine serial number', 'P321'],
    ['VIN', ''],
    ['Engine hours', '8123.5 h'],
    ['Technician', 'A. Reader'],
  ],
  codes: [
    { code: 'SPN 157 FMI 18', words: 'Rail pressure: too low', from: 'from the bus, active' },
    { code: 'SPN 94 FMI 1', words: '', from: 'typed' },
  ],
  path: PATH,
  pathWords:
    'Cleared from the tank to the separator. The loss must lie between the supply pump and the rail.',
  checks: [
    sheetRow({
      title: 'Fuel quality and level',
      value: 'all 4 points in order',
      limit: '',
      sheet: '',
      sure: '',
    }),
    sheetRow({}),
    sheetRow({
      title: 'Suction restriction',
      value: '',
      limit: '',
      sheet: '',
      word: null,
      sure: '',
      state: 'left out',
      notes: ['Left out: no gauge at hand; the customer agreed.'],
    }),
    sheetRow({
      title: 'Pump return volume at raised rail pressure',
      value: '612 mL ± 14',
      limit: 'at most 525 mL',
      word: 'fail high',
      sure: 'more than 99.9 % sure',
      state: 'to be repeated',
      notes: ['Run 1 (240 mL ± 14) does not count: the hose had slipped off.'],
    }),
    sheetRow({
      title: 'Rail pressure build while cranking',
      value: '',
      word: null,
      sure: '',
      state: 'not done',
    }),
  ],
  works: [
    {
      time: '2026-11-25 10:40',
      words: 'Metering valve 12-34 replaced (Metering valve and housing)',
      notes: ['To put right: metering valve sticks. Primed 10:50.'],
    },
  ],
  notes: [{ time: '2026-11-25 10:30', words: 'Swarf on the seal of the metering valve.' }],
  beforeAfter: BEFORE_AFTER,
  conclusion: {
    decision: 'Repair now',
    words: 'The pump loses through its return.\nReplaced, primed, repeated: in order.',
    cause: 'Worn pumping elements',
    watchFor: '',
    by: 'A. Reader',
    time: '2026-11-25 12:04',
  },
  caveat: 'Marginal says nothing of how the engine holds at full load.',
  reopened: ['Opened again 2026-11-25 11:10: came back after a test drive.'],
  cautions: ['The engine maker’s current procedure for this serial number stands above this page.'],
  versions: 'Meniscus 0.1.0, grading revision 1, procedure “Low rail pressure” revision 1, job format 1.',
};
