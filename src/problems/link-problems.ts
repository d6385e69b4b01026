/** Texts of the `link.` problems. {names} are filled from the problem's context. */
export const LINK_PROBLEMS = {
  'link.refused': {
    message: 'No device was chosen.',
    remedy: 'Press Connect and pick the bridge from the list.',
  },
  'link.port-busy': {
    message:
      'Another program or another tab is using this port, or this computer does not let the browser open it.',
    remedy:
      'Close it there, then press Connect again. If nothing else uses it, unplug the bridge and plug it in again; on Linux your account also needs the right to use serial ports.',
  },
  'link.open-failed': {
    message: '{device} could not be opened ({detail}).',
    remedy:
      'Check that it is plugged in or switched on, within reach, and that its address or baud rate is right; then press Connect again.',
  },
  'link.lost': {
    message: 'The connection to {device} was lost.',
    remedy: 'Check the cable and the bridge, then press Connect. What was received is kept.',
  },
  'link.reopening': {
    message:
      'The connection to {device} was lost. Meniscus is trying to open it again; the recording goes on.',
    remedy: 'Check the cable and the bridge. What was received is kept, and the hole is marked.',
  },
  'link.no-web-serial': {
    message: 'This browser cannot reach serial ports.',
    remedy:
      'Open this page in a desktop browser that has Web Serial, or record a log with another program and drop the file here.',
  },
  'link.insecure-page': {
    message:
      'This page was not opened over a secure address, so the browser keeps serial ports and USB devices from it.',
    remedy: 'Open it by its https address, or as http://localhost on this computer.',
  },
  'link.not-allowed': {
    message: 'The browser does not allow this page to ask for a device ({detail}).',
    remedy: 'Allow serial ports and USB devices for this page in the browser, then press Connect.',
  },
  'link.framing': {
    message: 'Bytes arrived that did not fit the baud rate; some were lost here.',
    remedy: 'If this comes again and again, choose the baud rate that the bridge is set to.',
  },
  'link.parity': {
    message: 'Bytes arrived with a wrong parity; some were lost here.',
    remedy: 'If this comes again and again, check the baud rate, the plug and the ground of the bridge.',
  },
  'link.break': {
    message: 'The serial line was held low for a while; something may be lost here.',
    remedy: 'Check the plug of the bridge and its supply: it may have restarted.',
  },
  'link.overrun': {
    message: 'Bytes came faster than they were fetched; some were lost here.',
    remedy: 'Close other heavy programs and tabs. What was lost counts as a hole in the speed.',
  },
  'link.stream-error': {
    message: 'Reading from {device} was disturbed ({detail}); something may be lost here.',
    remedy: 'If this comes again and again, check the cable and the bridge.',
  },
  'link.closed': {
    message: 'Nothing can be sent: the connection is closed.',
    remedy: 'Press Connect first.',
  },
  'link.write-failed': {
    message: 'Sending to {device} did not succeed ({detail}).',
    remedy: 'Check the cable and the bridge, then press Connect again.',
  },
  'link.gzip-damaged': {
    message: 'The packed file {name} is damaged or cut short ({detail}).',
    remedy: 'Copy the file again from the logger, or unpack it yourself and drop the unpacked file.',
  },
  'link.gzip-too-large': {
    message: 'The packed file {name} holds more than {limitMb} MB.',
    remedy: 'Unpack it yourself, cut out the minutes around the cranks and drop that part.',
  },
  'link.file-unreadable': {
    message: 'The file {name} could not be read ({detail}).',
    remedy: 'Copy the file to this computer first, then choose it again.',
  },
  'link.replay-unreadable': {
    message: 'The recording could not be read further ({detail}).',
    remedy: 'Open the recording again. What was replayed so far stands.',
  },
} as const;
