import { existsSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { identityProposals } from '../../src/app/bus-identity.ts';
import { readPieces } from '../pipeline/fixtures/eec1-log.ts';

const FOLDER = new URL('../../../shared/data/j1939/', import.meta.url);
const here = existsSync(FOLDER);
if (!here) console.log(`bus-identity.golden: skipped, ${FOLDER.pathname} is not there`);

/** VINs as the README of the recordings states them: invented, put in place of the real ones, with a correct check digit. */
test.skipIf(!here).each([
  ['truck-a-key-on-start-idle.log.gz', 'ZZZTRKAA2RT000001'],
  ['bench-c-vin-and-requests.log.gz', 'ZZZTRKAA8RT000021'],
])('%s proposes its VIN, and serial numbers of the engine only', (file, vin) => {
  const { facts } = readPieces([gunzipSync(readFileSync(new URL(file, FOLDER)))]).bus;
  const proposals = identityProposals(facts);
  expect(proposals.find(({ field }) => field === 'vin')?.taken?.value).toBe(vin);
  const identified = [...facts.identifications].filter(([, { component }]) => component?.serialNumber);
  const engine = identified
    .filter(([origin]) => origin % 256 === 0)
    .map(([, { component }]) => component?.serialNumber);
  expect(identified.length).toBeGreaterThan(0);
  const serial = proposals.find(({ field }) => field === 'serialNumber');
  expect(serial?.said.map(({ value }) => value) ?? []).toEqual(engine);
});
