import { ADVICE_WORDS, type Procedure, type ProcedureCheck } from '../procedures/procedure.ts';

type AdviceWord = (typeof ADVICE_WORDS)[number];

/** One item a line; empty lines say nothing. */
export const linesOf = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** The procedure with one check replaced. An id that is not there changes nothing. */
export const withCheck = (
  procedure: Procedure,
  id: string,
  change: (check: ProcedureCheck) => ProcedureCheck,
): Procedure => ({
  ...procedure,
  checks: procedure.checks.map((check) => (check.id === id ? change(check) : check)),
});

/** The procedure with a check moved by that many places, held within the list. */
export function moved(procedure: Procedure, id: string, by: number): Procedure {
  const from = procedure.checks.findIndex((check) => check.id === id);
  const to = Math.min(procedure.checks.length - 1, Math.max(0, from + by));
  if (from < 0 || from === to) return procedure;
  const checks = procedure.checks.filter((_, place) => place !== from);
  return { ...procedure, checks: checks.toSpliced(to, 0, procedure.checks[from]!) };
}

/** The procedure without a check, and without what referred to it. The last one stays. */
export function without(procedure: Procedure, id: string): Procedure {
  if (procedure.checks.length < 2) return procedure;
  const left = (ids: readonly string[]) => ids.filter((each) => each !== id);
  const checks = procedure.checks
    .filter((check) => check.id !== id)
    .map((check) => ({ ...check, needs: left(check.needs), advice: adviceWithout(check.advice, id) }));
  const causes = procedure.causes.map((cause) => ({ ...cause, repeat: left(cause.repeat) }));
  return { ...procedure, checks, causes };
}

function adviceWithout(advice: ProcedureCheck['advice'], id: string): ProcedureCheck['advice'] {
  const changed = ADVICE_WORDS.map((word) => {
    const each = advice[word];
    return [word, each.nextCheck === id ? { ...each, nextCheck: null } : each];
  });
  return Object.fromEntries(changed) as ProcedureCheck['advice'];
}

/** The check with one verdict's advice changed. */
export const withAdvice = (
  check: ProcedureCheck,
  word: AdviceWord,
  change: Partial<ProcedureCheck['advice'][AdviceWord]>,
): ProcedureCheck => ({
  ...check,
  advice: { ...check.advice, [word]: { ...check.advice[word], ...change } },
});

/** A number among a check's settings, by its path, with the words for it. */
export interface SettingNumber {
  readonly path: readonly string[];
  readonly words: string;
  readonly value: number;
}

/** The numbers that a check is set by, to be changed one by one. */
export const settingNumbers = (settings: ProcedureCheck['settings']): readonly SettingNumber[] =>
  numbersIn(settings, []);

function numbersIn(holder: object, path: readonly string[]): readonly SettingNumber[] {
  return Object.entries(holder).flatMap(([key, value]: [string, unknown]) => {
    const here = [...path, key];
    if (typeof value === 'number') return [{ path: here, words: wordsOf(here), value }];
    const nested = typeof value === 'object' && value !== null && !Array.isArray(value);
    return nested ? numbersIn(value, here) : [];
  });
}

const UNITS: readonly (readonly [string, string])[] = [
  ['Seconds', ', s'],
  ['Rpm', ', rpm'],
  ['KPa', ', kPa'],
];

function wordsOf(path: readonly string[]): string {
  const name = path.join(' ');
  const [ending, unit] = UNITS.find(([suffix]) => name.endsWith(suffix)) ?? ['', ''];
  const bare = name.slice(0, name.length - ending.length) || name;
  const spaced = bare.replace(/([A-Z])/g, ' $1').toLowerCase();
  return `${spaced.charAt(0).toUpperCase()}${spaced.slice(1)}${unit}`;
}

/** The check with one of its setting numbers changed. */
export function withSetting(check: ProcedureCheck, path: readonly string[], value: number): ProcedureCheck {
  return { ...check, settings: put(check.settings, path, value) };
}

function put<T extends object>(holder: T, [key, ...rest]: readonly string[], value: number): T {
  if (key === undefined) return holder;
  const inner = (holder as Record<string, unknown>)[key];
  const next =
    rest.length > 0 && typeof inner === 'object' && inner !== null ? put(inner, rest, value) : value;
  return { ...holder, [key]: next };
}
