import type { LinkEvent } from '../link/link-event.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { millis } from '../quantities/time.ts';
import type { Database, StoreReader } from '../storage/database.ts';
import { readListing, type Listing } from '../storage/parse-document.ts';
import { Chunk, unpackChunk } from './chunk.ts';
import { readHeader, WHAT } from './recording-schema.ts';
import type { RecordingHeader } from './recording.ts';

/** A recording read back. `problems` says what is missing: not closed, or pieces lost; the events hold a gap there. */
export interface LoadedRecording {
  readonly header: RecordingHeader;
  readonly events: readonly LinkEvent[];
  readonly problems: readonly Problem[];
}

/** What the recorder needs of the store. */
export interface RecordingWriter {
  create(header: RecordingHeader): Promise<Result<void>>;
  /** Keeps one chunk. The same chunk again is no harm, so a write in doubt can be repeated. */
  append(chunk: Chunk): Promise<Result<void>>;
  /** From now on the recording never changes. */
  close(id: string): Promise<Result<void>>;
}

export interface RecordingStore extends RecordingWriter {
  /** All headers, newest first; damaged ones are named beside them. */
  list(): Promise<Result<Listing<RecordingHeader>>>;
  loadEvents(id: string): Promise<Result<LoadedRecording>>;
  remove(id: string): Promise<Result<void>>;
}

const chunksOf = (id: string) => ({ from: [id, 0], to: [id, Number.MAX_SAFE_INTEGER] });

/** Recordings in the database. Nothing here throws: every failure is a `storage.` problem. */
export function recordingStore(database: Database): RecordingStore {
  return {
    create: (header) =>
      database.write(['recordings'], async (tx) => {
        if ((await tx.get('recordings', header.id)) !== undefined) return failed(exists(header.id));
        await tx.put('recordings', header);
        return ok(undefined);
      }),
    append: (chunk) =>
      database.write(['recordings', 'chunks'], async (tx) => {
        const header = await headerIn(tx, chunk.recordingId);
        if (!header.ok) return header;
        if (header.value.closed)
          return failed(problem('storage.recording-closed', { id: chunk.recordingId }));
        await tx.put('chunks', chunk);
        return ok(undefined);
      }),
    close: (id) =>
      database.write(['recordings'], async (tx) => {
        const header = await headerIn(tx, id);
        if (!header.ok) return header;
        await tx.put('recordings', { ...header.value, closed: true });
        return ok(undefined);
      }),
    list: () =>
      database.read(['recordings'], async (tx) => {
        const listing = readListing(await tx.list('recordings'), readHeader);
        return ok({ ...listing, items: listing.items.toSorted(newestFirst) });
      }),
    loadEvents: (id) => loadEvents(database, id),
    remove: (id) =>
      database.write(['recordings', 'chunks'], async (tx) => {
        await tx.remove('chunks', chunksOf(id));
        await tx.remove('recordings', id);
        return ok(undefined);
      }),
  };
}

const exists = (id: string): Problem => problem('storage.exists', { what: WHAT, id });
const newestFirst = (a: RecordingHeader, b: RecordingHeader) =>
  Date.parse(b.startedAt) - Date.parse(a.startedAt);

async function headerIn(tx: StoreReader, id: string): Promise<Result<RecordingHeader>> {
  const document = await tx.get('recordings', id);
  if (document === undefined) return failed(problem('storage.not-found', { what: WHAT, id }));
  return readHeader(document);
}

async function loadEvents(database: Database, id: string): Promise<Result<LoadedRecording>> {
  return database.read(['recordings', 'chunks'], async (tx) => {
    const header = await headerIn(tx, id);
    if (!header.ok) return header;
    const { events, problems } = joinChunks(id, await tx.list('chunks', chunksOf(id)));
    if (header.value.closed) return ok({ header: header.value, events, problems });
    const cut = problem('storage.recording-cut', { id, untilMs: Math.round(events.at(-1)?.atMs ?? 0) });
    return ok({ header: header.value, events, problems: [...problems, cut] });
  });
}

/** Events of all chunks in order; where a chunk is missing or damaged stands a gap, so that no average runs across it. */
function joinChunks(id: string, documents: readonly unknown[]): Pick<LoadedRecording, 'events' | 'problems'> {
  const events: LinkEvent[] = [];
  const problems: Problem[] = [];
  let expected = 0;
  let hole = false;
  for (const document of documents) {
    const parsed = Chunk.safeParse(document);
    if (!parsed.success || parsed.data.sequence !== expected) hole = true;
    expected = sequenceOf(document, expected) + 1;
    if (!parsed.success) continue;
    const unpacked = unpackChunk(parsed.data);
    if (hole) {
      const missing = problem('storage.chunk-missing', { id });
      events.push({ kind: 'gap', atMs: millis(unpacked[0]?.atMs ?? 0), problem: missing });
      problems.push(missing);
      hole = false;
    }
    for (const event of unpacked) events.push(event);
  }
  if (hole) problems.push(problem('storage.chunk-missing', { id }));
  return { events, problems };
}

function sequenceOf(document: unknown, otherwise: number): number {
  const named =
    typeof document === 'object' && document !== null && 'sequence' in document ? document.sequence : null;
  return typeof named === 'number' ? named : otherwise;
}
