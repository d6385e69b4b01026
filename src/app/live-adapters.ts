import type { CharacteristicOption } from '../../adapters/bluetooth-discovery.ts';
import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';
import type { Millis } from '../quantities/time.ts';
import type { Capabilities } from './capabilities.ts';
import type { DeviceMemory } from './device-memory.ts';
import type { LiveAdapter, LiveId } from './live-sources.ts';
import type { PickDesk } from './picking.ts';

export interface LiveAdapterMeans {
  readonly capabilities: Capabilities;
  readonly clock: () => Millis;
  readonly memory: DeviceMemory;
  readonly picks: PickDesk<CharacteristicOption, CharacteristicPick>;
}

/** Loads the adapter of each kind of live source once, with what it needs of this page. */
export function liveAdapters(means: LiveAdapterMeans) {
  const loaded = new Map<LiveId, Promise<LiveAdapter>>();
  const typed = new Map<LiveId, string | null>();
  return (id: LiveId, typedNow: string | null): Promise<LiveAdapter> => {
    if (typedNow !== null) typed.set(id, typedNow);
    const adapter = loaded.get(id) ?? LOAD[id](means, () => typed.get(id) ?? null);
    loaded.set(id, adapter);
    return adapter;
  };
}

type Load = (means: LiveAdapterMeans, typed: () => string | null) => Promise<LiveAdapter>;

const LOAD: Readonly<Record<LiveId, Load>> = {
  'web-serial': async ({ capabilities, clock }) => {
    const { webSerialAdapter } = await import('../../adapters/web-serial.ts');
    return webSerialAdapter(capabilities.serial, clock) as LiveAdapter;
  },
  'web-usb': async ({ capabilities, clock }) => {
    const { webUsbAdapter } = await import('../../adapters/web-usb.ts');
    return webUsbAdapter(capabilities.usb, clock) as LiveAdapter;
  },
  'web-bluetooth': async ({ capabilities, clock, memory, picks }, typed) => {
    const { webBluetoothAdapter } = await import('../../adapters/web-bluetooth.ts');
    const before = await picksOf(memory);
    const person = {
      customServices: () => [typed() ?? ''],
      pickCharacteristics: picks.ask,
      remembered: (key: string) => before.get(key) ?? null,
    };
    return webBluetoothAdapter(capabilities.bluetooth, clock, isSecureContext, person) as LiveAdapter;
  },
  'web-socket': async ({ clock, memory }, typed) => {
    const { webSocketAdapter } = await import('../../adapters/web-socket.ts');
    return webSocketAdapter({
      clock,
      ask: () => Promise.resolve(typed()),
      securePage: location.protocol === 'https:',
      known: async () =>
        (await memory.list()).flatMap(({ adapter, key }) => (adapter === 'web-socket' ? [key] : [])),
    }) as LiveAdapter;
  },
};

/** The characteristics picked by hand in earlier visits, by device. */
async function picksOf(memory: DeviceMemory): Promise<ReadonlyMap<string, CharacteristicPick>> {
  const devices = await memory.list();
  return new Map(
    devices.flatMap(({ adapter, key, choice }) =>
      adapter === 'web-bluetooth' && choice !== null ? [[key, choice as unknown as CharacteristicPick]] : [],
    ),
  );
}
