import { readNumber } from './read-number.ts';

/** What a field is, for its box and what may stand in it. `code`: letters and digits off a plate. */
export interface JobFieldForm {
  readonly label: string;
  readonly unit: string;
  readonly kind: 'text' | 'code' | 'number' | 'long';
  /** Largest number that may be meant; 0 for text. A typing slip beyond it is refused (common practice, no source). */
  readonly most: number;
}

const text = (label: string, kind: 'text' | 'code' | 'long' = 'text'): JobFieldForm => ({
  label,
  unit: '',
  kind,
  most: 0,
});

/** The fields of a job in the order in which they are asked. The same names as in the jobs folder, which this folder may not import. */
export const JOB_FIELD_FORMS = {
  complaint: text('Complaint, in the customer’s words', 'long'),
  unitNumber: text('Unit number', 'code'),
  customer: text('Customer'),
  engineFamily: text('Engine family'),
  serialNumber: text('Engine serial number', 'code'),
  vin: text('VIN', 'code'),
  engineHours: { label: 'Engine hours', unit: 'h', kind: 'number', most: 200_000 },
  distanceKm: { label: 'Distance', unit: 'km', kind: 'number', most: 10_000_000 },
  technician: text('Technician'),
} as const satisfies Record<string, JobFieldForm>;

export type JobFieldName = keyof typeof JOB_FIELD_FORMS;

/** Why a text cannot stand in a field and what to do; empty where it can. Empty text takes a field back and is always right. */
export function jobFieldMistake(field: JobFieldName, value: string): string {
  const { kind, most, unit } = JOB_FIELD_FORMS[field];
  if (value === '') return '';
  if (kind !== 'number') return '';
  const read = readNumber(value, { min: 0, max: most, unit });
  if (!('refusal' in read)) return '';
  return `${read.refusal} Type it in ${unit}, without the unit. It is not kept until then.`;
}
