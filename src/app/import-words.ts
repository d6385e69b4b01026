import type { LogPlan } from '../logs/log-plan.ts';

/** What a plan still needs, as it is asked for. */
export const NEED_WORDS: Readonly<Record<LogPlan['needs'][number], string>> = {
  interval: 'say how far apart two rows are, or which column is the time',
  timeUnit: 'say what the time column counts in',
  speedColumn: 'choose the column that holds engine speed',
  speedUnit: 'choose the unit of engine speed',
  pressureUnit: 'choose the unit of the pressures',
  temperatureUnit: 'choose the unit of the temperatures',
  voltageUnit: 'choose the unit of the voltage',
  decimalMark: 'check the decimal mark',
  delimiter: 'check how the columns are told apart',
};

const DELIMITER_WORDS: Readonly<Record<string, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' };

/** How a log was read, in one line. */
export function describePlan({
  delimiter,
  decimalMark,
  encoding,
  headerLine,
  firstDataLine,
  leftOut,
}: LogPlan): string {
  const parts = [
    `columns told apart by ${DELIMITER_WORDS[delimiter] ?? `'${delimiter}'`}`,
    decimalMark === ',' ? 'decimal comma' : 'decimal point',
    headerLine === null ? 'no header' : `header in line ${headerLine}`,
    `data from line ${firstDataLine}`,
    encoding,
    leftOut.length > 0 ? `${leftOut.length} lines left out (titles and summaries)` : '',
  ];
  return parts.filter(Boolean).join(', ');
}
