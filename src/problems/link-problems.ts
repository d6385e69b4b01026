/** Texts of the `link.` problems. {names} are filled from the problem's context. */
export const LINK_PROBLEMS = {
  'link.refused': {
    message: 'No device was chosen.',
    remedy: 'Press Connect and pick the bridge from the list.',
  },
  'link.port-busy': {
    message: 'Another program or another tab is using this port.',
    remedy: 'Close it there, then press Connect again.',
  },
  'link.lost': {
    message: 'The connection to {device} was lost.',
    remedy: 'Check the cable and the bridge, then press Connect. What was received is kept.',
  },
} as const;
