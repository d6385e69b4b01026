/** Texts of the `search.` problems. {names} are filled from the problem's context. */
export const SEARCH_PROBLEMS = {} as const;
