import type { LogAnswers } from '../../src/logs/plan-import.ts';
import type { bytesOf } from './log-bytes.ts';

type Encoding = Parameters<typeof bytesOf>[1];
export interface PeopleLog {
  readonly name: string;
  readonly text: string;
  readonly encoding?: Encoding;
  readonly answers?: LogAnswers;
  /** What a person reads off the text: ms and rpm. */
  readonly speed: readonly (readonly [number, number | null])[];
}

export const four = [[0, 0], [500, 120.5], [1000, 146], [1500, 147.5]] as const; // prettier-ignore
