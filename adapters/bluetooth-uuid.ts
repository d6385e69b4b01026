import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';

/** Tail of the 128-bit form of every number that the Bluetooth SIG hands out (Core Specification, Vol 3 Part B 2.5.1). */
const BASE = '-0000-1000-8000-00805f9b34fb';

/** The 128-bit form of a 16-bit or 32-bit number, lower case, as Web Bluetooth names it. */
export const fullUuid = (short: number): string => short.toString(16).padStart(8, '0') + BASE;

/**
 * A UUID as a person types or pastes it: 4 or 8 hex digits, with 0x or without, or all 32 with or without dashes and
 * braces, in any case. Anything else is `bluetooth.bad-uuid`.
 */
export function parseUuid(typed: string): Result<string> {
  const text = typed
    .trim()
    .toLowerCase()
    .replace(/^\{(.*)\}$/, '$1');
  if (/^(0x)?[0-9a-f]{4}([0-9a-f]{4})?$/.test(text))
    return ok(fullUuid(parseInt(text.replace('0x', ''), 16)));
  const digits = text.replaceAll('-', '');
  const dashed = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text);
  if (!dashed && !/^[0-9a-f]{32}$/.test(text)) return failed(problem('bluetooth.bad-uuid', { typed }));
  return ok(digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5'));
}

/** The short form that people know (FFE0) where a UUID has one, else the UUID itself. For the screen. */
export function shortUuid(uuid: string): string {
  if (!uuid.endsWith(BASE)) return uuid;
  return uuid.slice(0, 8).replace(/^0000/, '').toUpperCase();
}
