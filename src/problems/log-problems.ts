/** Texts of the `log.` problems. {names} are filled from the problem's context. */
export const LOG_PROBLEMS = {
  'log.empty': {
    message: 'The file {name} is empty.',
    remedy: 'Choose the file that the logger wrote.',
  },
} as const;
