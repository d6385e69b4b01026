import type { PortInfo, PortKind, PortLike } from './serial-port.ts';

/** Service class of the Serial Port Profile, 0x1101 on the Bluetooth base UUID. Source: Bluetooth Assigned Numbers, 3.3. */
export const SERIAL_PORT_SERVICE_CLASS = '00001101-0000-1000-8000-00805f9b34fb';

/** How a port is reached, what it is called on the screen, and the key by which it is known again (null: nothing tells). */
export interface PortIdentity {
  readonly kind: PortKind;
  readonly device: string;
  readonly key: string | null;
}

/** What the browser tells about a port, in words. A port that tells nothing is plainly a serial port without a key. */
export function identifyPort(port: Pick<PortLike, 'getInfo'>): PortIdentity {
  const info: PortInfo = port.getInfo?.() ?? {};
  if (info.bluetoothServiceClassId !== undefined)
    return {
      kind: 'bluetooth',
      device: 'Bluetooth serial device',
      key: `bluetooth:${fullUuid(info.bluetoothServiceClassId)}`,
    };
  const { usbVendorId, usbProductId } = info;
  if (usbVendorId === undefined || usbProductId === undefined)
    return { kind: 'other', device: 'Serial port', key: null };
  const ids = `${hex(usbVendorId)}:${hex(usbProductId)}`;
  return { kind: 'usb', device: `USB serial bridge ${ids}`, key: `usb:${ids}` };
}

const hex = (id: number): string => id.toString(16).padStart(4, '0').toUpperCase();

/** A 16-bit number stands for a UUID on the Bluetooth base UUID. Source: Bluetooth Core, Vol 3 Part B, 2.5.1. */
const fullUuid = (id: number | string): string =>
  typeof id === 'string'
    ? id.toLowerCase()
    : `${id.toString(16).padStart(8, '0')}-0000-1000-8000-00805f9b34fb`;
