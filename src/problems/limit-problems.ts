/** Texts of the `limit.` problems. {names} are filled from the problem's context. */
export const LIMIT_PROBLEMS = {
  'limit.not-a-sheet': {
    message: 'This is not a limit sheet: {detail}.',
    remedy: 'Choose a limit sheet file, or check the place named.',
  },
} as const;
