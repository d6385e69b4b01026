import type { StoredJob } from '../../src/jobs/job.ts';
import { ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { conclusion, field, job, note, signed } from './example-job.ts';

export const MANY = 10_000;

const COMPLAINTS = ['Derates under load', 'Stalls at idle', 'Will not start when warm', 'Smokes, low power'];

/** The n-th of many invented jobs; each has an unit and a serial number of its own. */
export const manyJob = (n: number): StoredJob =>
  job(
    [
      field('unitNumber', `T-${n}`),
      field('serialNumber', `X${100_000 + n}`),
      field('complaint', `${COMPLAINTS[n % 4]}, customer says since last week`),
      field('customer', `Müller Transporte ${n % 50}`),
      field('technician', `Technician ${n % 7}`),
      note('Fuel in the tank is clear', 5),
      ...(n % 2 ? [conclusion(9), signed(10)] : []),
    ],
    { id: `job-${String(n).padStart(5, '0')}` },
  );

/** Fills a database with many jobs. Their rows are made with the first list: one by one, each pack would be written some hundred times. */
export async function fill(database: Database): Promise<void> {
  for (let from = 0; from < MANY; from += 1000) {
    const written = await database.write(['jobs'], async (tx) => {
      for (let n = from; n < from + 1000; n++) void tx.put('jobs', manyJob(n));
      return ok(undefined);
    });
    if (!written.ok) throw new Error(JSON.stringify(written.problem));
  }
}
