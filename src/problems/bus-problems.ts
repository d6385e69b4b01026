/** Texts of the `bus.` problems. {names} are filled from the problem's context. */
export const BUS_PROBLEMS = {
  'bus.transfer-aborted': {
    message: 'The transfer of {what} from {who} was aborted after {packets} of {expected} packets: {why}.',
    remedy:
      'A controller does so when nobody takes the message. Nothing is wrong with Meniscus or the engine; if you need this message, let Meniscus ask for it.',
  },
  'bus.transfer-packet-lost': {
    message:
      'Packet {missing} of {expected} of {what} from {who} did not arrive, so the message could not be joined.',
    remedy:
      'Wait for the next one: most controllers repeat it. If it happens often, the bridge loses frames: use a faster serial speed or a better cable.',
  },
  'bus.transfer-timed-out': {
    message: '{who} stopped sending {what} after {packets} of {expected} packets.',
    remedy:
      'Wait for the next one. If it stays so, check the plug of the bridge and the supply of the controller.',
  },
  'bus.transfer-replaced': {
    message: '{who} began something new before {what} was complete ({packets} of {expected} packets).',
    remedy:
      'Wait for the next one. If it happens often, the bridge loses frames: use a faster serial speed or a better cable.',
  },
  'bus.transfer-badly-announced': {
    message: '{who} announced {what} with a size that cannot be true.',
    remedy:
      'Nothing can be read from it. If it comes from one controller only, that controller does not keep to the standard; if from several, check the bit rate and the cable.',
  },
  'bus.transfer-not-announced': {
    message: 'Packets of {what} came from {who} without the announcement that says how long it is.',
    remedy:
      'This is usual just after connecting, when a transfer was already going on. Wait for the next one. If it happens often, the bridge loses frames.',
  },
  'bus.request-refused': {
    message: '{who} answers that it does not have this: {what}.',
    remedy: 'Ask another controller, or read it from the plate and type it in.',
  },
  'bus.request-denied': {
    message: '{who} does not allow this to be read: {what}.',
    remedy:
      'Read it from the plate and type it in, or unlock it with the means that the vehicle maker gives.',
  },
  'bus.request-busy': {
    message: '{who} cannot answer at the moment. Asked for: {what}.',
    remedy: 'Wait a few seconds and ask again.',
  },
  'bus.request-unanswered': {
    message: 'Nobody answered the request within 1.25 s. Asked for: {what}.',
    remedy:
      'Check that the key is on and that the bridge is open for sending, then ask again. Some controllers do not have it: type it in.',
  },
} as const;
