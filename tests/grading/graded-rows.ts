import type { Zone } from '../../src/grading/verdict.ts';

/** One row of a table worked by hand: what is put in, and every number on the way to the word. */
export interface GradedRow {
  readonly line: string;
  readonly speedRpm: number;
  readonly speedDoubtRpm: number;
  readonly volumeMl: number;
  readonly vessel: string;
  readonly crankSeconds: readonly [number, number];
  readonly nearest: string;
  readonly lineMl: number;
  /** The three parts of the uncertainty of (volume minus line), mL: marks and reading of the vessel, time, speed. */
  readonly vesselPartMl: number;
  readonly timePartMl: number;
  readonly speedPartMl: number;
  readonly combinedMl: number;
  readonly distanceMl: number;
  readonly probability: number;
  readonly leaning: Zone;
  readonly called: boolean;
}

const ZONES: Readonly<Record<string, Zone>> = {
  'fail-low': 'fail low',
  marginal: 'marginal',
  pass: 'pass',
  'fail-high': 'fail high',
};

/** Reads a table: one row a line, columns apart by spaces, # before the working of the curves. */
export const rowsOf = (table: string): readonly GradedRow[] =>
  table
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map(rowOf);

function rowOf(line: string): GradedRow {
  const cells = line.split(/\s+/);
  if (cells.length !== 16) throw new Error(`a row has 16 columns: ${line}`);
  const text = (index: number) => cells[index] ?? '';
  const number = (index: number) => Number(text(index));
  const leaning = ZONES[text(14)];
  if (!leaning) throw new Error(`no such area: ${line}`);
  return {
    line: cells.slice(0, 6).join(' '),
    speedRpm: number(0),
    speedDoubtRpm: number(1),
    volumeMl: number(2),
    vessel: text(3),
    crankSeconds: [number(4), number(5)],
    nearest: text(6),
    lineMl: number(7),
    vesselPartMl: number(8),
    timePartMl: number(9),
    speedPartMl: number(10),
    combinedMl: number(11),
    distanceMl: number(12),
    probability: number(13),
    leaning,
    called: text(15) === 'called',
  };
}
