import type { Sensors } from '../engine/sensors.ts';
import { broadcastData, broadcastId } from './broadcast-frame.ts';
import type { Broadcast } from './broadcast.ts';
import { passesOn, type SlcanDevice } from './slcan-device.ts';

const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');

/** The line that the bridge sends to the host for a broadcast, or nothing when it does not pass it on. */
export function broadcastLine(
  device: SlcanDevice,
  broadcast: Broadcast,
  sensors: Sensors,
  timeMs: number,
): string {
  const id = broadcastId(broadcast);
  if (!passesOn(device, id)) return '';
  const data = Array.from(broadcastData(broadcast, sensors), (byte) => hex(byte, 2)).join('');
  return `T${hex(id, 8)}8${data}${device.stamps ? hex(timeMs % 60_000, 4) : ''}\r`;
}
