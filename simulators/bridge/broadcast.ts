import type { Sensors } from '../engine/sensors.ts';

/** One group that some controller broadcasts: when, from where, and which parameters it fills. */
export interface Broadcast {
  readonly pgn: number;
  readonly priority: number;
  readonly address: number;
  readonly everyMs: number;
  readonly offsetMs: number;
  /** Bytes before the parameters are put in; FF is "not available". */
  readonly base: readonly number[];
  readonly values: (sensors: Sensors) => readonly SpnValue[];
}

/** A parameter by its number, with its value in the unit of the parameter table. */
export type SpnValue = readonly [spn: number, value: number];

const ENGINE = 0x00;
const BRAKES = 0x0b;
const CAB = 0x31;
const BLANK = [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];
const NOTHING = (): readonly SpnValue[] => [];

const engine = { address: ENGINE, priority: 6, base: BLANK };

/**
 * What is on the bus: standard rates (j1939.md, Parameters), with offsets so that not all come at once. Rows of one
 * instant go out in this order, which is that of their identifiers.
 */
const BROADCASTS: readonly Broadcast[] = [
  // starter mode stays 0 while cranking, as in the recordings
  {
    ...engine,
    pgn: 61444,
    priority: 3,
    everyMs: 10,
    offsetMs: 0,
    values: (s) => [
      [513, s.torquePercent],
      [190, s.speedRpm],
      [1675, 0],
    ],
  },
  { ...engine, pgn: 61441, address: BRAKES, everyMs: 100, offsetMs: 42, values: NOTHING },
  { ...engine, pgn: 64765, everyMs: 100, offsetMs: 24, values: (s) => [[5313, s.commandedRailMPa]] },
  { ...engine, pgn: 65130, everyMs: 500, offsetMs: 344, values: (s) => [[1382, s.suctionDropKPa]] },
  // no active trouble code (j1939.md, DM1)
  {
    ...engine,
    pgn: 65226,
    everyMs: 1000,
    offsetMs: 656,
    base: [0, 0xff, 0, 0, 0, 0, 0xff, 0xff],
    values: NOTHING,
  },
  { ...engine, pgn: 65243, everyMs: 500, offsetMs: 136, values: (s) => [[157, s.railMPa]] },
  { ...engine, pgn: 65253, everyMs: 10_000, offsetMs: 556, values: (s) => [[247, s.hours]] },
  {
    ...engine,
    pgn: 65262,
    everyMs: 1000,
    offsetMs: 176,
    values: (s) => [
      [110, s.coolantC],
      [174, s.fuelC],
      [175, s.oilC],
    ],
  },
  {
    ...engine,
    pgn: 65263,
    everyMs: 500,
    offsetMs: 116,
    values: (s) => [
      [94, s.supplyKPa],
      [100, s.oilKPa],
    ],
  },
  { ...engine, pgn: 65270, everyMs: 500, offsetMs: 216, values: () => [[102, 0]] },
  { ...engine, pgn: 65271, everyMs: 1000, offsetMs: 56, values: (s) => [[168, s.batteryV]] },
  { ...engine, pgn: 65271, address: CAB, everyMs: 1000, offsetMs: 358, values: (s) => [[168, s.cabV]] },
  {
    ...engine,
    pgn: 65276,
    address: CAB,
    everyMs: 1000,
    offsetMs: 458,
    values: (s) => [
      [96, s.fuelLevelPercent],
      [95, s.filterDropKPa],
    ],
  },
  { ...engine, pgn: 65279, everyMs: 10_000, offsetMs: 756, values: () => [[97, 0]] },
];

/** The broadcasts with engine speed at the rate of this engine; both are found in the recordings. */
export const broadcastsOf = (speedEveryMs: 10 | 20): readonly Broadcast[] =>
  BROADCASTS.map((broadcast) =>
    broadcast.pgn === 61444 ? { ...broadcast, everyMs: speedEveryMs } : broadcast,
  );

/** Whether a broadcast is due at an instant of the bus's clock. */
export const isDue = ({ everyMs, offsetMs }: Broadcast, timeMs: number): boolean =>
  timeMs >= offsetMs && (timeMs - offsetMs) % everyMs === 0;
