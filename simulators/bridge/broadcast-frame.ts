import { formCanId } from '../../src/j1939/can-id.ts';
import { writeSample } from '../../src/j1939/spn-codec.ts';
import { SPN_TABLE, type SpnEntry } from '../../src/j1939/spn-table.ts';
import type { Sensors } from '../engine/sensors.ts';
import type { Broadcast } from './broadcast.ts';

const ENTRIES: ReadonlyMap<number, SpnEntry> = new Map(SPN_TABLE.map((entry) => [entry.spn, entry]));

/** The 29-bit identifier that a broadcast goes out with. */
export const broadcastId = ({ priority, pgn, address }: Broadcast): number =>
  formCanId({ priority, pgn, sourceAddress: address });

/** The 8 bytes of a broadcast; what it does not fill stays as in its base. */
export function broadcastData({ base, values }: Broadcast, sensors: Sensors): Uint8Array {
  const data = Uint8Array.from(base);
  for (const [spn, value] of values(sensors)) {
    const entry = ENTRIES.get(spn);
    if (entry === undefined) throw new TypeError(`SPN ${spn} is not in the table`); // a mistake in the list of broadcasts
    writeSample(entry, value, data);
  }
  return data;
}
