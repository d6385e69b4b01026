/** A number rounded to `digits` decimals for a message; never -0. */
export const rounded = (value: number, digits = 0): number => Number(value.toFixed(digits)) + 0;
