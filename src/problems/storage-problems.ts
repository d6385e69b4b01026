/** Texts of the `storage.` problems. {names} are filled from the problem's context. */
export const STORAGE_PROBLEMS = {
  'storage.unavailable': {
    message: 'This browser does not let Meniscus keep anything ({detail}).',
    remedy:
      'Leave private browsing, or allow storage for this page. You can go on, but nothing will be kept.',
  },
} as const;
