import { parseUnit } from '../quantities/parse-unit.ts';
import type { UnitId } from '../quantities/unit.ts';

/** A column's header taken apart. `unitText` is the unit as written, null where the header has none. */
export interface HeaderUnit {
  readonly name: string;
  readonly unitText: string | null;
}

/**
 * Finds the unit in a header: in brackets "(psi)" "[bar]" "{V}" "<V>", after " in " or a slash as standards write it
 * ("p / bar"), after a comma ("Pressure, psi"), or as last word ("Rail pressure MPa", "rail_psi").
 */
export function splitHeaderUnit(header: string): HeaderUnit {
  const text = header.trim();
  for (const pattern of PATTERNS) {
    const found = pattern.exec(text);
    const unitText = found?.[2]?.trim();
    if (found && unitText && (pattern === BRACKETS || isUnit(unitText))) {
      return { name: (found[1] ?? '').trim(), unitText };
    }
  }
  return { name: text, unitText: isUnit(text) ? text : null };
}

const BRACKETS = /^(.*?)\s*[([{<]([^()[\]{}<>]+)[)\]}>]\s*$/;
const PATTERNS = [
  BRACKETS,
  /^(.+?)\s+(?:in|en)\s+(\S+)$/i,
  /^(.+?)\s*[/,:]\s*(\S+)$/,
  /^(.*?)\s+\/\s+(.+)$/,
  /^(.*\S)[\s_.-]+(\S+)$/,
];

/** The unit that a text names, null when it names none that Meniscus converts. */
export const readUnit = (text: string | null): UnitId | null =>
  text === null ? null : parseUnit(text.trim());

const isUnit = (text: string): boolean => parseUnit(text) !== null;

/** Marks of unit rows that Meniscus does not convert but recognises as units. */
const OTHER_UNITS = new Set(
  '- % s ms hh:mm:ss h:m:s h:mm:ss hh:mm:ss.f hh:mm:ss.fff mm:ss km/h mph kph l/h g/s kg/h nm a ma hz mg mg/str deg ° °c °f ppm raw count bit on/off mm3 mm³/st kw lb-ft g/h'.split(
    ' ',
  ),
);

/** Whether a row holds units: every cell that is not empty is one, at least one of them a unit proper. */
export function isUnitRow(cells: readonly string[]): boolean {
  const bare = cells.map(stripBrackets).filter((cell) => cell !== '');
  const known = bare.filter((cell) => isUnit(cell) || OTHER_UNITS.has(cell.toLowerCase()));
  return known.some((cell) => cell !== '-') && known.length >= 0.7 * bare.length;
}

/** A cell of a unit row without its brackets. */
export const stripBrackets = (cell: string): string =>
  cell
    .trim()
    .replace(/^[([{<](.*)[)\]}>]$/, '$1')
    .trim();
