import { problem, type Problem } from '../problems/problem.ts';
import type { ColumnProfile } from './column-profile.ts';
import type { LogNeed, LogTime } from './log-plan.ts';
import { listColumns } from './plan-columns.ts';
import type { DateOrder, TimeKind } from './time-cell.ts';
import { dateOrderOf, guessTimeColumn, guessTimeKind } from './time-column.ts';

/** What the person said about time. An interval given overrides any column. */
export interface TimeAnswers {
  readonly intervalMs?: number;
  /** Index of the column, null for "none of them". */
  readonly timeColumn?: number | null;
  readonly timeKind?: TimeKind;
  readonly dateOrder?: DateOrder;
}

export interface PlannedTime {
  readonly time: LogTime;
  readonly needs: readonly LogNeed[];
  readonly notes: readonly Problem[];
}

/** Where the time of the rows comes from, by answers first and the columns second. */
export function planTime(profiles: readonly ColumnProfile[], answers: TimeAnswers): PlannedTime {
  const { intervalMs, timeColumn, timeKind } = answers;
  if (intervalMs !== undefined) return { time: { source: 'interval', intervalMs }, needs: [], notes: [] };
  const named = typeof timeColumn === 'number' ? profiles[timeColumn] : undefined;
  if (named) return settled(named, timeKind ?? guessTimeKind(named), 1, answers);
  const guess = guessTimeColumn(timeColumn === null ? [] : profiles);
  const found = guess.column === null ? undefined : profiles[guess.column];
  if (!found) return withoutTime(profiles, guess.notes);
  const planned = settled(found, timeKind ?? guess.kind, guess.confidence, answers);
  const open = timeKind === undefined && guess.needs.includes('timeUnit');
  return open ? { ...planned, needs: ['timeUnit'], notes: guess.notes } : planned;
}

function withoutTime(profiles: readonly ColumnProfile[], notes: readonly Problem[]): PlannedTime {
  const noTime = problem('log.no-time', { count: profiles.length, columns: listColumns(profiles) });
  return {
    time: { source: 'interval', intervalMs: null },
    needs: ['interval'],
    notes: notes.length > 0 ? notes : [noTime],
  };
}

function settled(
  { index, cells }: ColumnProfile,
  kind: TimeKind,
  confidence: number,
  answers: TimeAnswers,
): PlannedTime {
  const dateOrder = answers.dateOrder ?? (kind === 'dateTime' ? dateOrderOf(cells) : 'yearFirst');
  return { time: { source: 'column', column: index, kind, dateOrder, confidence }, needs: [], notes: [] };
}
