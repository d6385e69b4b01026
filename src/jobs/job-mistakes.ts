import { problem, type Problem } from '../problems/problem.ts';
import { comparable } from './engine-history.ts';
import { jobValues, type JobValues } from './job-values.ts';
import type { StoredJob } from './job.ts';

/** What the mistakes are weighed with. */
export interface MistakeMeans {
  readonly nowIso: string;
  /** The rule of the check digit (j1939/vin-check-digit.ts). */
  readonly vinCheckDigit: (vin: string) => 'fits' | 'does not fit' | 'not applicable';
}

/** What clocks of two computers may differ by, ms. Common practice, no source. */
const CLOCK_SLACK_MS = 600_000;
/** More than an engine runs in 22 years day and night, h; more than a truck drives in a hundred years of 100,000 km. Common practice, no source. */
const MOST_HOURS = 200_000;
const MOST_KM = 10_000_000;
/** A VIN has 17 characters, capital letters but I, O and Q, and digits (ISO 3779:2009, 4). */
const VIN_LENGTH = 17;
const VIN_CHARACTERS = /^[A-HJ-NPR-Z0-9]*$/;

/** What in a job cannot be, or is likely mistyped: each with what to do. Nothing is refused for it; it is shown beside the field. */
export function jobMistakes(
  job: Pick<StoredJob, 'createdAt' | 'entries'>,
  means: MistakeMeans,
): readonly Problem[] {
  const values = jobValues(job);
  return [
    ...numberMistakes(values, 'engineHours', MOST_HOURS),
    ...numberMistakes(values, 'distanceKm', MOST_KM),
    ...vinMistakes(values, means),
    ...futureDates(job, means.nowIso),
  ];
}

const NUMBERS = {
  engineHours: { what: 'engine hours', unit: 'h' },
  distanceKm: { what: 'distance', unit: 'km' },
} as const;

function numberMistakes(
  { fields }: JobValues,
  field: keyof typeof NUMBERS,
  most: number,
): readonly Problem[] {
  const typed = fields.get(field)?.value;
  if (typed === undefined) return [];
  const facts = { ...NUMBERS[field], typed, most };
  if (!/^\d+(\.\d+)?$/.test(typed)) return [problem('job.not-a-number', facts)];
  return Number(typed) > most ? [problem('job.impossible-number', facts)] : [];
}

function vinMistakes({ fields }: JobValues, { vinCheckDigit }: MistakeMeans): readonly Problem[] {
  const vin = fields.get('vin')?.value;
  const serial = fields.get('serialNumber')?.value ?? '';
  if (vin === undefined)
    return isVin(serial, vinCheckDigit) ? [problem('job.serial-is-vin', { serial })] : [];
  if (comparable(vin) === comparable(serial)) return [problem('job.vin-is-serial', { vin })];
  const capital = vin.toUpperCase();
  if (capital.length !== VIN_LENGTH) return [problem('job.vin-length', { vin, length: capital.length })];
  if (!VIN_CHARACTERS.test(capital)) return [problem('job.vin-characters', { vin })];
  return vinCheckDigit(capital) === 'does not fit' ? [problem('job.vin-check-digit', { vin })] : [];
}

const isVin = (text: string, checkDigit: MistakeMeans['vinCheckDigit']): boolean =>
  checkDigit(text.toUpperCase()) === 'fits';

function futureDates({ createdAt, entries }: Pick<StoredJob, 'createdAt' | 'entries'>, nowIso: string) {
  const latest = Date.parse(nowIso) + CLOCK_SLACK_MS;
  const ahead = [createdAt, ...entries.map(({ atIso }) => atIso)].filter((iso) => Date.parse(iso) > latest);
  return ahead.slice(0, 1).map((when) => problem('job.in-the-future', { when }));
}
