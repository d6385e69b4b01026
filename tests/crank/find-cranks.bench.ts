import { bench } from 'vitest';
import { findAll, log } from './fixtures/find-all.ts';

const HOUR = log(
  [
    [1200, 0],
    [15, 180],
    [1200, 0],
    [15, 180],
    [1200, 700],
  ],
  10,
);

bench(`finder over ${HOUR.length} samples`, () => {
  findAll(HOUR);
});
