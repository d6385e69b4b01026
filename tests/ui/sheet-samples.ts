import type { CurveDraft } from '../../src/ui/curve-edit.ts';
import type { SheetDraft } from '../../src/ui/sheet-draft.ts';
import type { ImportSheetView } from '../../src/ui/sheet-import-preview.ts';
import type { CheckChoice } from '../../src/ui/sheet-limit-form.ts';
import type { SheetFamilyView, SheetRevisionView } from '../../src/ui/sheet-list.ts';
import type { SerialAnswer } from '../../src/ui/sheet-serial-check.ts';

/** Invented data for looking at and testing the elements. No number here is a limit of any engine. */
export const DRAFT: CurveDraft = {
  failBelow: [
    { speed: '100', volume: '180' },
    { speed: '150', volume: '290' },
    { speed: '220', volume: '430' },
  ],
  passAbove: [
    { speed: '100', volume: '235' },
    { speed: '150', volume: '350' },
    { speed: '220', volume: '505' },
  ],
  failAbove: [],
  join: 'straight',
};

export const CHECKS: readonly CheckChoice[] = [
  { id: 'crank-delivery', title: 'Pump delivery while cranking' },
  { id: 'pump-return', title: 'Pump return volume' },
];

export const SHEET: SheetDraft = {
  title: 'Pump limits',
  engineFamily: 'Practice engine',
  ranges: [
    { prefix: 'P', from: '100', to: '500' },
    { prefix: 'Q', from: '2000', to: '' },
  ],
  revision: '3',
  validFrom: '2026-03-01',
  readFrom: 'Made up for this gallery, page 12',
  readBy: 'A. Reader',
  confirmedOn: '2026-11-13',
  limits: [
    {
      kind: 'window',
      check: 'pump-return',
      title: 'Pump return volume',
      unit: 'usFlOz',
      min: '4',
      max: '18',
      durationSeconds: '30',
      operatingPoint: 'Idle, raised rail pressure',
    },
    {
      kind: 'speed chart',
      check: 'crank-delivery',
      title: 'Pump delivery while cranking',
      unit: 'mL',
      cranks: '2',
      crankSeconds: '15',
      speedAverage: 'time-weighted',
      curves: DRAFT,
    },
  ],
};

const REVISION: SheetRevisionView = {
  id: 'p3',
  title: 'Pump limits',
  revision: '3',
  validFrom: '2026-03-01',
  force: 'in force',
  why: 'The newest revision that is valid today.',
  confirmation: { state: 'confirmed', days: 12, by: 'A. Reader' },
  covers: 'P100 to P500; P700 on',
  limits: ['Pump delivery while cranking', 'Pump return volume'],
  fixed: false,
};

export const FAMILIES: readonly SheetFamilyView[] = [
  {
    family: 'Practice engine',
    ranges: [
      { prefix: 'P', from: '100', to: '500', sheet: 'revision 3' },
      { prefix: 'P', from: '450', to: '599', sheet: 'revision 2b' },
      { prefix: 'P', from: '700', to: null, sheet: 'revision 3' },
    ],
    revisions: [
      {
        ...REVISION,
        id: 'p1',
        revision: '1',
        validFrom: '2024-01-01',
        force: 'replaced',
        why: 'Revision 3 holds since 2026-03-01. Old runs keep this one.',
        confirmation: { state: 'due', days: 341, by: 'A. Reader' },
      },
      REVISION,
      {
        ...REVISION,
        id: 'p4',
        revision: '4',
        validFrom: '2027-01-01',
        force: 'not yet valid',
        why: 'It holds from 2027-01-01 on.',
        confirmation: { state: 'never', days: null, by: '' },
      },
    ],
  },
  {
    family: 'Bench engine',
    ranges: [],
    revisions: [
      {
        ...REVISION,
        id: 'demonstration',
        title: 'Demonstration sheet',
        revision: '1',
        confirmation: { state: 'invented', days: null, by: '' },
        why: 'It is for the bench only and is never chosen for a real engine.',
        covers: 'every serial number',
        fixed: true,
      },
    ],
  },
];

export const IMPORT: readonly ImportSheetView[] = [
  {
    id: 'p4',
    title: 'Pump limits',
    engineFamily: 'Practice engine',
    revision: '4',
    kind: 'changed',
    changes: [
      { place: 'valid from', before: '2026-03-01', after: '2027-01-01' },
      { place: 'Pump return volume, highest allowed', before: '525 mL', after: '510 mL' },
      { place: 'Pump return volume, where it holds', before: null, after: 'Idle, raised rail pressure' },
    ],
    problems: [],
  },
  {
    id: 'n1',
    title: 'Return limits',
    engineFamily: 'Practice engine 2',
    revision: '1',
    kind: 'new',
    changes: [],
    problems: [{ message: 'Nobody has confirmed these numbers.', remedy: 'Compare them with their source.' }],
  },
  {
    id: 's1',
    title: 'Leak limits',
    engineFamily: 'Practice engine',
    revision: '2',
    kind: 'same',
    changes: [],
    problems: [],
  },
  {
    id: 'r1',
    title: 'Torn sheet',
    engineFamily: 'Practice engine',
    revision: '7',
    kind: 'refused',
    changes: [],
    problems: [{ message: 'Two curves cross near 150 rpm.', remedy: 'Check the points near that speed.' }],
  },
];

export const ANSWER: SerialAnswer = {
  kind: 'one',
  checks: ['Crank delivery', 'Pump return volume'],
  why: '“Pump limits”, revision 3, holds for serial number P321 (P100 to P500) since 2026-03-01.',
  sheets: [
    {
      id: 'p3',
      title: 'Pump limits',
      revision: '3',
      validFrom: '2026-03-01',
      confirmation: { state: 'due', days: 104, by: 'A. Reader' },
    },
  ],
  passedOver: [
    {
      id: 'p4',
      otherCheck: false,
      title: 'Pump limits',
      revision: '4',
      why: 'It holds only from 2027-01-01 on.',
    },
  ],
  warnings: [],
};

export const NO_ANSWER: SerialAnswer = {
  kind: 'none',
  checks: ['Supply pressure at idle'],
  why: 'No limit sheet kept here holds for serial number P650.',
  sheets: [],
  passedOver: [
    {
      id: 'p3',
      otherCheck: false,
      title: 'Pump limits',
      revision: '3',
      why: 'P650 lies between its ranges P100 to P500 and P700 on.',
    },
  ],
  warnings: [],
};
