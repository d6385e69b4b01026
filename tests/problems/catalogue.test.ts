import { describe, expect, test } from 'vitest';
import { CATALOGUE, type ProblemCode } from '../../src/problems/catalogue.ts';
import { describeProblem, problem } from '../../src/problems/problem.ts';

const codes = Object.keys(CATALOGUE) as ProblemCode[];

describe.each(codes)('%s', (code) => {
  const { message, remedy } = CATALOGUE[code];
  const names = [...`${message} ${remedy}`.matchAll(/\{(\w+)\}/g)].map((match) => match[1]!);

  test('has a message and a remedy that are sentences, or end in the fact named', () => {
    for (const text of [message, remedy]) expect(text).toMatch(/^\S.{5,}[.?!}]$/s);
  });

  test('is named after the folder it comes from', () => {
    expect(code).toMatch(/^[a-z]+\.[a-z0-9-]+$/);
  });

  test('has every placeholder filled when its facts are given', () => {
    const context = Object.fromEntries(names.map((name) => [name, `<${name}>`]));
    const text = describeProblem(problem(code, context));
    expect(text.message + text.remedy).not.toMatch(/[{}]/);
    for (const name of names) expect(text.message + text.remedy).toContain(`<${name}>`);
  });
});

test('a placeholder without a fact stays as it stands', () => {
  expect(describeProblem(problem('link.lost')).message).toContain('{device}');
});

test('zero is a fact and is filled in', () => {
  expect(describeProblem(problem('link.lost', { device: 0 })).message).toContain('connection to 0 was lost');
});
