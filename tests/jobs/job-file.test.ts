import { createHash } from 'node:crypto';
import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJobFile, writeJobFile } from '../../src/jobs/job-file-bytes.ts';
import { fromExactJson, toExactJson } from '../../src/jobs/job-file-json.ts';
import { storedEqual } from '../../src/jobs/stored-equal.ts';
import { ok } from '../../src/problems/result.ts';
import { packChunk, type Chunk } from '../../src/recordings/chunk.ts';
import { codeOf, CONTENTS, valueOf } from './example-file.ts';
import { job, run } from './example-job.ts';

const ORIGIN = { program: '0.1.0', writtenAt: '2026-11-25T09:00:00.000Z' };
const file = async (contents = CONTENTS) =>
  new Uint8Array(await (await writeJobFile(contents, ORIGIN)).arrayBuffer());
const read = (bytes: Uint8Array, most?: number) =>
  readJobFile(new Blob([bytes as Uint8Array<ArrayBuffer>]), most);
const packed = (text: string) => new Uint8Array(gzipSync(text));
describe('exact JSON', () => {
  test('gives back numbers, bytes, columns, and objects that look like its own marks', () => {
    const anything = fc.letrec((tie) => ({
      value: fc.oneof(
        { maxDepth: 3 },
        fc.double(),
        fc.string(),
        fc.boolean(),
        fc.constant(null),
        fc.uint8Array({ maxLength: 9 }),
        fc.uint32Array({ maxLength: 5 }),
        fc.float64Array({ maxLength: 5 }),
        fc.array(tie('value'), { maxLength: 4 }),
        fc.dictionary(
          fc
            .oneof(fc.constantFrom('$number', '$bytes', '$object', '$'), fc.string())
            .filter((key) => key !== '__proto__'),
          tie('value'),
          { maxKeys: 3, noNullPrototype: true },
        ),
      ),
    })).value;
    fc.assert(
      fc.property(anything, (value) => {
        expect(fromExactJson(toExactJson(value))).toStrictEqual(value);
      }),
    );
  });

  test.each(['{"$number":1}', '{"$what":"x"}', '{"$bytes":"?"}', '{"$uint32":"AAA="}', '{"a":'])(
    'refuses %s',
    (line) => {
      expect(() => fromExactJson(line)).toThrow();
    },
  );
});

describe('base64', () => {
  // RFC 4648, section 10, test vectors.
  test.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('of "%s" is as published', (text, base64) => {
    expect(toExactJson(new TextEncoder().encode(text))).toBe(`{"$bytes":"${base64}"}`);
  });
});

