/** Why a row of the log gave no readings. */
export const LEFT_OUT_REASONS = [
  'aboveData', // preamble, header and unit row
  'blank',
  'summary', // "Average", "Max", "Ø"
  'afterBlank', // in a log without time: few cells, or statistics, below a blank line at the end
  'repeatedHeader',
  'noTime', // the time cell is empty
  'unreadableTime',
  'noNumbers', // a row of words within a log whose interval was given
] as const;
export type LeftOutReason = (typeof LEFT_OUT_REASONS)[number];

/** Rows left out for one reason: how many, and the lines of the first few. */
export interface LeftOutRows {
  readonly reason: LeftOutReason;
  readonly count: number;
  readonly lines: readonly number[];
}

const LINES_KEPT = 20;

/** A tally of rows left out, in the order in which the reasons first came up. */
export function leftOutTally() {
  const tally = new Map<LeftOutReason, { count: number; lines: number[] }>();
  return {
    add(reason: LeftOutReason, line: number): void {
      const entry = tally.get(reason) ?? { count: 0, lines: [] };
      entry.count++;
      if (entry.lines.length < LINES_KEPT) entry.lines.push(line);
      tally.set(reason, entry);
    },
    list: (): readonly LeftOutRows[] =>
      [...tally].map(([reason, { count, lines }]) => ({ reason, count, lines })),
  };
}
