/** Texts of the `bus.` problems. {names} are filled from the problem's context. */
export const BUS_PROBLEMS = {} as const;
