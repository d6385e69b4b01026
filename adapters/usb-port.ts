import type { PortLike } from './serial-port.ts';
import { usbBulkSource } from './usb-bulk-source.ts';

/** The members of the polyfill's SerialPort that are used. Its own type is not the browser's, so it is named here. */
export interface PolyfillPort {
  readonly writable: WritableStream<Uint8Array> | null;
  open(options: { baudRate: number; bufferSize?: number }): Promise<void>;
  close(): Promise<void>;
  setSignals(signals: { dataTerminalReady?: boolean; requestToSend?: boolean }): Promise<void>;
  getInfo(): { usbVendorId?: number | undefined; usbProductId?: number | undefined };
}

type UsbListener = (event: { readonly device: USBDevice }) => void;

/** The members of `navigator.usb` that are used. */
export interface UsbLike {
  requestDevice(options: { filters: USBDeviceFilter[] }): Promise<USBDevice>;
  getDevices(): Promise<USBDevice[]>;
  addEventListener(type: 'connect' | 'disconnect', listener: UsbListener): void;
  removeEventListener(type: 'connect' | 'disconnect', listener: UsbListener): void;
}

/** Interface class of the data of a CDC device. Source: USB CDC 1.1, 4.5. */
const CDC_DATA_CLASS = 10;

/**
 * The polyfill's port over a CDC-ACM device with what it lacks of a Web Serial port: errors of `open` by the names of DOMException,
 * a stream that reads without piling up, a `disconnect` event, and a close that frees the device even when it answers no more.
 */
export function usbPort(device: USBDevice, polyfill: PolyfillPort, usb: UsbLike): PortLike {
  const endpointNumber = bulkIn(device);
  const hearing = new Map<() => void, UsbListener>();
  let readable: ReadableStream<Uint8Array> | null = null;
  const broken = () => void (readable = null);
  return {
    get readable() {
      return device.opened ? (readable ??= usbBulkSource(device, endpointNumber, broken)) : null;
    },
    get writable() {
      return polyfill.writable;
    },
    open: async (options) => {
      // The browser opens an open device again without a word; Web Serial refuses, and so does this.
      if (device.opened) throw new DOMException('the device is open already', 'InvalidStateError');
      readable = null;
      await polyfill.open(options).catch((error: unknown) => Promise.reject(namedError(error)));
    },
    close: async () => {
      // The polyfill lowers its signals first; a device that refuses that would stay open.
      await polyfill.close().catch(() => undefined);
      if (device.opened) await device.close();
    },
    setSignals: (signals) => polyfill.setSignals(signals),
    getInfo: () => polyfill.getInfo(),
    addEventListener: (type, listener) => {
      const hear: UsbListener = (event) => event.device === device && listener();
      hearing.set(listener, hear);
      usb.addEventListener(type, hear);
    },
    removeEventListener: (type, listener) => {
      const hear = hearing.get(listener);
      hearing.delete(listener);
      if (hear) usb.removeEventListener(type, hear);
    },
  };
}

const NAMES = ['NetworkError', 'NotFoundError', 'SecurityError', 'InvalidStateError'] as const;

/** The polyfill wraps what the browser said into the text of a plain Error: "Error setting up device: NetworkError: ...". */
function namedError(error: unknown): unknown {
  const text = String(error);
  const name = NAMES.find((each) => text.includes(each));
  return name ? new DOMException(text, name) : error;
}

/** The endpoint that the polyfill reads from. It has found one by the same rule when it took the device. */
function bulkIn(device: USBDevice): number {
  const alternates = (device.configurations[0]?.interfaces ?? []).flatMap(
    ({ alternates: all }) => all[0] ?? [],
  );
  const data = alternates.find(({ interfaceClass }) => interfaceClass === CDC_DATA_CLASS);
  return data?.endpoints.find(({ direction }) => direction === 'in')?.endpointNumber ?? 0;
}
