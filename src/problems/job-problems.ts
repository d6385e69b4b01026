/** Texts of the `job.` problems. {names} are filled from the problem's context. */
export const JOB_PROBLEMS = {
  'job.not-concluded': {
    message: 'Job {id} has no conclusion that could be signed.',
    remedy: 'Write the conclusion first, then sign it.',
  },
  'job.not-closed': {
    message: 'Job {id} is open: there is nothing to open again.',
    remedy: 'Go on with it as it stands.',
  },
  'job.no-such-work': {
    message: 'The work that this belongs to is not noted in the job, or was withdrawn.',
    remedy: 'Reload the job and note the work again if it was done.',
  },
} as const;
