/**
 * The members of Web Bluetooth that are used, so that a fake can stand in. Names follow the specification (Web Bluetooth,
 * W3C Community Group draft); members that only some browsers have are optional.
 */
export interface CharacteristicLike {
  readonly uuid: string;
  readonly properties: {
    readonly write: boolean;
    readonly writeWithoutResponse: boolean;
    readonly notify: boolean;
    readonly indicate: boolean;
  };
  /** What the last notification brought. */
  readonly value?: DataView | undefined;
  /** Largest write without response, bytes; a proposal that few browsers have (pull request 672 of the specification). */
  readonly maxWriteWithoutResponseSize?: number;
  startNotifications(): Promise<unknown>;
  stopNotifications(): Promise<unknown>;
  writeValueWithResponse?(value: Uint8Array<ArrayBuffer>): Promise<void>;
  writeValueWithoutResponse?(value: Uint8Array<ArrayBuffer>): Promise<void>;
  /** The older way of writing; the browser decides about the response. */
  writeValue?(value: Uint8Array<ArrayBuffer>): Promise<void>;
  addEventListener(type: 'characteristicvaluechanged', listener: () => void): void;
  removeEventListener(type: 'characteristicvaluechanged', listener: () => void): void;
}

export interface ServiceLike {
  readonly uuid: string;
  getCharacteristics(): Promise<readonly CharacteristicLike[]>;
}

export interface GattLike {
  readonly connected: boolean;
  connect(): Promise<unknown>;
  disconnect(): void;
  getPrimaryServices(): Promise<readonly ServiceLike[]>;
}

type PeripheralEvent = 'gattserverdisconnected' | 'advertisementreceived';

/** A Bluetooth device that the person let this page use. */
export interface PeripheralLike {
  readonly id: string;
  readonly name?: string | undefined;
  readonly gatt?: GattLike | undefined;
  watchAdvertisements?(options: { signal: AbortSignal }): Promise<void>;
  addEventListener(type: PeripheralEvent, listener: () => void): void;
  removeEventListener(type: PeripheralEvent, listener: () => void): void;
}

/** The members of `navigator.bluetooth` that are used. */
export interface BluetoothLike {
  requestDevice(options: { acceptAllDevices: true; optionalServices: string[] }): Promise<PeripheralLike>;
  getDevices?(): Promise<readonly PeripheralLike[]>;
  getAvailability?(): Promise<boolean>;
}

/** The name of what a browser rejected with, '' where it has none. */
export function errorName(error: unknown): string {
  return typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';
}

/** The text of what a browser rejected with. */
export const errorText = (error: unknown): string => (error instanceof Error ? error.message : String(error));
