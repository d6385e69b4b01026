import type { SerialLike } from '../../adapters/web-serial.ts';
import type { ChannelLike } from './port-holders.ts';
import type { WakeLockLike } from './wake-lock.ts';

/** What this browser offers that Meniscus uses: the one place besides adapters that looks at `navigator`. */
export interface Capabilities {
  readonly serial: SerialLike | undefined;
  readonly wakeLock: WakeLockLike | undefined;
  /** A channel of that name to the other tabs of this page; null where there is none. Whoever asks for it closes it. */
  channel(name: string): ChannelLike | null;
  /** Asks the browser not to clear what is kept here when space runs short. True when it promised. */
  askToKeep(): Promise<boolean>;
}

export function browserCapabilities(): Capabilities {
  const { serial, storage, wakeLock } = navigator as Partial<Navigator>;
  return {
    serial: serial as SerialLike | undefined,
    wakeLock,
    channel: (name) => (typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(name)),
    askToKeep: async () => (await storage?.persist?.()) ?? false,
  };
}
