import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';
import { migrate } from '../storage/migrate.ts';
import { parseDocument } from '../storage/parse-document.ts';
import { photoTypeOf } from './photo-type.ts';
import { MOST_PHOTO_BYTES, StoredPhoto } from './photo.ts';
import { startSha256 } from './sha-256.ts';
import { storedEqual } from './stored-equal.ts';

/** What could be had of some photographs, and why the others could not. */
export interface PhotoListing {
  readonly photos: readonly StoredPhoto[];
  readonly missing: readonly { readonly id: string; readonly problem: Problem }[];
}

/** Photographs kept as evidence: put once, never changed. Nothing here throws. */
export interface PhotoStore {
  /**
   * Keeps a photograph; the same one again is no mistake. Refuses one that is too large (`photo.too-large-to-keep`), whose bytes are not of
   * its type or do not give its sum (`photo.unfit`), and another one under an id that is taken (`photo.kept`).
   */
  put(photo: unknown): Promise<Result<StoredPhoto>>;
  /** Problems: `storage.not-found`, `storage.damaged`, `storage.newer-document`, `photo.changed` where the bytes no longer give the sum. */
  get(id: string): Promise<Result<StoredPhoto>>;
  /** Those of these ids, each once, in the order asked for. One that is missing or damaged never hides another. */
  listOf(ids: readonly string[]): Promise<Result<PhotoListing>>;
}

const WHAT = 'Photograph';

/** A document as a photograph of the current format. Problems: `storage.damaged`, `storage.newer-document`. */
export function readPhoto(document: unknown): Result<StoredPhoto> {
  const current = migrate(WHAT, document, []);
  return current.ok ? parseDocument(StoredPhoto, WHAT, current.value) : current;
}

/** SHA-256 of the bytes of a picture, as `StoredPhoto` writes it. */
export function photoSum(bytes: Uint8Array): string {
  const sum = startSha256();
  sum.update(bytes);
  return sum.hex();
}

/** Photographs in the database. */
export function photoStore(database: Database): PhotoStore {
  return {
    put: async (document) => {
      const read = readPhoto(document);
      const objection = read.ok ? objectionTo(read.value) : read.problem;
      if (!read.ok || objection) return failed(objection!);
      const photo = read.value;
      return database.write(['photos'], async (tx) => {
        const kept = await tx.get('photos', photo.id);
        if (kept !== undefined)
          return storedEqual(kept, photo) ? ok(photo) : failed(problem('photo.kept', { id: photo.id }));
        await tx.put('photos', photo);
        return ok(photo);
      });
    },
    get: async (id) => {
      const document = await database.read(['photos'], async (tx) => ok(await tx.get('photos', id)));
      return document.ok ? kept(id, document.value) : document;
    },
    listOf: async (ids) => {
      const wanted = [...new Set(ids)];
      const documents = await database.read(['photos'], async (tx) =>
        ok(await Promise.all(wanted.map((id) => tx.get('photos', id)))),
      );
      if (!documents.ok) return documents;
      const read = wanted.map((id, place) => ({ id, outcome: kept(id, documents.value[place]) }));
      return ok({
        photos: read.flatMap(({ outcome }) => (outcome.ok ? [outcome.value] : [])),
        missing: read.flatMap(({ id, outcome }) => (outcome.ok ? [] : [{ id, problem: outcome.problem }])),
      });
    },
  };
}

function kept(id: string, document: unknown): Result<StoredPhoto> {
  if (document === undefined) return failed(problem('storage.not-found', { what: WHAT, id }));
  const read = readPhoto(document);
  if (!read.ok) return read;
  return photoSum(read.value.bytes) === read.value.sha256 ? read : failed(problem('photo.changed', { id }));
}

function objectionTo({ id, type, bytes, sha256 }: StoredPhoto): Problem | null {
  if (bytes.length > MOST_PHOTO_BYTES) {
    const megabytes = Math.ceil(bytes.length / 100_000) / 10;
    return problem('photo.too-large-to-keep', { id, megabytes, limit: MOST_PHOTO_BYTES / 1_000_000 });
  }
  if (photoTypeOf(bytes) !== type) return problem('photo.unfit', { id, detail: `not ${type}` });
  if (photoSum(bytes) !== sha256) return problem('photo.unfit', { id, detail: 'another sum' });
  return null;
}
