/** The kinds of check. A check of the procedure is one of these with its own settings. */
export const CHECK_KINDS = [
  'crank delivery',
  'collected volume',
  'steady pressure',
  'pressure build',
  'pressure decay',
  'pressure deviation',
  'inspection',
] as const;
export type CheckKind = (typeof CHECK_KINDS)[number];
