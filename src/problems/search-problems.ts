/** Texts of the `search.` problems. {names} are filled from the problem's context. */
export const SEARCH_PROBLEMS = {
  'search.nothing': {
    message: 'Nothing comes from the bridge, and it answers nothing at any serial speed.',
    remedy:
      'Check that the bridge has power and is the one that was chosen. Meniscus keeps listening and goes on by itself as soon as something comes.',
  },
  'search.unintelligible': {
    message: 'Bytes come from the bridge, but they are in no form that Meniscus reads.',
    remedy:
      'Look at the raw monitor. If it shows readable lines, set the board to print readings as the README describes; if it shows junk, choose the serial speed that the bridge is set to.',
  },
  'search.bus-silent': {
    message: 'The bridge answers, but nothing comes from the engine bus.',
    remedy:
      'Turn the key on. If it is on, check the plug at the diagnostic socket. Meniscus goes on by itself as soon as something comes.',
  },
  'search.bus-errors': {
    message:
      'The bridge hears the engine bus, but only errors at each bit rate that Meniscus knows how to try.',
    remedy:
      'Check the plug and that the two bus wires are not swapped. If the bus has another bit rate, use a bridge that is set to it by itself.',
  },
  'search.bit-rate-needed': {
    message:
      'This bridge has no listen-only mode, so its bit rate cannot be searched for: a wrong one would disturb the engine bus. Its version text is: {version}.',
    remedy:
      'Choose the bit rate by hand (most engine buses run at 250 or 500 kbit/s), or use a bridge that has listen-only mode.',
  },
  'search.reopened': {
    message: 'The connection to {device} is back. Nothing was received for {seconds} s.',
    remedy: 'Go on. A crank that fell into the hole is marked; repeat it.',
  },
  'search.ask-not-possible': {
    message: 'Nothing can be asked over this connection: {why}',
    remedy: 'Wait until values come from the engine through a bridge that can send, then ask again.',
  },
  'search.ask-refused': {
    message: 'The bridge would not send the request.',
    remedy: 'Ask again. If it stays so, note the numbers from the plate on the engine instead.',
  },
} as const;
