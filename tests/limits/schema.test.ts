import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { ExchangeFile } from '../../src/limits/exchange.ts';
import { LimitSheetFormat2 } from '../../src/limits/limit-sheet.ts';

type Json = { readonly [key: string]: unknown };

/** What a file may hold, as whoever writes one has to have it: fields with a default may be left out. */
function published(): Json {
  return z.toJSONSchema(
    z.union([LimitSheetFormat2, ExchangeFile]).meta({
      title: 'Limit sheet or collection of limit sheets',
      description:
        'Generated from src/limits by tests/limits/schema.test.ts. One sheet, or a collection of them.',
    }),
    { io: 'input', target: 'draft-2020-12' },
  ) as Json;
}

/** Every property of every object in the schema: its path and its own schema. */
function properties(schema: unknown, path = ''): readonly (readonly [string, Json])[] {
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, value]) => {
    const here = `${path}/${key}`;
    const own =
      key === 'properties'
        ? Object.entries(value as Json).map(([name, one]) => [`${here}/${name}`, one as Json] as const)
        : [];
    return [...own, ...properties(value, here)];
  });
}

describe('the published schema', () => {
  /** Out of date after a change of the sheet? `npx vitest run --project node tests/limits/schema.test.ts -u` writes it anew. */
  it('is the one that follows from the code', async () => {
    const text = await format(JSON.stringify(published()), { parser: 'json', printWidth: 110 });
    await expect(text).toMatchFileSnapshot('../../docs/limit-sheet.schema.json');
  });

  it('describes each field that its name does not explain', () => {
    const plain = [
      'kind',
      'title',
      'engineFamily',
      'limits',
      'conditions',
      'format',
      'formatVersion',
      'min',
      'max',
    ];
    const telling = [
      ...plain,
      'failBelow',
      'passAbove',
      'failAbove',
      'signal',
      'timeTolerancePercent',
      'speedAverage',
    ];
    const bare = properties(published())
      .filter(([, schema]) => !('description' in schema) && !('$ref' in schema))
      .map(([path]) => path.split('/').at(-1) ?? '')
      .filter((name) => !telling.includes(name) && name !== 'printedNumbers');
    expect(bare).toEqual([]);
  });

  it('asks for what has no default, and for nothing that has one', () => {
    const sheet = (published()['$defs'] as Json)['LimitSheet'] as { readonly required: readonly string[] };
    expect(sheet.required).toContain('sheetId');
    expect(sheet.required).not.toContain('replaces');
    expect(Object.keys(DEMONSTRATION_SHEET).filter((key) => !sheet.required.includes(key))).toEqual([
      'replaces',
    ]);
  });
});
