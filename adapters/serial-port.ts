/** What a browser tells about a port (Web Serial, SerialPortInfo). A Bluetooth service class is a UUID or its 16-bit number. */
export interface PortInfo {
  readonly usbVendorId?: number | undefined;
  readonly usbProductId?: number | undefined;
  readonly bluetoothServiceClassId?: number | string | undefined;
}

/** The members of a Web Serial port that are used, so that a fake or a polyfill can stand in. */
export interface PortLike {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  /** False where the browser knows that the device is not there. Older browsers do not tell. */
  readonly connected?: boolean;
  open(options: { baudRate: number; bufferSize?: number }): Promise<void>;
  close(): Promise<void>;
  setSignals?(signals: { dataTerminalReady?: boolean; requestToSend?: boolean }): Promise<void>;
  getInfo?(): PortInfo;
  addEventListener?(type: 'disconnect', listener: () => void): void;
  removeEventListener?(type: 'disconnect', listener: () => void): void;
}

/** A serial port and how to open it. */
export interface SerialChoice {
  readonly port: PortLike;
  readonly baudRate: number;
  readonly device: string;
  /** How the port is reached. A Bluetooth port has no serial speed of its own: any will do. */
  readonly kind: PortKind;
}

export type PortKind = 'usb' | 'bluetooth' | 'other';

export const DEFAULT_BAUD_RATE = 115_200;
