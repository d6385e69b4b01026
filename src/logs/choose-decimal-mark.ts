import type { DecimalMark } from './parse-cell.ts';

/**
 * Which mark stands before the fraction, from the cells of a log column by column.
 * Strong signs: both marks in one cell, a fraction that is not three digits long, a leading zero ("0,500"), two groups.
 * Left over are cells like "1,234": where every such column keeps its three digits in all rows it is a fraction
 * ("146,250"; "147,000"), where shorter whole numbers stand among them it is a thousand ("950"; "1,020").
 * @returns the mark, and whether the cells left doubt.
 */
export function chooseDecimalMark(columns: readonly (readonly string[])[]): {
  mark: DecimalMark;
  sure: boolean;
} {
  const votes = { '.': 0, ',': 0 };
  for (const column of columns) {
    for (const cell of column) {
      const vote = strongVote(cell.trim());
      if (vote) votes[vote]++;
    }
  }
  if (votes['.'] !== votes[',']) return { mark: votes['.'] > votes[','] ? '.' : ',', sure: true };
  for (const mark of ['.', ','] as const) {
    const verdicts = columns.map((column) => weakVerdict(column, mark));
    if (verdicts.includes('group')) return { mark: mark === '.' ? ',' : '.', sure: true };
    if (verdicts.includes('fraction')) return { mark, sure: mark === '.' };
  }
  return { mark: '.', sure: true };
}

const NUMBER_LIKE = /^[-+]?[\d.,]*\d[\d.,]*(?:[eE][-+]?\d+)?$/;

function strongVote(cell: string): DecimalMark | null {
  const text = cell.replace(/(\d)['’ \u00a0\u202f](?=\d{3})/g, '$1');
  if (!NUMBER_LIKE.test(text)) return null;
  const point = text.lastIndexOf('.');
  const comma = text.lastIndexOf(',');
  if (point < 0 && comma < 0) return null;
  return point >= 0 && comma >= 0 ? (point > comma ? '.' : ',') : voteOfOneMark(text, point >= 0 ? '.' : ',');
}

function voteOfOneMark(text: string, mark: DecimalMark): DecimalMark | null {
  const [whole = '', ...parts] = text.replace(/^[-+]/, '').split(mark);
  const inThrees = parts.every((part) => /^\d{3}$/.test(part));
  if (parts.length > 1) return inThrees ? opposite(mark) : null;
  return inThrees && /^[1-9]\d{0,2}$/.test(whole) ? null : mark; // "1,234" may be either
}

const opposite = (mark: DecimalMark): DecimalMark => (mark === '.' ? ',' : '.');

/** Whether the "1,234" of a column are thousands or fractions; null when the column has none. */
function weakVerdict(column: readonly string[], mark: DecimalMark): 'group' | 'fraction' | null {
  const group = mark === '.' ? /^[-+]?[1-9]\d{0,2}\.\d{3}$/ : /^[-+]?[1-9]\d{0,2},\d{3}$/;
  let grouped = 0;
  let whole = 0;
  for (const cell of column) {
    const text = cell.trim();
    if (group.test(text)) grouped++;
    else if (/^[-+]?\d{1,3}$/.test(text) && text !== '0') whole++;
  }
  if (grouped === 0) return null;
  return whole > 0 ? 'group' : 'fraction';
}
