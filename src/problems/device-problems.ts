/** Texts of the `device.` problems. {names} are filled from the problem's context. */
export const DEVICE_PROBLEMS = {
  'device.no-web-usb': {
    message: 'This browser cannot reach USB devices.',
    remedy:
      'Open this page in a browser that has WebUSB, or use one of the other ways that this page offers to connect.',
  },
  'device.usb-driver': {
    message: 'A driver of this computer holds {device}, so the page cannot reach it over USB directly.',
    remedy: 'Choose "Serial port" instead: that way goes through the driver.',
  },
  'device.usb-not-serial': {
    message: 'This USB device does not keep to the standard class for serial bridges (CDC-ACM).',
    remedy:
      'On a computer choose "Serial port" instead, which goes through the driver of the bridge. On a phone or tablet use a bridge with CDC-ACM, Bluetooth or Wi-Fi.',
  },
  'device.not-loaded': {
    message: 'A part of this page that this source needs could not be loaded ({detail}).',
    remedy: 'Connect to the network once, reload the page and try again.',
  },
  'device.held-by-tab': {
    message: 'Another tab of Meniscus has this device open since {since}, for "{title}".',
    remedy: 'Go on in that tab, or disconnect there and press Connect here.',
  },
  'device.no-web-socket': {
    message: 'This browser cannot reach bridges on the network.',
    remedy: 'Open this page in a current browser, or connect the bridge by cable.',
  },
  'device.socket-address': {
    message: '"{typed}" is not the address of a bridge.',
    remedy: 'Type it as ws://name:port/path, or just name:port, as the papers of the bridge give it.',
  },
  'device.socket-scheme': {
    message: '"{typed}" is the address of a page, not of a WebSocket.',
    remedy: 'If the bridge offers a WebSocket there, type {better} instead.',
  },
  'device.socket-mixed': {
    message: 'A page that came over https may not open an unencrypted connection to {host}.',
    remedy:
      'Use its wss:// address if the bridge has one. Else open Meniscus from http://localhost on this computer, or connect the bridge by cable or Bluetooth.',
  },
  'device.socket-forbidden': {
    message: 'The browser does not allow a connection to {device} ({detail}).',
    remedy: 'Check the port in the address: browsers keep some ports closed. Set the bridge to another one.',
  },
  'device.socket-refused': {
    message: '{device} ended the connection: {why}.',
    remedy: 'Check the address and the settings of the bridge; it may be in use by somebody else.',
  },
  'device.socket-protocol': {
    message: '{device} and this page do not understand each other: {why}.',
    remedy: 'Check that the address is that of a bridge that sends CAN lines or readings, and its settings.',
  },
  'device.typed-none': {
    message: 'No crank was typed.',
    remedy: 'Type for each crank how long the starter turned and the average speed meanwhile.',
  },
  'device.typed-seconds': {
    message: 'Crank {row}: {seconds} s cannot be the time of a crank; it must lie from {least} to {most} s.',
    remedy: 'Type how long the starter turned, in seconds.',
  },
  'device.typed-rpm': {
    message:
      'Crank {row}: {rpm} rpm cannot be a cranking speed; it must lie above {above} and below {below} rpm.',
    remedy: 'Type the average speed of the engine while the starter turned it. Above that it runs by itself.',
  },
  'device.typed-rest': {
    message: 'Crank {row}: {seconds} s cannot be the pause after it; it must lie from 1 to {most} s.',
    remedy: 'Type how long the starter rested before the next crank, in seconds, or leave it out.',
  },
  'device.typed-value': {
    message: '{value} cannot be; it was not taken.',
    remedy: 'Type the number again as the instrument shows it.',
  },
  'device.typed-order': {
    message: 'The number for {seconds} s comes after one for {last} s; it was not taken.',
    remedy: 'Type the numbers in the order in which they were read.',
  },
  'device.typed-ended': {
    message: 'Nothing more can be typed here ({detail}).',
    remedy: 'Start again. What was typed so far is kept.',
  },
} as const;
