/** Texts of the `device.` problems. {names} are filled from the problem's context. */
export const DEVICE_PROBLEMS = {
  'device.absent': {
    message: '{device} does not answer: it is unplugged, switched off or out of reach.',
    remedy: 'Plug it in or switch it on and come near, then press Connect again.',
  },
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
} as const;
