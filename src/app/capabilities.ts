import type { SerialLike } from '../../adapters/web-serial.ts';

/** What this browser offers that Meniscus uses: the one place besides adapters that looks at `navigator`. */
export interface Capabilities {
  readonly serial: SerialLike | undefined;
  /** Asks the browser not to clear what is kept here when space runs short. True when it promised. */
  askToKeep(): Promise<boolean>;
}

export function browserCapabilities(): Capabilities {
  const { serial, storage } = navigator as Partial<Navigator>;
  return {
    serial: serial as SerialLike | undefined,
    askToKeep: async () => (await storage?.persist?.()) ?? false,
  };
}
