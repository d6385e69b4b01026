import { z } from 'zod';
import { ADAPTER_IDS } from '../link/adapter.ts';
import { ok, type Result } from '../problems/result.ts';
import { StoredFoundBridge } from '../recordings/stored-bridge.ts';
import type { Database, StoreReader } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';

/**
 * A device that was open in this browser and what worked with it, by the key that its adapter gives it.
 * `found` null: it was opened, but nothing was recognised. `choice` is plain data of its adapter by which it can be chosen again
 * without asking (a WebSocket address, a Bluetooth profile picked by hand); nobody else looks into it.
 */
export const RememberedDevice = z.strictObject({
  key: z.string().min(1),
  adapter: z.enum(ADAPTER_IDS),
  name: z.string(),
  found: StoredFoundBridge.nullable(),
  choice: z.json(),
  lastUsedIso: z.iso.datetime({ offset: true }),
});
export type RememberedDevice = z.infer<typeof RememberedDevice>;

/** The devices of this browser. Nothing here fails: what cannot be kept holds until the page is left. */
export interface DeviceMemory {
  /** Puts the device first, in place of what was known of it. The device used longest ago is forgotten beyond 20. */
  remember(device: RememberedDevice): Promise<void>;
  /** What is known of a device; null where nothing is, or where the device cannot be told from others (key null). */
  recall(key: string | null): Promise<RememberedDevice | null>;
  /** All, the one used last first. */
  list(): Promise<readonly RememberedDevice[]>;
  forget(key: string): Promise<void>;
}

const ID = 'devices';
const MOST = 20;
const Kept = z.object({ formatVersion: z.literal(1), devices: z.array(z.unknown()) });
/** Steps of the format, n to n + 1. */
const STEPS: readonly FormatStep[] = [];

type Devices = readonly RememberedDevice[];

/** @param database null: nothing is kept beyond this page. */
export function deviceMemory(database: Database | null): DeviceMemory {
  let held: Devices = [];
  let turn: Promise<unknown> = Promise.resolve();
  /** One after the other, each on what is kept now: another tab may have remembered something meanwhile. */
  const inTurn = (
    work: () => Promise<Result<Devices> | undefined>,
    otherwise: (before: Devices) => Devices,
  ) => {
    const outcome = turn.then(async () => {
      const kept = await work();
      held = kept?.ok ? kept.value : otherwise(held);
      return held;
    });
    turn = outcome;
    return outcome;
  };
  const all = () =>
    inTurn(
      async () => database?.read(['settings'], keptDevices),
      (before) => before,
    );
  const change = async (step: (before: Devices) => Devices) => {
    const written = async () =>
      database?.write(['settings'], async (writer) => {
        const before = await keptDevices(writer);
        if (!before.ok) return before; // of a newer Meniscus: not written over
        const devices = step(before.value);
        await writer.put('settings', { id: ID, formatVersion: STEPS.length + 1, devices });
        return ok(devices);
      });
    await inTurn(written, step);
  };
  return {
    remember: (device) => change((before) => [device, ...without(before, device.key)].slice(0, MOST)),
    recall: async (key) => (await all()).find((device) => device.key === key) ?? null,
    list: all,
    forget: (key) => change((before) => without(before, key)),
  };
}

const without = (devices: Devices, key: string): Devices => devices.filter((device) => device.key !== key);

/** What is kept. A damaged entry is left out and takes none of the others with it; what is no list at all is an empty one. */
async function keptDevices(reader: StoreReader): Promise<Result<Devices>> {
  const document = migrate('Device list', await reader.get('settings', ID), STEPS);
  if (!document.ok) return document;
  const kept = Kept.safeParse(document.value);
  if (!kept.success) return ok([]);
  const read = kept.data.devices.map((entry) => RememberedDevice.safeParse(entry));
  return ok(read.flatMap((entry) => (entry.success ? [entry.data] : [])));
}
