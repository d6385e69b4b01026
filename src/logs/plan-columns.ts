import { problem, type Problem } from '../problems/problem.ts';
import type { SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';
import type { ColumnProfile } from './column-profile.ts';
import { guessColumns, speedCandidates, SURE, type ColumnGuess } from './guess-columns.ts';
import type { LogColumn, LogNeed } from './log-plan.ts';
import { guessUnit, isAbsolutePressure } from './unit-by-size.ts';

/** What the person said about the columns: which one holds a signal (null for none), and units by column index. */
export interface ColumnAnswers {
  readonly signals?: Readonly<Partial<Record<SignalId, number | null>>>;
  readonly units?: Readonly<Record<number, UnitId>>;
}

export interface PlannedColumns {
  readonly columns: readonly LogColumn[];
  readonly needs: readonly LogNeed[];
  readonly notes: readonly Problem[];
}

const SAMPLES = 5;

/** Gives each column its signal and unit, from the answers first and the guesses second, and says what is still open. */
export function planColumns(
  profiles: readonly ColumnProfile[],
  timeColumn: number | null,
  answers: ColumnAnswers,
): PlannedColumns {
  const guesses = signalsByColumn(guessColumns(profiles, timeColumn), answers);
  const columns = profiles.map((profile) => planColumn(profile, guesses.get(profile.index), answers));
  const speed = speedQuestion(profiles, columns, timeColumn);
  const units = columns.flatMap((column) => unitQuestion(column) ?? []);
  const byContent = [...guesses.values()].find((guess) => guess.byContent && guess.confidence >= SURE);
  const unnamed = byContent && columns[byContent.index];
  const questions = [...(speed ? [speed] : []), ...units];
  return {
    columns,
    needs: [...new Set(questions.flatMap(({ need }) => need ?? []))],
    notes: [
      ...(unnamed ? [problem('log.speed-by-content', { column: titleOf(unnamed) })] : []),
      ...questions.map(({ note }) => note),
    ],
  };
}

const titleOf = ({ header, index }: Pick<LogColumn, 'header' | 'index'>): string =>
  header || `column ${index + 1}`;

/** Headers in words, for a message: at most a dozen. */
export function listColumns(
  profiles: readonly { readonly header: string; readonly index: number }[],
): string {
  const names = profiles.map(({ header, index }) => header || `(column ${index + 1}, no header)`);
  const more = names.length > 12 ? ` and ${names.length - 12} more` : '';
  return names.slice(0, 12).join(', ') + more;
}

function signalsByColumn(
  guesses: readonly ColumnGuess[],
  { signals = {} }: ColumnAnswers,
): Map<number, ColumnGuess> {
  const answered = Object.entries(signals) as [SignalId, number | null][];
  const byColumn = new Map<number, ColumnGuess>();
  for (const guess of guesses) if (!(guess.signal in signals)) byColumn.set(guess.index, guess);
  for (const [signal, index] of answered) {
    if (index !== null) byColumn.set(index, { index, signal, confidence: 1, reason: 'chosen by the person' });
  }
  return byColumn;
}

function planColumn(
  profile: ColumnProfile,
  guess: ColumnGuess | undefined,
  answers: ColumnAnswers,
): LogColumn {
  const { index, header, unitText, suffix, cells, values, lowest, highest } = profile;
  return {
    index,
    header,
    ...(guess
      ? { signal: guess.signal, confidence: guess.confidence, reason: guess.reason }
      : { signal: null, confidence: 0, reason: '' }),
    ...unitOf(profile, guess, answers),
    unitText,
    suffix,
    samples: cells.slice(0, SAMPLES),
    lowest: values.length > 0 ? lowest : null,
    highest: values.length > 0 ? highest : null,
  };
}

function unitOf(
  profile: ColumnProfile,
  guess: ColumnGuess | undefined,
  { units }: ColumnAnswers,
): Pick<LogColumn, 'unit' | 'unitFrom'> {
  const answered = units?.[profile.index];
  if (answered) return { unit: answered, unitFrom: 'person' };
  if (guess && isAbsolutePressure(guess.signal, profile)) return { unit: null, unitFrom: null };
  if (profile.unit) return { unit: profile.unit, unitFrom: profile.unitFrom };
  const unit = guess ? guessUnit(guess.signal, profile).unit : null;
  return { unit, unitFrom: unit && sayRpm(profile, 'size') };
}

/** A header that says "RPM" names its unit although it stands as the name. */
const sayRpm = (profile: ColumnProfile, from: LogColumn['unitFrom']): LogColumn['unitFrom'] =>
  from === 'size' && /rpm|drehzahl/i.test(profile.name) ? 'header' : from;

interface Question {
  readonly need: LogNeed | null;
  readonly note: Problem;
}

function speedQuestion(
  profiles: readonly ColumnProfile[],
  columns: readonly LogColumn[],
  timeColumn: number | null,
): Question | null {
  const chosen = columns.find(({ signal }) => signal === 'engineSpeed');
  if (chosen && chosen.confidence >= SURE) return null;
  const candidates = speedCandidates(profiles.filter(({ index }) => index !== timeColumn));
  const context = { count: profiles.length, columns: listColumns(profiles) };
  const named = listColumns(candidates.flatMap(({ index }) => profiles[index] ?? []));
  const note = chosen
    ? problem('log.which-speed', { ...context, candidates: named })
    : problem('log.no-speed', context);
  return { need: 'speedColumn', note };
}

function unitQuestion(column: LogColumn): Question | null {
  if (column.signal === null) return null;
  const context = {
    column: titleOf(column),
    highest: String(column.highest ?? '-'),
  };
  if (column.unitFrom === 'size')
    return { need: null, note: problem('log.unit-by-size', { ...context, unit: column.unit ?? '' }) };
  if (column.unit !== null) return null;
  const need = UNIT_NEED[column.signal] ?? 'pressureUnit';
  if (isAbsolutePressure(column.signal, column))
    return { need, note: problem('log.absolute-pressure', { column: context.column }) };
  return { need, note: problem(need === 'speedUnit' ? 'log.speed-unit' : 'log.unit', context) };
}

const UNIT_NEED: Readonly<Partial<Record<SignalId, LogNeed>>> = {
  engineSpeed: 'speedUnit',
  batteryVoltage: 'voltageUnit',
  fuelTemperature: 'temperatureUnit',
};
