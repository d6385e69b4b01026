import type { CurveDraft } from '../../src/ui/curve-edit.ts';

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
