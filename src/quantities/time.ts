import { brand, type In } from './brand.ts';

/** An instant or a span in milliseconds. Instants count from an origin that the source chooses. */
export type Millis = In<'ms'>;

/** Marks a number as milliseconds. */
export const millis = (value: number): Millis => brand<'ms'>(value);
