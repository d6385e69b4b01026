import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { migrate, type FormatStep } from '../../src/storage/migrate.ts';
import { parseDocument, readListing } from '../../src/storage/parse-document.ts';
import { storageProblem } from '../../src/storage/storage-failure.ts';
import { StoredProblem } from '../../src/storage/stored-problem.ts';

const Thing = z.strictObject({ id: z.string(), size: z.number() });

describe('reading a stored document', () => {
  test('names the document and the first place that does not fit', () => {
    const read = parseDocument(Thing, 'Thing', { id: 'a', size: 'big' });
    expect(read).toMatchObject({
      ok: false,
      problem: { code: 'storage.damaged', context: { what: 'Thing', id: 'a' } },
    });
    expect(!read.ok && read.problem.context['detail']).toMatch(/^size: /);
  });

  test.each([undefined, null, 7, 'text', []])('never throws on %j', (document) => {
    expect(parseDocument(Thing, 'Thing', document).ok).toBe(false);
  });

  test('a damaged one in a list hides none of the others', () => {
    const listing = readListing([{ id: 'a', size: 1 }, { id: 'b' }, { id: 'c', size: 3 }, null], (document) =>
      parseDocument(Thing, 'Thing', document),
    );
    expect(listing.items.map((thing) => thing.id)).toEqual(['a', 'c']);
    expect(listing.damaged.map((one) => one.id)).toEqual(['b', '?']);
    expect(listing.damaged[0]?.problem.code).toBe('storage.damaged');
  });
});

describe('bringing a document to the current format', () => {
  const steps: FormatStep[] = [
    ({ grams, ...rest }) => ({ ...rest, milligrams: Number(grams) * 1000 }),
    (document) => ({ ...document, colour: 'none' }),
  ];

  test('takes each step from its own version on', () => {
    expect(migrate('Thing', { formatVersion: 1, id: 'a', grams: 2 }, steps)).toEqual({
      ok: true,
      value: { formatVersion: 3, id: 'a', milligrams: 2000, colour: 'none' },
    });
    expect(migrate('Thing', { formatVersion: 2, id: 'a' }, steps)).toMatchObject({
      value: { formatVersion: 3, colour: 'none' },
    });
  });

  test('leaves a current one as it is', () => {
    const current = { formatVersion: 3, id: 'a' };
    expect(migrate('Thing', current, steps)).toEqual({ ok: true, value: current });
  });

  test('refuses one of a newer version', () => {
    expect(migrate('Thing', { formatVersion: 4, id: 'a' }, steps)).toMatchObject({
      ok: false,
      problem: { code: 'storage.newer-document', context: { id: 'a' } },
    });
  });

  test.each([null, 3, {}, { formatVersion: 'x' }, { formatVersion: 0 }, { formatVersion: 1.5 }])(
    'passes %j on for the schema to refuse',
    (document) => {
      expect(migrate('Thing', document, steps)).toEqual({ ok: true, value: document });
    },
  );
});

describe('a stored problem', () => {
  test('of this version comes back as it was', () => {
    const stored = { code: 'link.framing', context: { detail: 'x', count: 2 } };
    expect(StoredProblem.parse(stored)).toEqual(stored);
  });

  test('with a code of another version still has a text', () => {
    expect(StoredProblem.parse({ code: 'link.of-tomorrow', context: {} })).toEqual({
      code: 'storage.unknown-code',
      context: { code: 'link.of-tomorrow' },
    });
  });
});

test.each([
  [new DOMException('', 'QuotaExceededError'), 'storage.full'],
  [new DOMException('', 'InvalidStateError'), 'storage.closed'],
  [new DOMException('', 'AbortError'), 'storage.failed'],
  [new Error('broken'), 'storage.failed'],
  ['text', 'storage.failed'],
  [null, 'storage.failed'],
])('the failure %s is told as %s', (error, code) => {
  expect(storageProblem(error).code).toBe(code);
});
