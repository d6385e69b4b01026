/**
 * The usual owners of source addresses (SAE J1939-81, preferred addresses; j1939.md, "The 29-bit identifier"). Any controller may
 * claim another address, so a name is what is usual, not what was found.
 */
const USUAL_OWNERS: Readonly<Record<number, string>> = {
  0x00: 'engine 1',
  0x01: 'engine 2',
  0x03: 'transmission',
  0x0b: 'brakes',
  0x0f: 'engine retarder',
  0x17: 'instrument cluster',
  0x21: 'body',
  0x25: 'off-vehicle gateway',
  0x31: 'cab',
  0x3d: 'exhaust emissions',
  0x55: 'particulate filter',
  0xf9: 'off-board tool 1',
  0xfa: 'off-board tool 2',
  0xfb: 'on-board logger',
  0xfe: 'no address',
  0xff: 'all',
};

/** Who usually owns a source address (0 to 255); null where the table has nobody. */
export const sourceName = (address: number): string | null => USUAL_OWNERS[address] ?? null;

/** An address as people write it: two hexadecimal digits, and the usual owner where there is one. */
export function addressText(address: number): string {
  const hex = (address & 0xff).toString(16).toUpperCase().padStart(2, '0');
  const name = sourceName(address & 0xff);
  return name === null ? hex : `${hex} (${name})`;
}

/**
 * Addresses of the engine, number 1 before number 2 (SAE J1939-81, preferred addresses). Only they can name the engine: the component
 * identification of brakes or transmission has a serial number too, and it must never choose the engine's limit sheet.
 */
export const ENGINE_ADDRESSES: readonly number[] = [0x00, 0x01];

/** Whether an origin is the engine. Origin: channel * 256 + address; sources without addresses are below 0. */
export const isEngineOrigin = (origin: number): boolean =>
  origin >= 0 && ENGINE_ADDRESSES.includes(origin % 256);
