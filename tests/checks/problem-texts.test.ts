import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHECK_PROBLEMS } from '../../src/problems/check-problems.ts';
import { LIMIT_PROBLEMS } from '../../src/problems/limit-problems.ts';

const ROOT = new URL('../../src/', import.meta.url);

/** All of our source but the texts themselves: command line and screens raise some of these problems too. */
const SOURCE = readdirSync(ROOT, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.ts') && !path.startsWith('problems/') && !path.includes('node_modules'))
  .map((path) => readFileSync(new URL(path, ROOT), 'utf8'))
  .join('\n');

const ALL = Object.entries({ ...CHECK_PROBLEMS, ...LIMIT_PROBLEMS });

describe('the problems of checks and limits', () => {
  it.each(ALL)('%s is raised somewhere', (code) => {
    expect(SOURCE.includes(`'${code}'`)).toBe(true);
  });

  it.each(ALL)('%s says what happened and what to do, in whole sentences', (_, { message, remedy }) => {
    expect(message).toMatch(/^[A-Z{"].*[.}]$/);
    expect(remedy).toMatch(/^[A-Z].*\.$/);
  });
});
