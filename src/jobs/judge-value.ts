import type { CheckSettings } from '../checks/check-settings.ts';
import { judgeConditions } from '../checks/conditions.ts';
import { applyOverrides } from '../checks/overrides.ts';
import { measurePressureBuild } from '../checks/pressure-build.ts';
import { measurePressureDecay } from '../checks/pressure-decay.ts';
import { measurePressureDeviation } from '../checks/pressure-deviation.ts';
import { measureSteadyPressure } from '../checks/steady-pressure.ts';
import type { TypedValue, ValueMeasurement } from '../checks/value-measurement.ts';
import { valueArithmetic } from '../grading/arithmetic-value.ts';
import { gradeValue } from '../grading/grade-value.ts';
import { notValid } from '../grading/judge.ts';
import type { Verdict } from '../grading/verdict.ts';
import { conditionsOver } from './conditions-over.ts';
import type { CheckMeasurement, CheckToJudge, JudgedCheck } from './judged-check.ts';
import { withChoices } from './judge-run.ts';
import { limitOfCheck, type FoundLimit } from './limit-of-check.ts';
import { overridesOf } from './overrides-of.ts';
import type { RunValues } from './run-entries.ts';
import { valueSummaryOf } from './value-summary.ts';

type ValueSettings = Extract<
  CheckSettings,
  { kind: 'steady pressure' | 'pressure build' | 'pressure decay' | 'pressure deviation' }
>;

/** A check that gives one value: measured, its conditions weighed, held against its window. */
export function judgeValue(asked: CheckToJudge, settings: ValueSettings): JudgedCheck {
  const found = limitOfCheck(asked);
  const measurement = judgedAround(asked, measured(asked, settings), found);
  const { value } = measurement;
  const verdict = verdictOn(asked, value, found);
  return {
    kind: asked.kind,
    limit: found.limit,
    measurement,
    verdict,
    valueSummary: valueSummaryOf(value),
    arithmetic: valueArithmetic(settings.kind, value, found.window, verdict),
    volumeProblem: null,
  };
}

type ValueCheck = Extract<CheckMeasurement, { value: ValueMeasurement }>;

function measured({ facts, values }: CheckToJudge, settings: ValueSettings): ValueCheck {
  const common = { signals: facts.signals, typed: typedValue(values), chosen: values.stretch };
  switch (settings.kind) {
    case 'steady pressure':
      return { kind: settings.kind, value: measureSteadyPressure({ settings, ...common }) };
    case 'pressure build': {
      const cranks = facts.cranks.map((entry, place) => withChoices(entry, place, values));
      const { underWay } = facts;
      return { kind: settings.kind, value: measurePressureBuild({ settings, cranks, underWay, ...common }) };
    }
    case 'pressure decay':
      return { kind: settings.kind, value: measurePressureDecay({ settings, ...common }) };
    case 'pressure deviation':
      return { kind: settings.kind, value: measurePressureDeviation({ settings, ...common }) };
  }
}

function typedValue({ value: entry }: RunValues): TypedValue | null {
  if (!entry || entry.value === null) return null;
  return { value: entry.value, tolerance: entry.tolerance, halfStep: entry.halfStep };
}

/** Conditions of the limit over the stretch that was measured, and what the person set aside. */
function judgedAround(
  { facts, values }: CheckToJudge,
  check: ValueCheck,
  { window }: FoundLimit,
): ValueCheck {
  const { stretch, reasons, warnings } = check.value;
  const conditions = conditionsOver(facts.signals, stretch ? [stretch] : []);
  const around = judgeConditions(window?.conditions ?? [], conditions);
  const judged = applyOverrides(
    { reasons: [...reasons, ...around.reasons], warnings: [...warnings, ...around.warnings] },
    overridesOf(values),
  );
  return check.kind === 'pressure deviation'
    ? { ...check, value: { ...check.value, ...judged } }
    : { ...check, value: { ...check.value, ...judged } };
}

/** Null while a value, or the rest of one, may still come. */
function verdictOn(
  { over = false }: CheckToJudge,
  value: ValueMeasurement,
  { window, warnings, missing }: FoundLimit,
): Verdict | null {
  const mayCome = !over && !value.typed;
  if (mayCome && value.value === null) return null;
  if (!window || missing)
    return notValid([...(missing ? [missing] : []), ...value.reasons], [...value.warnings, ...warnings]);
  const graded = gradeValue(value, window, warnings);
  return mayCome && value.atLeast && graded.word === 'not valid' ? null : graded;
}
