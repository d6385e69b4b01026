/** Texts of the `wire.` problems. {names} are filled from the problem's context. */
export const WIRE_PROBLEMS = {
  'wire.no-time': {
    message: 'This log carries no time stamps.',
    remedy:
      'An average over time cannot be formed. Give the interval between two speed readings, or record the log again with time stamps.',
  },
  'wire.listen-only-refused': {
    message: 'The bridge would not open in listen-only mode. Its version text is: {version}.',
    remedy:
      'Use a bridge that has listen-only mode. Or switch listen-only off in the settings: the bridge then acknowledges frames on the engine bus.',
  },
  'wire.listen-only-unconfirmed': {
    message:
      'The bridge did not confirm listen-only mode, so it may acknowledge frames on the engine bus, or not be open at all. Its version text is: {version}.',
    remedy:
      'If values come, the bridge can be used as it is. To be certain that it only listens, use a bridge that confirms it. If no values come, unplug the bridge, plug it in again and connect, or use another one.',
  },
  'wire.bit-rate-refused': {
    message: 'The bridge would not take the bit rate {bitRate} bit/s.',
    remedy: 'Unplug the bridge, plug it in again and connect. If it stays so, choose another bit rate.',
  },
  'wire.open-refused': {
    message: 'The bridge would not open the bus.',
    remedy: 'Unplug the bridge, plug it in again and connect.',
  },
} as const;
