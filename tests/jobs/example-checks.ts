import type { CheckSettings } from '../../src/checks/check-settings.ts';
import { NO_FACTS, type CheckFacts } from '../../src/jobs/check-facts.ts';
import { judgeCheck } from '../../src/jobs/judge-check.ts';
import type { JudgedCheck } from '../../src/jobs/judged-check.ts';
import { startingValues, type RunValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet, Window } from '../../src/limits/limit-sheet.ts';
import type { ProcedureCheck } from '../../src/procedures/procedure.ts';

const advice = { headline: 'Said.', causes: [], next: ['Go on.'], nextCheck: null };

/** A check of a procedure with these settings and nothing else that matters here. */
export const guideOf = (settings: CheckSettings, id = 'example'): ProcedureCheck => ({
  id,
  title: 'Example',
  purpose: 'For tests.',
  stations: ['rail'],
  clears: [],
  needs: [],
  cautions: [{ id: 'hot', text: 'Hot.' }],
  preparations: ['Prepare.'],
  howTo: ['Measure.'],
  settings,
  runsNeeded: 1,
  repeatAfter: [],
  advice: {
    pass: advice,
    marginal: advice,
    'fail low': advice,
    'fail high': advice,
    'too close to call': advice,
    'not valid': advice,
  },
});

/** A confirmed sheet with one window for the check `example`. */
export const sheetOf = (
  quantity: Window['quantity'],
  min: number | null,
  max: number | null,
  more: Partial<Window> = {},
): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id: 'example-sheet',
  title: 'Example sheet',
  invented: false,
  confirmedBy: 'A. N.',
  confirmedOn: '2026-01-01',
  limits: [
    {
      kind: 'window',
      check: 'example',
      title: 'Example window',
      quantity,
      min,
      max,
      durationSeconds: null,
      conditions: [],
      ...more,
    },
  ],
});

/** A run of the check `example` on 2 January 2026 judged as a whole. */
export function judgeExample(
  settings: CheckSettings,
  sheet: LimitSheet | null,
  facts: Partial<CheckFacts>,
  more: { readonly values?: Partial<RunValues>; readonly over?: boolean } = {},
): JudgedCheck {
  const judged = judgeCheck({
    kind: settings.kind,
    guide: guideOf(settings),
    check: 'example',
    sheet,
    facts: { ...NO_FACTS, onDate: '2026-01-02', ...facts },
    values: { ...startingValues(null), ...more.values },
    over: more.over ?? true,
  });
  if (!judged.ok) throw new Error(judged.problem.code);
  return judged.value;
}

const typedAt = { atIso: '2026-01-02T10:00:00Z', reason: '' };

/** A value read off an instrument. */
export const typedValue = (value: number, tolerance = 0, halfStep = 0): Partial<RunValues> => ({
  value: { ...typedAt, kind: 'value', value, typed: `${value}`, tolerance, halfStep, instrument: 'gauge' },
});

/** A volume read off the vessel that the run has. */
export const typedVolumeMl = (volumeMl: number): Partial<RunValues> => ({
  volume: { ...typedAt, kind: 'volume', readingsMl: [volumeMl], typed: `${volumeMl}` },
});

/** What was seen at points of an inspection. */
export const observed = (
  seen: Readonly<Record<string, 'in order' | 'not in order' | 'not looked at'>>,
): Partial<RunValues> => ({
  observations: new Map(
    Object.entries(seen).map(([point, what]) => [
      point,
      { ...typedAt, kind: 'observation', point, seen: what, note: '', photoIds: [] } as const,
    ]),
  ),
});
