import type { JobEntryWanted } from '../job-desk.ts';

/** The event by which a part of the job's page asks for entries. */
export const jobEntry = (...detail: readonly JobEntryWanted[]): CustomEvent<readonly JobEntryWanted[]> =>
  new CustomEvent('job-entry', { detail, bubbles: true, composed: true });
