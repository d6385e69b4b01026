declare const unit: unique symbol;

/** A number that carries the name of its unit or kind, so that two that must not be swapped do not compile. */
export type In<U extends string> = number & { readonly [unit]: U };

/** The one place where a plain number is given a brand. Callers use the named functions beside each type. */
export const brand = <U extends string>(value: number): In<U> => value as In<U>;
