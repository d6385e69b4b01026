import type { z } from 'zod';

type Issue = z.core.$ZodIssue;

/**
 * A place in a sheet in words: ["limits", 0, "failBelow", 2, 1] becomes `limits, entry 1 (crank-delivery), failBelow, point 3, volume`.
 * `json` is used to name the check of a limit; people do not count entries.
 */
export function placeName(path: readonly PropertyKey[], json: unknown): string {
  if (path.length === 0) return 'the top level of the sheet';
  return path.map((step, index) => stepName(path, index, step, json)).join(', ');
}

/** What is wrong with one entry, in plain words, as the end of a sentence. */
export function describeIssue(issue: Issue): string {
  return WORDS[issue.code](issue as never); // the table pairs each code with the issue of that code
}

const UNREADABLE = () => 'it cannot be read';

const WORDS: { readonly [Code in Issue['code']]: (issue: Extract<Issue, { code: Code }>) => string } = {
  invalid_type: ({ expected, input }) =>
    input === undefined
      ? 'it is missing'
      : `${EXPECTED[expected] ?? expected} is expected, but it is ${shown(input)}`,
  unrecognized_keys: ({ keys }) => `there is no such entry as ${keys.map((key) => `"${key}"`).join(', ')}`,
  invalid_value: ({ values, input }) =>
    input === undefined
      ? 'it is missing'
      : `it must be one of ${values.map(String).join(', ')}, but it is ${shown(input)}`,
  invalid_union: () => 'it must be one of speed chart, window',
  too_small: tooSmall,
  too_big: ({ maximum, origin }) => `at most ${maximum}${origin === 'array' ? ' entries' : ''} allowed`,
  invalid_format: ({ input }) =>
    `a day of the calendar is expected, as 2026-11-25, but it is ${shown(input)}`,
  custom: UNREADABLE,
  invalid_element: UNREADABLE,
  invalid_key: UNREADABLE,
  not_multiple_of: UNREADABLE,
};

const EXPECTED: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of entries',
  tuple: 'a point of two numbers, [speed, volume],',
};

function tooSmall(issue: Extract<Issue, { code: 'too_small' }>): string {
  if (issue.origin === 'string') return 'it is empty';
  if (issue.origin === 'array') return `at least ${issue.minimum} entries are needed`;
  return issue.inclusive === false
    ? `it must be above ${issue.minimum}`
    : `it must be at least ${issue.minimum}`;
}

function shown(input: unknown): string {
  if (typeof input === 'string') return `the text "${input.slice(0, 40)}"`;
  if (typeof input === 'number' || typeof input === 'boolean') return String(input);
  if (input === null) return 'empty (null)';
  return Array.isArray(input) ? `a list of ${input.length}` : 'something else';
}

const CURVES: readonly PropertyKey[] = ['failBelow', 'passAbove', 'failAbove'];

function stepName(path: readonly PropertyKey[], index: number, step: PropertyKey, json: unknown): string {
  if (typeof step !== 'number') return String(step);
  if (CURVES.includes(path[index - 1] ?? '')) return `point ${step + 1}`;
  if (CURVES.includes(path[index - 2] ?? '')) return step === 0 ? 'speed' : 'volume';
  const check = index === 1 && path[0] === 'limits' ? checkOf(json, step) : null;
  return check === null ? `entry ${step + 1}` : `entry ${step + 1} (${check})`;
}

function checkOf(json: unknown, index: number): string | null {
  if (typeof json !== 'object' || json === null || !('limits' in json)) return null;
  const limit: unknown = Array.isArray(json.limits) ? json.limits[index] : null;
  if (typeof limit !== 'object' || limit === null || !('check' in limit)) return null;
  return typeof limit.check === 'string' ? limit.check : null;
}
