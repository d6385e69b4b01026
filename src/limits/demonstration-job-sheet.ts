import { DEMONSTRATION_SHEET } from './demonstration-sheet.ts';
import type { Limit, LimitSheet } from './limit-sheet.ts';

const common = { conditions: [], durationSeconds: null };
const pressure = (check: string, title: string, min: number | null, max: number | null): Limit => ({
  kind: 'window',
  check,
  title,
  quantity: 'pressure',
  min,
  max,
  ...common,
});
const volume = (check: string, title: string, max: number, durationSeconds: number): Limit => ({
  kind: 'window',
  check,
  title,
  quantity: 'volume',
  min: null,
  max,
  ...common,
  durationSeconds,
});
const time = (check: string, title: string, min: number | null, max: number | null): Limit => ({
  kind: 'window',
  check,
  title,
  quantity: 'time',
  min,
  max,
  ...common,
});

/**
 * Limits for every check of the shipped procedure, for jobs on the bench. Every number was made up so that a sound bench engine passes and one with
 * a defect does not (simulators/bench-values.md); none belongs to a real engine.
 */
export const DEMONSTRATION_JOB_SHEET: LimitSheet = {
  ...DEMONSTRATION_SHEET,
  id: 'demonstration-job',
  sheetId: 'demonstration-job',
  title: 'Demonstration sheet for a whole job – invented numbers',
  limits: [
    pressure('suction-restriction', 'Suction restriction at high idle', null, 25),
    pressure('supply-cranking', 'Supply pressure while cranking', 150, null),
    pressure('supply-idle', 'Supply pressure at idle', 900, null),
    pressure('supply-high-idle', 'Supply pressure at high idle', 900, null),
    pressure('supply-load', 'Supply pressure under load', 900, null),
    pressure('rail-at-rest', 'Rail pressure at rest', null, 3000),
    time('rail-build', 'Time to 20 MPa while cranking', null, 2500),
    volume('pump-return', 'Pump return volume at raised rail pressure', 200, 30),
    volume('injector-return-cranking', 'Injector return while cranking', 30, 15),
    volume('injector-return-idle', 'Injector return at idle', 80, 30),
    volume('relief-valve-leak', 'Relief valve return at raised rail pressure', 15, 30),
    time('rail-decay', 'Time from 25 to 10 MPa after shut-off', 3000, null),
    ...DEMONSTRATION_SHEET.limits.filter(({ check }) => check === 'crank-delivery'),
    pressure('final-drive', 'Worst mean shortfall over a drive', null, 8000),
  ],
};
