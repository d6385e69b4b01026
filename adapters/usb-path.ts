/** What the browser has for serial bridges on USB. */
export interface SerialPaths {
  readonly serial: boolean;
  readonly usb: boolean;
  readonly android: boolean;
}

/**
 * The way to a USB serial bridge that is taken when the person does not choose one; null where this browser has none.
 * Web Serial wherever it is, since it works through the system's drivers and so with every kind of bridge. WebUSB where there
 * is no Web Serial, and on Android: some versions there have `navigator.serial` for Bluetooth only, which cannot be told
 * from outside, while WebUSB reaches CDC-ACM bridges on all. Both can be chosen by hand wherever they exist.
 */
export function usualSerialPath({ serial, usb, android }: SerialPaths): 'web-serial' | 'web-usb' | null {
  if (usb && (android || !serial)) return 'web-usb';
  return serial ? 'web-serial' : null;
}
