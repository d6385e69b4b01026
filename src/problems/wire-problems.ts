/** Texts of the `wire.` problems. {names} are filled from the problem's context. */
export const WIRE_PROBLEMS = {
  'wire.no-time': {
    message: 'The frames in this log carry no time stamps.',
    remedy:
      'An average over time cannot be formed. Give the interval between two speed readings, or record the log again with time stamps.',
  },
} as const;
