import { encodeSlcanFrame } from '../../src/wire/slcan-encode.ts';
import type { Sensors } from '../engine/sensors.ts';
import { broadcastData, broadcastId } from './broadcast-frame.ts';
import type { Broadcast } from './broadcast.ts';
import { passesOn, type SlcanDevice } from './slcan-device.ts';

const NOTHING = new Uint8Array(0);

/** The line that the bridge sends to the host for a broadcast at a bus time in ms, or no bytes when it does not pass it on. */
export function broadcastLine(
  device: SlcanDevice,
  broadcast: Broadcast,
  sensors: Sensors,
  timeMs: number,
): Uint8Array {
  const id = broadcastId(broadcast);
  if (!passesOn(device, id)) return NOTHING;
  const data = broadcastData(broadcast, sensors);
  return encodeSlcanFrame(
    { id, extended: true, remote: false, length: data.length, data },
    device.stamps ? { kind: 'ms', value: timeMs } : null,
  );
}
