/** Texts of the `bluetooth.` problems. {names} are filled from the problem's context. */
export const BLUETOOTH_PROBLEMS = {} as const;
