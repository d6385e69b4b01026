import { growingFloats } from './growing-floats.ts';

const SUMMARY =
  /^(?:average|avg|mean|median|min|minimum|max|maximum|total|sum|count|range|std|stdev|std\.? ?dev|standard deviation|summary|statistics|ø|⌀|mittel|mittelwert|durchschnitt|schnitt|minimalwert|maximalwert|summe|gesamt|anzahl|standardabweichung|moyenne|moy|somme|écart|ecart|nombre|promedio|media|mín|mínimo|minimo|máx|máximo|maximo|suma|end of|ende|eof|fin)(?:$|[\s.:=_()\-/])/i;

/** Whether a cell begins a row of a summary: "Average", "Min:", "Max", "Total", "Ø", in the languages of the headers. */
export const isSummaryLabel = (cell: string): boolean => SUMMARY.test(cell.trim());

const MOST_ROWS = 8; // mean, least, greatest, median, sum, count, deviation, range
const LEAST_ROWS_ABOVE = 3;
const ROUNDING = 1e-3; // a mean is written with fewer digits than it has

/**
 * Watches the rows of a log without time, to tell how many at its end are a summary: those below a blank line that have
 * fewer cells than any row above it, or whose values are statistics of the columns above it (no two rows the same one, the
 * mean or the sum among them). Rows that are none of that are data, blank line or not.
 */
export function tableEnd() {
  const filledCells = growingFloats(); // by row
  const blanks: number[] = []; // rows above each blank line
  let afterBlank = false;
  return {
    blank: (): void => void (afterBlank = true),
    take(cells: readonly string[]): void {
      if (afterBlank) blanks.push(filledCells.length());
      afterBlank = false;
      filledCells.push(cells.filter((cell) => cell.trim() !== '').length);
    },
    /** @param columns values of the columns read, in row order. */
    summaryRows(columns: readonly Float64Array[]): number {
      const filled = filledCells.take(filledCells.length());
      const fits = (above: number): boolean => {
        const count = filled.length - above;
        if (above < LEAST_ROWS_ABOVE || count > MOST_ROWS) return false;
        const fewest = filled.subarray(0, above).reduce((a, b) => Math.min(a, b), Infinity);
        return (
          filled.subarray(above).every((cells) => cells < fewest) || areStatistics(columns, above, count)
        );
      };
      const above = blanks.slice(-MOST_ROWS).find(fits);
      return above === undefined ? 0 : filled.length - above;
    },
  };
}

function areStatistics(columns: readonly Float64Array[], above: number, count: number): boolean {
  const known = columns.map((column) => statisticsOf(column.subarray(0, above)));
  const kinds = Array.from({ length: count }, (_, row) => {
    const says = columns.some((column) => Number.isFinite(column[above + row]));
    const agrees = (kind: number) =>
      says && columns.every((column, i) => isNear(column[above + row] ?? NaN, known[i]?.[kind] ?? NaN));
    return known[0]?.findIndex((_, kind) => agrees(kind)) ?? -1;
  });
  return kinds.every((kind) => kind >= 0) && new Set(kinds).size === count && kinds.some((kind) => kind < 2);
}

/** A cell that is blank or says nothing agrees with anything. */
const isNear = (value: number, statistic: number): boolean =>
  !Number.isFinite(value) || Math.abs(value - statistic) <= ROUNDING * Math.abs(statistic);

/** Mean, sum, least, greatest, median, number, deviation and range of a column; all NaN where it does not vary. */
function statisticsOf(column: Float64Array): readonly number[] {
  const values = column.filter((value) => Number.isFinite(value)).sort();
  const count = values.length;
  const least = values[0] ?? NaN;
  const greatest = values[count - 1] ?? NaN;
  if (!(greatest > least)) return Array<number>(8).fill(NaN);
  const sum = values.reduce((a, b) => a + b, 0);
  const squares = values.reduce((a, b) => a + (b - sum / count) ** 2, 0);
  const median = ((values[(count - 1) >> 1] ?? NaN) + (values[count >> 1] ?? NaN)) / 2;
  const deviation = Math.sqrt(squares / (count - 1));
  return [sum / count, sum, least, greatest, median, count, deviation, greatest - least];
}
