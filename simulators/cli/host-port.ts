/** The bridge's side of the line to a host. It is looked at again and again; nothing of it waits. */
export interface HostPort {
  /** Where it is, in words for the person. */
  readonly place: string;
  /** The bench need not wait for the first byte of a host: none is there that could speak. */
  readonly playsAlone: boolean;
  /** Whether a host is connected now. */
  isPresent(): boolean;
  /** Counts the hosts that connected so far; 0 where that cannot be told. */
  visits(): number;
  /** Whether what was sent last waits to be taken: no more should be sent. */
  isFull(): boolean;
  /** What the host sent since the last look. */
  hear(): Uint8Array;
  send(bytes: Uint8Array): void;
  /** Resolves when it is of no more use, with the reason where that is a failure. */
  readonly ended: Promise<string | null>;
  close(): Promise<void>;
}

/** What could be opened, or why not and what to do. */
export type OpenedPort = { readonly port: HostPort } | { readonly mistake: string };

export const NOTHING = new Uint8Array(0);

/** A failure of the system in words: code and, where it is known, what to do. */
export function failureWords(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const remedy = REMEDIES[code];
  return remedy ?? (error instanceof Error ? error.message : String(error));
}

const REMEDIES: Readonly<Record<string, string>> = {
  EADDRINUSE: 'another program listens there already; end it, or use another port (0 takes a free one)',
  EADDRNOTAVAIL: 'this machine has no such address; leave --host out, or use an address of this machine',
  ENOTFOUND: 'this machine has no such address; leave --host out, or use an address of this machine',
  EACCES: 'the system does not allow it; use a port above 1023, or ask for the right to use the device',
  EPERM: 'the system does not allow it; ask for the right to use the device',
  EBUSY: 'another program has the device; end that first',
  ENXIO: 'nothing is behind the device; plug it in first',
  EIO: 'the device is gone; plug it in and start again',
};
