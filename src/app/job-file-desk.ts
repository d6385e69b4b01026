import { collectJob, type CollectedJob } from '../jobs/collect-job.ts';
import { importJob, weighImport, type ImportChoice, type WeighedImport } from '../jobs/import-job.ts';
import { readJobFile, writeJobFile } from '../jobs/job-file-bytes.ts';
import type { JobFileContents } from '../jobs/job-file.ts';
import type { StoredJob } from '../jobs/job.ts';
import { ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';

/** A job as one file, and what it lacks because it could not be read. */
export interface PackedJob {
  readonly blob: Blob;
  readonly missing: CollectedJob['missing'];
}

/** A file that was read and compared with what lies here; nothing is changed yet. */
export interface ReadJob {
  readonly contents: JobFileContents;
  readonly weighed: WeighedImport;
}

/** Jobs as files: out for archive and hand-over, in with a look at the differences first. */
export interface JobFileDesk {
  pack(jobId: string): Promise<Result<PackedJob>>;
  read(file: Blob): Promise<Result<ReadJob>>;
  bring(contents: JobFileContents, choice: ImportChoice): Promise<Result<StoredJob>>;
}

interface Means {
  readonly nowIso: () => string;
  readonly newId: () => string;
}

export function jobFileDesk(database: Database, { nowIso, newId }: Means): JobFileDesk {
  return {
    pack: async (jobId) => {
      const collected = await collectJob(database, jobId);
      if (!collected.ok) return collected;
      const { contents, missing } = collected.value;
      return ok({
        blob: await writeJobFile(contents, { program: 'Meniscus', writtenAt: nowIso() }),
        missing,
      });
    },
    read: async (file) => {
      const read = await readJobFile(file);
      if (!read.ok) return read;
      const weighed = await weighImport(database, read.value);
      return weighed.ok ? ok({ contents: read.value, weighed: weighed.value }) : weighed;
    },
    bring: (contents, choice) => importJob(database, contents, choice, newId),
  };
}
