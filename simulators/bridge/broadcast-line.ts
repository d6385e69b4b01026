import type { Sensors } from '../engine/sensors.ts';
import type { Broadcast } from './broadcast.ts';
import { passesOn, type SlcanDevice } from './slcan-device.ts';
const T: Record<number, [number, number, number, number]> = {
  190: [3, 2, 0.125, 0],
  513: [2, 1, 1, -125],
  1675: [6, 1, 1, 0],
  5313: [4, 2, 1 / 256, 0],
  157: [2, 2, 1 / 256, 0],
  94: [0, 1, 4, 0],
  100: [3, 1, 4, 0],
  102: [1, 1, 2, 0],
  168: [4, 2, 0.05, 0],
  110: [0, 1, 1, -40],
  174: [1, 1, 1, -40],
  175: [2, 2, 0.03125, -273],
  96: [1, 1, 0.4, 0],
  97: [0, 1, 1, 0],
};
export function broadcastLine(device: SlcanDevice, b: Broadcast, s: Sensors, timeMs: number): string {
  const id = b.priority * 2 ** 26 + b.pgn * 256 + b.address;
  if (!passesOn(device, id)) return '';
  const d = [...b.base];
  for (const [spn, v] of b.values(s)) {
    const [o, n, k, f] = T[spn]!;
    let r = Math.round((v - f) / k);
    for (let i = 0; i < n; i++) {
      d[o + i] = r & 255;
      r >>= 8;
    }
  }
  const h = (n: number, w: number) => n.toString(16).toUpperCase().padStart(w, '0');
  return (
    'T' + h(id, 8) + '8' + d.map((x) => h(x, 2)).join('') + (device.stamps ? h(timeMs % 60000, 4) : '') + '\r'
  );
}
