/** Texts of the `check.` problems. {names} are filled from the problem's context. */
export const CHECK_PROBLEMS = {
  'check.no-cranks': {
    message: 'No crank was found in this data.',
    remedy: 'Check that the log covers the cranking and that engine speed is in it.',
  },
} as const;
