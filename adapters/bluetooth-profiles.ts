import { fullUuid } from './bluetooth-uuid.ts';

/** One characteristic in one service, by their 128-bit UUIDs in lower case. */
export interface CharacteristicPath {
  readonly service: string;
  readonly characteristic: string;
}

/** Where a serial line over Bluetooth comes out and goes in. `write` is null where nothing can be sent. Plain data. */
export interface CharacteristicPick {
  readonly notify: CharacteristicPath;
  readonly write: CharacteristicPath | null;
}

/** A pick that is known beforehand. `source` says where its numbers were read. */
export interface BluetoothProfile extends CharacteristicPick {
  readonly id: string;
  readonly source: string;
}

const UART = '6e400001-b5a3-f393-e0a9-e50e24dcca9e';
const UART_WRITE = '6e400002-b5a3-f393-e0a9-e50e24dcca9e';
const UART_NOTIFY = '6e400003-b5a3-f393-e0a9-e50e24dcca9e';
const TRANSPARENT = '49535343-fe7d-4ae5-8fa9-9fafd205e455';
const TRANSPARENT_TX = '49535343-1e4d-4bd9-ba61-23c647249616';
const TRANSPARENT_RX = '49535343-8841-43f4-a8d4-ecbe34729bb3';

const at = (service: string, characteristic: string): CharacteristicPath => ({ service, characteristic });
const short = (service: number, characteristic: number): CharacteristicPath =>
  at(fullUuid(service), fullUuid(characteristic));

/**
 * UART-style services that generic Bluetooth LE serial modules and microcontroller sketches use, the surest first. No
 * standard defines any of them; where the same service is wired in two ways, both stand here, and what a characteristic
 * can do (notify, write) decides. A service with one characteristic both ways comes after its forms with two.
 */
export const BLUETOOTH_PROFILES: readonly BluetoothProfile[] = [
  {
    id: 'uart',
    notify: at(UART, UART_NOTIFY),
    write: at(UART, UART_WRITE),
    source: 'bleak, examples/uart_service.py; MicroPython, examples/bluetooth/ble_simple_peripheral.py',
  },
  {
    id: 'uart, crossed',
    notify: at(UART, UART_WRITE),
    write: at(UART, UART_NOTIFY),
    source: 'open terminal programs for Bluetooth LE try both ways round; common practice',
  },
  {
    id: 'transparent uart',
    notify: at(TRANSPARENT, TRANSPARENT_TX),
    write: at(TRANSPARENT, TRANSPARENT_RX),
    source: 'published module manual, appendix "Transparent UART Service UUIDs", table of properties',
  },
  {
    id: 'transparent uart, one both ways',
    notify: at(TRANSPARENT, TRANSPARENT_TX),
    write: at(TRANSPARENT, TRANSPARENT_TX),
    source: 'the same table: its transmit characteristic may be written too',
  },
  {
    id: 'FFE0, FFE1 to us, FFE2 from us',
    notify: short(0xffe0, 0xffe1),
    write: short(0xffe0, 0xffe2),
    source: 'found in several public repositories for serial modules; common practice',
  },
  {
    id: 'FFE0, FFE2 to us, FFE1 from us',
    notify: short(0xffe0, 0xffe2),
    write: short(0xffe0, 0xffe1),
    source: 'found in several public repositories for serial modules; common practice',
  },
  {
    id: 'FFE0, FFE1 both ways',
    notify: short(0xffe0, 0xffe1),
    write: short(0xffe0, 0xffe1),
    source: 'ble-serial, ble_serial/bluetooth/constants.py',
  },
  {
    id: 'FFE0, FFE4 to us, FFE5, FFE9 from us',
    notify: short(0xffe0, 0xffe4),
    write: short(0xffe5, 0xffe9),
    source: 'two services, one a direction; from memory',
  },
  {
    id: 'FFF0, FFF1 to us, FFF2 from us',
    notify: short(0xfff0, 0xfff1),
    write: short(0xfff0, 0xfff2),
    source: 'found in several public repositories for serial modules; common practice',
  },
  {
    id: 'FFF0, FFF2 to us, FFF1 from us',
    notify: short(0xfff0, 0xfff2),
    write: short(0xfff0, 0xfff1),
    source: 'found in a public repository for a serial module; common practice',
  },
  {
    id: 'FF00, FF01 to us, FF02 from us',
    notify: short(0xff00, 0xff01),
    write: short(0xff00, 0xff02),
    source: 'ble-serial, ble_serial/bluetooth/constants.py (characteristics); the service from memory',
  },
  {
    id: 'ABF0, ABF2 to us, ABF1 from us',
    notify: short(0xabf0, 0xabf2),
    write: short(0xabf0, 0xabf1),
    source:
      'public example of a serial-port server over GATT (spp_service_uuid 0xABF0), for microcontrollers',
  },
  {
    id: 'ABF0, ABF1 both ways',
    notify: short(0xabf0, 0xabf1),
    write: short(0xabf0, 0xabf1),
    source: 'the same example for another host stack (BLE_SVC_SPP_CHR_UUID16 0xABF1)',
  },
];

const services = BLUETOOTH_PROFILES.flatMap(({ notify, write }) => [notify.service, write?.service]);

/** Every service of the table once: a page may only touch services that it named when it asked for the device. */
export const PROFILE_SERVICES: readonly string[] = [
  ...new Set(services.filter((service) => service !== undefined)),
];
