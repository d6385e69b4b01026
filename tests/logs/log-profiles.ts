import { profileColumns, type ColumnProfile } from '../../src/logs/column-profile.ts';
import { findHeader } from '../../src/logs/find-header.ts';
import { rowsOf } from '../../src/logs/log-rows.ts';
import type { DecimalMark } from '../../src/logs/parse-cell.ts';

/** Columns of a log in semicolons, as the guessing sees them. */
export function profilesOf(text: string, mark: DecimalMark = '.'): readonly ColumnProfile[] {
  const rows = rowsOf(text, { delimiter: ';', quotes: 'standard' });
  const header = findHeader(rows, mark);
  if (!header) throw new Error('no header');
  return profileColumns(rows.filter(({ line }) => line >= header.firstDataLine), header, mark); // prettier-ignore
}

/** One column of a log: its header and its cells. */
export function profileOf(header: string, cells: readonly (string | number)[]): ColumnProfile {
  const rows = cells.map((cell, i) => ({ line: i + 2, cells: [String(cell)] }));
  const at = { line: 1, names: [header], unitLine: null, units: [], firstDataLine: 2, width: 1 };
  const [profile] = profileColumns(rows, at, '.');
  if (!profile) throw new Error('no column');
  return profile;
}
