/** Groups that Meniscus treats by name (SAE J1939-21, -71, -73, -81; j1939.md). */
export const PGN = {
  acknowledgement: 59392,
  request: 59904,
  transportData: 60160,
  transportControl: 60416,
  addressClaim: 60928,
  ecu: 64965,
  activeCodes: 65226,
  previousCodes: 65227,
  software: 65242,
  hours: 65253,
  component: 65259,
  vin: 65260,
} as const;

/** Names of the groups that are met on the way to a value, in our words. Sources: j1939.md where not marked; (M) from memory. */
const GROUP_NAMES: Readonly<Record<number, string>> = {
  0: 'torque / speed control', // TSC1 (M)
  [PGN.acknowledgement]: 'acknowledgement',
  [PGN.request]: 'request',
  [PGN.transportData]: 'transport, data packet',
  [PGN.transportControl]: 'transport, connection management',
  [PGN.addressClaim]: 'address claim',
  61184: 'proprietary, to one address', // Proprietary A (M)
  61440: 'retarder', // ERC1 (M)
  61441: 'brakes', // EBC1 (M)
  61442: 'transmission 1', // ETC1 (M)
  61443: 'engine controller 2',
  61444: 'engine controller 1',
  61445: 'transmission 2', // ETC2 (M)
  64563: 'rail pressure, desired',
  64564: 'rail pressure, extended range',
  64656: 'rail pressure sensors',
  64735: 'fuel delivery pressure, absolute',
  64751: 'fuel delivery pressure, fine',
  64765: 'engine controller 9',
  [PGN.ecu]: 'ECU identification',
  65130: 'fuel system',
  [PGN.activeCodes]: 'trouble codes, active (DM1)',
  [PGN.previousCodes]: 'trouble codes, previously active (DM2)',
  [PGN.software]: 'software identification',
  65243: 'engine fluid level / pressure 2',
  [PGN.hours]: 'engine hours',
  [PGN.component]: 'component identification',
  [PGN.vin]: 'vehicle identification',
  65262: 'engine temperature 1',
  65263: 'engine fluid level / pressure 1',
  65265: 'cruise control / vehicle speed', // CCVS1 (M)
  65266: 'fuel economy',
  65269: 'ambient conditions',
  65270: 'intake / exhaust conditions 1',
  65271: 'vehicle electrical power 1',
  65276: 'dash display',
  65279: 'operator indicators',
};

/** PGNs 65280 to 65535: free for each maker (Proprietary B; from memory of J1939-21). */
const FIRST_PROPRIETARY_B = 0xff00;
const LAST_PROPRIETARY_B = 0xffff;

/** The name of a group, or null where the table has none. */
export function groupName(pgn: number): string | null {
  if (pgn >= FIRST_PROPRIETARY_B && pgn <= LAST_PROPRIETARY_B) return 'proprietary';
  return GROUP_NAMES[pgn] ?? null;
}
