import type { BluetoothLike } from '../../adapters/bluetooth-device.ts';
import type { UsbLike } from '../../adapters/usb-port.ts';
import type { SerialLike } from '../../adapters/web-serial.ts';
import type { ChannelLike } from './port-holders.ts';
import type { WakeLockLike } from './wake-lock.ts';

/** What this browser offers that Meniscus uses: the one place besides adapters that looks at `navigator`. */
export interface Capabilities {
  readonly serial: SerialLike | undefined;
  readonly usb: UsbLike | undefined;
  readonly bluetooth: BluetoothLike | undefined;
  readonly webSocket: boolean;
  /** The page came over https or from this computer: without it a browser keeps all devices away. */
  readonly secure: boolean;
  readonly android: boolean;
  readonly wakeLock: WakeLockLike | undefined;
  /** A channel of that name to the other tabs of this page; null where there is none. Whoever asks for it closes it. */
  channel(name: string): ChannelLike | null;
  /** Puts text on the clipboard. False where the browser refuses. */
  copy(text: string): Promise<boolean>;
  /** Asks the browser not to clear what is kept here when space runs short. True when it promised. */
  askToKeep(): Promise<boolean>;
}

export function browserCapabilities(): Capabilities {
  const {
    serial,
    usb,
    bluetooth,
    clipboard,
    storage,
    wakeLock,
    userAgent = '',
  } = navigator as Partial<Navigator>;
  return {
    serial: serial as SerialLike | undefined,
    usb: usb as UsbLike | undefined,
    bluetooth: bluetooth as BluetoothLike | undefined,
    webSocket: typeof WebSocket !== 'undefined',
    secure: isSecureContext,
    android: /android/i.test(userAgent),
    wakeLock,
    channel: (name) => (typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(name)),
    copy: async (text) => {
      try {
        await clipboard?.writeText(text);
        return clipboard !== undefined;
      } catch {
        return false;
      }
    },
    askToKeep: async () => (await storage?.persist?.()) ?? false,
  };
}