describe('a job file', () => {
  test('gives back the whole job as it was', async () => {
    expect(await read(await file())).toEqual(ok(CONTENTS));
  });

  test('is gzip of JSON lines that says what it is first, and ends in the SHA-256 of all lines before', async () => {
    const text = gunzipSync(await file()).toString('utf8');
    const lines = text.split('\n');
    expect(JSON.parse(lines[0]!)).toEqual({
      format: 'meniscus job',
      version: 1,
      ...ORIGIN,
      jobId: 'job-1',
      counts: { job: 1, run: 2, recording: 1, chunk: 2, photo: 1 },
    });
    expect(lines.at(-1)).toBe('');
    const before = text.slice(0, text.lastIndexOf('\n', text.length - 2) + 1);
    expect(JSON.parse(lines.at(-2)!)).toEqual({
      kind: 'end',
      sha256: createHash('sha256').update(before).digest('hex'),
    });
  });

  test('is refused wherever it is cut', async () => {
    const whole = await file();
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), async (length) => {
        expect(codeOf(await read(whole.subarray(0, length)))).toMatch(/^job\.(file-damaged|not-a-job-file)$/);
      }),
      { numRuns: 60 },
    );
  });

  test('gives all of it or a problem, whichever bit is turned, packed or within', async () => {
    const whole = await file();
    const plain = new Uint8Array(gunzipSync(whole));
    const turned = (bytes: Uint8Array, bit: number) =>
      bytes.map((byte, place) => (place === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte));
    await fc.assert(
      fc.asyncProperty(fc.nat(8 * whole.length - 1), async (bit) => {
        const result = await read(turned(whole, bit));
        // A bit of the gzip header (its time, its system) says nothing of the content.
        if (result.ok) expect(result.value).toEqual(CONTENTS);
      }),
      { numRuns: 80 },
    );
    await fc.assert(
      fc.asyncProperty(fc.nat(8 * plain.length - 1), async (bit) => {
        expect((await read(new Uint8Array(gzipSync(turned(plain, bit))))).ok).toBe(false);
      }),
      { numRuns: 80 },
    );
  });

  test.each([
    ['nothing', new Uint8Array(), 'job.not-a-job-file'],
    ['no gzip', new TextEncoder().encode('speed,time'), 'job.not-a-job-file'],
    ['packed text', packed('speed,time\n1,2\n'), 'job.not-a-job-file'],
    ['other JSON', packed('{"a":1}\n'), 'job.not-a-job-file'],
    ['a packed nothing', packed(''), 'job.not-a-job-file'],
    ['a newer form', packed('{"format":"meniscus job","version":2}\n'), 'job.newer-job-file'],
    ['no version', packed('{"format":"meniscus job"}\n'), 'job.file-damaged'],
    ['a strange line', packed('{"format":"meniscus job","version":1}\n{"kind":"tea"}\n'), 'job.file-damaged'],
  ])('that is %s is told as such', async (_what, bytes, code) => {
    expect(codeOf(await read(bytes))).toBe(code);
  });

  test('that is too large, packed or unpacked, is refused before it is held', async () => {
    const whole = await file();
    expect(codeOf(await read(whole, whole.length - 1))).toBe('job.file-too-large');
    expect(codeOf(await read(packed(' '.repeat(100_000)), 50_000))).toBe('job.file-too-large');
  });

  /** A sound frame around documents that are not. */
  const framed = (documents: readonly (readonly [string, object])[], counts: object) => {
    const first = JSON.stringify({ format: 'meniscus job', version: 1, counts });
    const lines = [
      first,
      ...documents.map(([kind, document]) => `{"kind":"${kind}","document":${toExactJson(document)}}`),
    ];
    const text = `${lines.join('\n')}\n`;
    const sha256 = createHash('sha256').update(text).digest('hex');
    return packed(`${text}{"kind":"end","sha256":"${sha256}"}\n`);
  };
  const none = { job: 1, run: 0, recording: 0, chunk: 0, photo: 0 };
  test.each([
    ['a job of a newer version', [['job', { ...job(), formatVersion: 2 }]], none, 'storage.newer-document'],
    ['a job that is none', [['job', { id: 'x', formatVersion: 1 }]], none, 'storage.damaged'],
    ['fewer runs than it says', [['job', job()]], { ...none, run: 1 }, 'job.file-damaged'],
    ['no job', [], { ...none, job: 0 }, 'job.file-damaged'],
    [
      'a run of another job',
      [
        ['job', job()],
        ['run', run('a', 1, null, { jobId: 'z' })],
      ],
      { ...none, run: 1 },
      'job.file-damaged',
    ],
    [
      'a piece of no recording',
      [
        ['job', job()],
        ['chunk', CONTENTS.chunks[0]!],
      ],
      { ...none, chunk: 1 },
      'job.file-damaged',
    ],
    [
      'one run twice',
      [
        ['job', job()],
        ['run', run('a', 1, null)],
        ['run', run('a', 1, null)],
      ],
      { ...none, run: 2 },
      'job.file-damaged',
    ],
  ] as const)('with %s is refused', async (_what, documents, counts, code) => {
    expect(codeOf(await read(framed(documents, counts)))).toBe(code);
  });

  test('of 60 MB of recordings is written and read in seconds', async () => {
    const bytes = new Uint8Array(60_000).map((_, place) => (place * 2_654_435_761) >>> 13);
    const chunks = Array.from({ length: 1000 }, (_, sequence): Chunk => ({
      ...packChunk('rec-1', sequence, []),
      atMs: Float64Array.of(sequence),
      kinds: Uint8Array.of(1),
      lengths: Uint32Array.of(bytes.length),
      bytes,
    }));
    const started = performance.now();
    const blob = await writeJobFile({ ...CONTENTS, chunks }, ORIGIN);
    const written = performance.now();
    const back = valueOf(await readJobFile(blob));
    const done = performance.now();
    expect(back.chunks.length).toBe(1000);
    expect(storedEqual(back.chunks[999], chunks[999])).toBe(true);
    console.log(
      `60 MB job file: written in ${Math.round(written - started)} ms, read in ${Math.round(done - written)} ms`,
    );
    expect(done - started).toBeLessThan(60_000);
  }, 90_000);
});
