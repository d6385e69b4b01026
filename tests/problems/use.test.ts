import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { BLUETOOTH_PROBLEMS } from '../../src/problems/bluetooth-problems.ts';
import { BUS_PROBLEMS } from '../../src/problems/bus-problems.ts';
import { CATALOGUE, type ProblemCode } from '../../src/problems/catalogue.ts';
import { CHECK_PROBLEMS } from '../../src/problems/check-problems.ts';
import { DEVICE_PROBLEMS } from '../../src/problems/device-problems.ts';
import { JOB_PROBLEMS } from '../../src/problems/job-problems.ts';
import { LIMIT_PROBLEMS } from '../../src/problems/limit-problems.ts';
import { LINK_PROBLEMS } from '../../src/problems/link-problems.ts';
import { LOG_PROBLEMS } from '../../src/problems/log-problems.ts';
import { SEARCH_PROBLEMS } from '../../src/problems/search-problems.ts';
import { STORAGE_PROBLEMS } from '../../src/problems/storage-problems.ts';
import { TRACING_PROBLEMS } from '../../src/problems/tracing-problems.ts';
import { TRAINING_PROBLEMS } from '../../src/problems/training-problems.ts';
import { PHOTO_PROBLEMS } from '../../src/problems/photo-problems.ts';
import { PROCEDURE_PROBLEMS } from '../../src/problems/procedure-problems.ts';
import { WIRE_PROBLEMS } from '../../src/problems/wire-problems.ts';

const ROOT = new URL('../../', import.meta.url);
/** All sources that may make a problem: everything in src and adapters but the texts themselves. */
const SOURCES = ['src', 'adapters']
  .flatMap((folder) =>
    readdirSync(new URL(folder, ROOT), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.ts') && !path.startsWith('problems/'))
      .map((path) => readFileSync(new URL(`${folder}/${path}`, ROOT), 'utf8')),
  )
  .join('\n');
const FAMILIES = [
  LINK_PROBLEMS,
  WIRE_PROBLEMS,
  LOG_PROBLEMS,
  LIMIT_PROBLEMS,
  CHECK_PROBLEMS,
  STORAGE_PROBLEMS,
  BUS_PROBLEMS,
  BLUETOOTH_PROBLEMS,
  DEVICE_PROBLEMS,
  SEARCH_PROBLEMS,
  TRACING_PROBLEMS,
  PHOTO_PROBLEMS,
  PROCEDURE_PROBLEMS,
  JOB_PROBLEMS,
  TRAINING_PROBLEMS,
];
const codes = Object.keys(CATALOGUE) as ProblemCode[];

test('the scan reads sources', () => expect(SOURCES.length).toBeGreaterThan(100_000));

test('no code is given in two families: the later would hide the earlier', () => {
  const all = FAMILIES.flatMap((family) => Object.keys(family));
  expect(new Set(all).size).toBe(all.length);
  expect(all.sort()).toEqual([...codes].sort());
});

describe.each(codes)('%s', (code) => {
  const { message, remedy } = CATALOGUE[code];

  test('is used somewhere in src or adapters', () => expect(SOURCES).toContain(`'${code}'`));

  // A text may end in a fact that is a sentence of its own: {what}, {why}.
  test('says what happened and what to do, each ending with a full stop', () => {
    for (const text of [message, remedy]) expect(text).toMatch(/^[A-Z{"'].*(\.|\{\w+\})$/s);
    expect(remedy).not.toBe(message);
    expect(remedy.split(' ').length).toBeGreaterThanOrEqual(3);
  });

  test('has no doubled space, stray mark or empty brace', () => {
    expect(message + remedy).not.toMatch(/ {2}|\.\.|\{\}| \.| ,/);
  });
});
