/** Texts of the `device.` problems. {names} are filled from the problem's context. */
export const DEVICE_PROBLEMS = {} as const;
