import { addressText } from '../j1939/source-addresses.ts';

/** The source address in an origin as two hexadecimal digits, with its channel where that is not the first; empty for none. */
export function addressOf(origin: number): string {
  if (origin < 0) return '';
  const hex = (origin % 256).toString(16).toUpperCase().padStart(2, '0');
  return origin < 256 ? hex : `${hex} ch ${Math.floor(origin / 256) + 1}`;
}

/** The same with who usually owns the address. */
export const controllerName = (origin: number): string =>
  origin < 256
    ? addressText(origin)
    : `${addressText(origin % 256)}, channel ${Math.floor(origin / 256) + 1}`;
