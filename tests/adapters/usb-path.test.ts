import { expect, test } from 'vitest';
import { usualSerialPath } from '../../adapters/usb-path.ts';

test.each([
  [{ serial: true, usb: true, android: false }, 'web-serial'],
  [{ serial: true, usb: false, android: false }, 'web-serial'],
  [{ serial: false, usb: true, android: false }, 'web-usb'],
  [{ serial: false, usb: false, android: false }, null],
  [{ serial: true, usb: true, android: true }, 'web-usb'], // navigator.serial may be for Bluetooth only there
  [{ serial: true, usb: false, android: true }, 'web-serial'],
  [{ serial: false, usb: true, android: true }, 'web-usb'],
  [{ serial: false, usb: false, android: true }, null],
] as const)('with %j a USB serial bridge is reached by %s', (paths, path) => {
  expect(usualSerialPath(paths)).toBe(path);
});
