import { z } from 'zod';
import { DECISIONS } from '../jobs/job-entry.ts';
import { ok } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';
import { migrate } from '../storage/migrate.ts';

/** What was typed in a job and is not entered yet. */
export const JobDraft = z.object({
  conclusion: z.object({
    decision: z.enum(DECISIONS).nullable(),
    words: z.string(),
    cause: z.string(),
    watchFor: z.string(),
  }),
  note: z.object({ text: z.string(), photoIds: z.array(z.string()) }),
});
export type JobDraft = z.infer<typeof JobDraft>;

export const EMPTY_DRAFT: JobDraft = {
  conclusion: { decision: null, words: '', cause: '', watchFor: '' },
  note: { text: '', photoIds: [] },
};

const FORMAT = 1;
const idOf = (jobId: string): string => `draft of job ${jobId}`;

/**
 * Drafts beside the jobs, so that a reload or a crash loses nothing that was typed. They are no part of a job and of no job file. Nothing here
 * fails: what cannot be kept holds until the page is left.
 */
export interface JobDrafts {
  /** What was typed last; `EMPTY_DRAFT` where nothing was, or where it cannot be read. */
  read(jobId: string): Promise<JobDraft>;
  /** Changes a part of the draft. Changes that come faster than they can be written are written as one. */
  change(jobId: string, part: Partial<JobDraft>): Promise<void>;
}

export function jobDrafts(database: Database): JobDrafts {
  let turn: Promise<unknown> = Promise.resolve();
  const waiting = new Map<string, Partial<JobDraft>>();
  const write = async (jobId: string) => {
    const part = waiting.get(jobId);
    if (!part) return;
    waiting.delete(jobId);
    await database.write(['settings'], async (tx) => {
      const id = idOf(jobId);
      const draft = { ...draftIn(await tx.get('settings', id)), ...part };
      if (isEmpty(draft)) await tx.remove('settings', id);
      else await tx.put('settings', { id, formatVersion: FORMAT, ...draft });
      return ok(undefined);
    });
  };
  return {
    read: async (jobId) => {
      await turn;
      const id = idOf(jobId);
      const read = await database.read(['settings'], async (tx) => ok(draftIn(await tx.get('settings', id))));
      return read.ok ? read.value : EMPTY_DRAFT;
    },
    change: async (jobId, part) => {
      waiting.set(jobId, { ...waiting.get(jobId), ...part });
      turn = turn.then(() => write(jobId));
      await turn;
    },
  };
}

function draftIn(document: unknown): JobDraft {
  const current = migrate('Draft', document, []);
  const read = JobDraft.safeParse(current.ok ? current.value : null);
  return read.success ? read.data : EMPTY_DRAFT;
}

const isEmpty = ({ conclusion, note }: JobDraft): boolean =>
  conclusion.decision === null &&
  [conclusion.words, conclusion.cause, conclusion.watchFor, note.text, ...note.photoIds].every(
    (text) => text === '',
  );
