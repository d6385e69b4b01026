import { CaseSet, type CaseSetInput } from '../../src/training/case-set.ts';

/** A small set that tests bend. */
export const SMALL_SET: CaseSetInput = {
  formatVersion: 1,
  id: 'small-set',
  title: 'Small set',
  level: 'first steps',
  about: 'For tests.',
  source: 'Invented.',
  defects: [
    { kind: 'air leak', least: 0.5, most: 0.9 },
    { kind: 'worn pump elements', least: 0.4, most: 0.8 },
  ],
  howMany: [{ defects: 1, weight: 1 }],
  complaints: [
    { text: 'A code came up.' },
    { text: 'Long cranking over night.', fits: ['air leak'] },
    { text: 'Lame when hot.', fits: ['worn pump elements'] },
  ],
  vehicles: [
    {
      unit: 'Digger',
      engineFamily: 'Bench engine',
      serialNumbers: { least: 100, most: 199 },
      hours: { least: 10, most: 20 },
    },
    {
      unit: 'Roller',
      engineFamily: 'Bench engine',
      serialNumbers: { least: 200, most: 299 },
      hours: { least: 30, most: 40 },
    },
  ],
  temperaturesC: { fuel: { least: 10, most: 30 }, day: { least: -5, most: 15 } },
};

export const setOf = (change: Partial<CaseSetInput> = {}): CaseSet =>
  CaseSet.parse({ ...SMALL_SET, ...change });
