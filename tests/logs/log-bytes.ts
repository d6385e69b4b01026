import { planSpeedLog, type LogAnswers } from '../../src/logs/plan-import.ts';
import { readSpeedLog, type SpeedLog } from '../../src/logs/read-log.ts';
import type { LogPlan } from '../../src/logs/log-plan.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import type { Encoding } from '../../src/logs/decode-text.ts';

/** Text as the bytes of a file, with or without a byte order mark. Written on Node's own encoders, not on ours. */
export function bytesOf(
  text: string,
  encoding: Encoding | 'utf-8-bom' | 'utf-16le-bare' | 'utf-16be-bare' = 'utf-8',
) {
  const utf16le = (value: string) => Uint8Array.from(Buffer.from(value, 'utf16le'));
  const swapped = (bytes: Uint8Array) => bytes.map((_, i) => bytes[i ^ 1] ?? 0);
  switch (encoding) {
    case 'utf-8':
      return new TextEncoder().encode(text);
    case 'utf-8-bom':
      return new TextEncoder().encode(`\ufeff${text}`);
    case 'utf-16le':
      return utf16le(`\ufeff${text}`);
    case 'utf-16be':
      return swapped(utf16le(`\ufeff${text}`));
    case 'utf-16le-bare':
      return utf16le(text);
    case 'utf-16be-bare':
      return swapped(utf16le(text));
    case 'windows-1252':
      return Uint8Array.from(text, to1252);
  }
}

/** Windows-1252 from 0x80 to 0x9F as Python's cp1252 codec decodes it; a dot where the code page has nothing. */
export const CP1252_HIGH = '€·‚ƒ„…†‡ˆ‰Š‹Œ·Ž··‘’“”•–—˜™š›œ·žŸ';

function to1252(character: string): number {
  const high = CP1252_HIGH.indexOf(character);
  return high >= 0 ? 0x80 + high : (character.codePointAt(0) ?? 0);
}

/** Plans and reads; a problem at either step fails the test with its words. */
export function readText(
  text: string | Uint8Array,
  answers: LogAnswers = {},
): { plan: LogPlan; log: SpeedLog } {
  const bytes = typeof text === 'string' ? bytesOf(text) : text;
  const plan = planSpeedLog(bytes, answers);
  if (!plan.ok) throw new Error(describeProblem(plan.problem).message);
  const log = readSpeedLog(bytes, plan.value);
  if (!log.ok) throw new Error(`${log.problem.code}: ${describeProblem(log.problem).message}`);
  return { plan: plan.value, log: log.value };
}

/** Plans, and fails the test where that is refused. */
export function planText(text: string | Uint8Array, answers: LogAnswers = {}): LogPlan {
  const plan = planSpeedLog(typeof text === 'string' ? bytesOf(text) : text, answers);
  if (!plan.ok) throw new Error(describeProblem(plan.problem).message);
  return plan.value;
}

/** The problem that planning, or else reading, ends in. */
export function problemOf(text: string | Uint8Array, answers: LogAnswers = {}) {
  const bytes = typeof text === 'string' ? bytesOf(text) : text;
  const plan = planSpeedLog(bytes, answers);
  if (!plan.ok) return { code: plan.problem.code, ...describeProblem(plan.problem) };
  const log = readSpeedLog(bytes, plan.value);
  return log.ok ? null : { code: log.problem.code, ...describeProblem(log.problem) };
}

/** Readings of engine speed as pairs of ms and rpm, NaN as null. */
export const speedOf = ({ readings }: SpeedLog): (readonly [number, number | null])[] =>
  [...(readings.engineSpeed?.atMs ?? [])].map((at, i) => {
    const value = readings.engineSpeed?.value[i] ?? NaN;
    return [Math.round(at * 1000) / 1000, Number.isNaN(value) ? null : value];
  });
