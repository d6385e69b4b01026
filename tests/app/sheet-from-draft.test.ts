import { describe, expect, test } from 'vitest';
import { draftOfSheet, sheetOfDraft } from '../../src/app/sheet-from-draft.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { EMPTY_CHART, EMPTY_SHEET, EMPTY_WINDOW, type SheetDraft } from '../../src/ui/sheet-draft.ts';

const NEW = { id: 'new', sheetId: 'new', tracings: new Map(), base: null };
const DRAFT: SheetDraft = {
  ...EMPTY_SHEET,
  title: ' Yard sheet ',
  engineFamily: 'Yard engine',
  ranges: [{ prefix: 'P', from: '100', to: '' }],
  revision: '3',
  validFrom: '2026-11-01',
  readFrom: 'the red folder',
  readBy: 'the night shift',
  confirmedOn: '2026-11-02',
  limits: [
    { ...EMPTY_WINDOW, check: 'pump-return', unit: 'usFlOz', max: '12', durationSeconds: '60' },
    {
      ...EMPTY_CHART,
      check: 'crank-delivery',
      curves: {
        join: 'straight',
        failBelow: [
          { speed: '100', volume: '100' },
          { speed: '200', volume: '250,5' },
        ],
        passAbove: [
          { speed: '100', volume: '150' },
          { speed: '200', volume: '300' },
        ],
        failAbove: [],
      },
    },
  ],
};

const sound = (sheet: LimitSheet): LimitSheet => {
  const parsed = parseLimitSheet(sheet);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.value;
};

describe('a sheet as typed', () => {
  const sheet = sound(sheetOfDraft(DRAFT, NEW));

  test('keeps what was typed, trimmed, and an open end as none', () => {
    expect(sheet).toMatchObject({
      title: 'Yard sheet',
      serialRanges: [{ prefix: 'P', from: '100', to: null }],
      confirmedBy: 'the night shift',
      confirmedOn: '2026-11-02',
      invented: false,
    });
  });

  test('converts once and keeps the printed number beside: 12 US fl oz are 354.882 mL (NIST SP 811, 29.57353 mL each)', () => {
    const [window] = sheet.limits;
    expect(window?.kind === 'window' && window.max).toBeCloseTo(354.882, 2);
    expect(window).toMatchObject({
      printedUnit: 'usFlOz',
      printedNumbers: { min: null, max: '12' },
      min: null,
    });
  });

  test('reads a decimal comma in the points of a chart', () => {
    const chart = sheet.limits[1];
    expect(chart?.kind === 'speed chart' && chart.failBelow[1]).toEqual([200, 250.5]);
    expect(chart?.kind === 'speed chart' && chart.failAbove).toBeNull();
  });

  test('becomes the same draft again, not confirmed yet', () => {
    const again = draftOfSheet(sheet);
    // All but the confirmation, which was one of the old numbers.
    expect(sound(sheetOfDraft(again, NEW))).toEqual({ ...sheet, confirmedOn: null });
  });
});

describe('a revision', () => {
  const [chart, ...others] = DEMONSTRATION_SHEET.limits;
  const base: LimitSheet = {
    ...DEMONSTRATION_SHEET,
    limits: [
      {
        ...chart!,
        repeatabilityLimit: 7,
        conditions: [{ signal: 'fuelTemperature', min: 10, max: 50, outside: 'warn' }],
      } as LimitSheet['limits'][number],
      ...others,
    ],
  };
  const carried = () => sheetOfDraft(draftOfSheet(base), { ...NEW, base }).limits[0];

  test('carries over what the form does not show', () => {
    expect(carried()).toMatchObject({
      repeatabilityLimit: 7,
      conditions: [{ signal: 'fuelTemperature', min: 10, max: 50 }],
    });
  });

  test('of a traced chart keeps the uncertainty of its curves', () => {
    const tracing = { uVolumeMl: 3, note: 'by hand' };
    const tracings = new Map([[chart!.check, tracing]]);
    expect(sheetOfDraft(draftOfSheet(base), { ...NEW, base, tracings }).limits[0]).toMatchObject({ tracing });
  });

  test('without a base carries nothing', () => {
    expect(sheetOfDraft(draftOfSheet(base), NEW).limits[0]).toMatchObject({ conditions: [] });
  });
});
