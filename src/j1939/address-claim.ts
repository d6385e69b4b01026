import type { BusMessage } from './bus-message.ts';
import { PGN } from './group-names.ts';

/**
 * The NAME by which a controller claims its address (J1939-81, PGN 60928), 64 bits, least significant byte first. Bit places as in the Linux
 * kernel's include/uapi/linux/can/j1939.h (key LK).
 */
export interface AddressClaim {
  readonly atMs: number;
  readonly identityNumber: number; // 21 bits
  readonly manufacturerCode: number; // 11 bits; Meniscus names no makers
  readonly ecuInstance: number;
  readonly functionInstance: number;
  readonly function: number;
  readonly vehicleSystem: number;
  readonly vehicleSystemInstance: number;
  readonly industryGroup: number;
  readonly arbitraryAddressCapable: boolean;
  /** Source address 254: the controller found no address that it may use. */
  readonly cannotClaim: boolean;
}

/** Industry groups (J1939-81; from memory). */
const INDUSTRY_GROUPS = [
  'all',
  'on-highway',
  'agriculture and forestry',
  'construction',
  'marine',
  'industrial',
];

/** The name of an industry group (0 to 7); null for those that are not assigned. */
export const industryGroupName = (group: number): string | null => INDUSTRY_GROUPS[group] ?? null;

const NULL_ADDRESS = 0xfe;

/** Reads an address claim. Null for other groups and for messages that are not 8 bytes. */
export function readAddressClaim({ pgn, data, atMs, origin }: BusMessage): AddressClaim | null {
  if (pgn !== PGN.addressClaim || data.length !== 8) return null;
  return {
    atMs,
    identityNumber: data[0]! | (data[1]! << 8) | ((data[2]! & 0x1f) << 16),
    manufacturerCode: (data[2]! >>> 5) | (data[3]! << 3),
    ecuInstance: data[4]! & 7,
    functionInstance: data[4]! >>> 3,
    function: data[5]!,
    vehicleSystem: data[6]! >>> 1,
    vehicleSystemInstance: data[7]! & 0xf,
    industryGroup: (data[7]! >>> 4) & 7,
    arbitraryAddressCapable: data[7]! >>> 7 === 1,
    cannotClaim: (origin & 0xff) === NULL_ADDRESS,
  };
}
