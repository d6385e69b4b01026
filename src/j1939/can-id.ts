/** The fields of a 29-bit J1939 identifier (SAE J1939-21). */
export interface CanId {
  readonly priority: number; // 0 to 7, 0 highest
  readonly extendedDataPage: number; // 0 in J1939
  readonly dataPage: number;
  readonly pduFormat: number;
  readonly pduSpecific: number;
  readonly sourceAddress: number;
  readonly pgn: number;
  /** Where the message goes; 255 (all) for PDU2 groups. */
  readonly destination: number;
}

export const GLOBAL_ADDRESS = 0xff;
const FIRST_PDU2 = 240;

/** The parameter group number: PDU1 groups (PF below 240) have low byte 0, since PS is their destination. */
export function pgnOf(id: number): number {
  const group = (id >>> 8) & 0x3ffff;
  return ((group >>> 8) & 0xff) < FIRST_PDU2 ? group & 0x3ff00 : group;
}

/** Whether an extended identifier belongs to J1939: the extended data page bit is 0. */
export const isJ1939 = (id: number): boolean => ((id >>> 25) & 1) === 0;

/** Takes a 29-bit identifier apart. Bits above the 29th are ignored. */
export function parseCanId(id: number): CanId {
  const pduFormat = (id >>> 16) & 0xff;
  const pduSpecific = (id >>> 8) & 0xff;
  return {
    priority: (id >>> 26) & 7,
    extendedDataPage: (id >>> 25) & 1,
    dataPage: (id >>> 24) & 1,
    pduFormat,
    pduSpecific,
    sourceAddress: id & 0xff,
    pgn: pgnOf(id),
    destination: pduFormat < FIRST_PDU2 ? pduSpecific : GLOBAL_ADDRESS,
  };
}

/** The identifier of a group. `destination` is used by PDU1 groups only. Fields too large are cut to their bits. */
export function formCanId(
  parts: Pick<CanId, 'priority' | 'pgn' | 'sourceAddress'> & { destination?: number },
): number {
  const { priority, pgn, sourceAddress, destination = GLOBAL_ADDRESS } = parts;
  const isPdu1 = ((pgn >>> 8) & 0xff) < FIRST_PDU2;
  const group = isPdu1 ? (pgn & 0x3ff00) | (destination & 0xff) : pgn & 0x3ffff;
  return (((priority & 7) << 26) | (group << 8) | (sourceAddress & 0xff)) >>> 0;
}
