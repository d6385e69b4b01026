import type { LimitSheet } from './limit-sheet.ts';

/**
 * The sheet that the bench engine is graded on. Every number in it was made up for practice and belongs to no real
 * engine; it says so in its title, and `invented` makes every screen say so too.
 */
export const DEMONSTRATION_SHEET: LimitSheet = {
  formatVersion: 2,
  id: 'demonstration',
  sheetId: 'demonstration',
  replaces: null,
  title: 'Demonstration sheet – invented numbers',
  invented: true,
  engineFamily: 'Bench engine',
  serialRanges: [{ from: null, to: null }],
  revision: '1',
  validFrom: '2024-01-01',
  readFrom: 'Made up for practice on the bench engine. Not for any real engine.',
  confirmedBy: '',
  confirmedOn: null,
  limits: [
    {
      kind: 'speed chart',
      check: 'crank-delivery',
      title: 'Pump delivery while cranking',
      cranks: 2,
      crankSeconds: 15,
      timeTolerancePercent: 5,
      speedAverage: 'time-weighted',
      join: 'straight',
      failBelow: [
        [100, 90],
        [140, 156],
        [180, 219],
        [220, 277],
        [260, 330],
      ],
      passAbove: [
        [100, 113],
        [140, 195],
        [180, 274],
        [220, 346],
        [260, 413],
      ],
      failAbove: null,
      conditions: [{ signal: 'fuelTemperature', min: 5, max: 60, outside: 'warn' }],
    },
    {
      kind: 'window',
      check: 'pump-return',
      title: 'Pump return volume at raised rail pressure',
      quantity: 'volume',
      min: 125,
      max: 525,
      durationSeconds: 30,
      conditions: [],
    },
  ],
};
