/** Texts of the `bluetooth.` problems. {names} are filled from the problem's context. */
export const BLUETOOTH_PROBLEMS = {
  'bluetooth.no-web-bluetooth': {
    message: 'This browser cannot reach Bluetooth LE devices.',
    remedy:
      'Open this page in a browser that has Web Bluetooth, on a desktop computer or an Android phone. A bridge that also has a cable or a classic Bluetooth serial port can be opened as a serial port.',
  },
  'bluetooth.insecure-page': {
    message: 'This page was not opened over a secure address, so the browser keeps Bluetooth from it.',
    remedy: 'Open it by its https address, or as http://localhost on this computer.',
  },
  'bluetooth.off': {
    message: 'Bluetooth is switched off on this computer, or it has no Bluetooth LE.',
    remedy:
      'Switch Bluetooth on in the settings of the system, or plug in a Bluetooth LE adapter, then press Connect.',
  },
  'bluetooth.not-allowed': {
    message: 'The browser does not let this page ask for Bluetooth devices ({detail}).',
    remedy:
      'Allow Bluetooth for this page in the browser, and for the browser in the settings of the system, then press Connect.',
  },
  'bluetooth.bad-uuid': {
    message: '"{typed}" is not the number of a Bluetooth service.',
    remedy:
      'Type it as the papers of the device give it: 4 hex digits such as FFE0, or 32 with dashes such as 6e400001-b5a3-f393-e0a9-e50e24dcca9e.',
  },
  'bluetooth.connect-failed': {
    message: '{device} was chosen but could not be reached over Bluetooth ({detail}).',
    remedy:
      'Check that it has power, is near and is not connected to a phone or another computer, then press Connect.',
  },
  'bluetooth.connect-timeout': {
    message: '{device} did not answer over Bluetooth within {limitS} s.',
    remedy:
      'Check that it has power, is near and is not connected to a phone or another computer. If it stays so, switch it off and on, then press Connect.',
  },
  'bluetooth.already-open': {
    message: '{device} is already open on this page.',
    remedy: 'Press Disconnect first, then Connect.',
  },
  'bluetooth.no-profile': {
    message: '{device} has no serial line over Bluetooth LE that Meniscus knows. It may not be a bridge.',
    remedy:
      'Choose another device. If it is the right one, look up the number (UUID) of its serial service in its papers, type it under "Bluetooth service" and choose the device again.',
  },
  'bluetooth.pick-missing': {
    message: '{device} no longer has the characteristics that were chosen for it by hand.',
    remedy: 'Press Connect and choose the device again, then choose its characteristics anew.',
  },
  'bluetooth.services-failed': {
    message: '{device} is connected but would not start its serial line ({detail}).',
    remedy:
      'Switch the bridge off and on, then press Connect. If the system lists it as paired, remove it there: some bridges work only without.',
  },
} as const;
