import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import { connectAndDiscover } from './bluetooth-connect.ts';
import {
  errorName,
  errorText,
  type BluetoothLike,
  type GattLike,
  type PeripheralLike,
} from './bluetooth-device.ts';
import {
  endsOf,
  knownEnds,
  optionsOf,
  type CharacteristicOption,
  type FoundCharacteristic,
} from './bluetooth-discovery.ts';
import type { BluetoothHolds } from './bluetooth-holds.ts';
import { PROFILE_SERVICES, type CharacteristicPick } from './bluetooth-profiles.ts';
import { parseUuid } from './bluetooth-uuid.ts';

/** A Bluetooth LE device and its serial line. `pick` null: the table of profiles decides; else what a person chose. */
export interface BluetoothChoice {
  readonly peripheral: PeripheralLike;
  readonly device: string;
  readonly pick: CharacteristicPick | null;
}

/** What the person does beside the browser's own chooser. Left out, a device outside the table cannot be used. */
export interface BluetoothPerson {
  /** Service UUIDs that the person typed, as typed. The page may touch only services named before choosing. */
  readonly customServices?: () => readonly string[];
  /** Lets the person pick the characteristics of a device outside the table; null where they give up. */
  readonly pickCharacteristics?: (
    options: readonly CharacteristicOption[],
  ) => Promise<CharacteristicPick | null>;
  /** What was picked by hand before for the device of this key; it goes before the table. */
  readonly remembered?: (key: string) => CharacteristicPick | null;
  /** True to ask for the characteristics even where the table knows the device or a pick is remembered. */
  readonly pickAnew?: () => boolean;
}

/** A name for a device, as well as the browser tells. */
export const nameOf = ({ name }: PeripheralLike): string => name?.trim() || 'Bluetooth device';

/**
 * Asks the person for a device, connects to it to see what it has, and where the table does not know it, asks for the
 * characteristics. A device that was chosen stays connected for a moment so that opening it takes no second connection.
 */
export async function chooseDevice(
  bluetooth: BluetoothLike,
  holds: BluetoothHolds,
  person: BluetoothPerson,
): Promise<Result<BluetoothChoice>> {
  const services = servicesToAsk(person);
  if (!services.ok) return services;
  let peripheral: PeripheralLike;
  try {
    peripheral = await bluetooth.requestDevice({
      acceptAllDevices: true,
      optionalServices: [...services.value],
    });
  } catch (error) {
    return failed(await whyNone(bluetooth, error));
  }
  const device = nameOf(peripheral);
  const { gatt } = peripheral;
  if (!gatt) return failed(problem('bluetooth.no-profile', { device }));
  const pick = await lookInto(peripheral, gatt, holds, person);
  return pick.ok ? ok({ peripheral, device, pick: pick.value }) : pick;
}

/** Services to name to the browser: those of the table and what was typed, each once. */
function servicesToAsk({ customServices }: BluetoothPerson): Result<readonly string[]> {
  const services = new Set(PROFILE_SERVICES);
  for (const typed of customServices?.() ?? []) {
    if (typed.trim() === '') continue;
    const uuid = parseUuid(typed);
    if (!uuid.ok) return uuid;
    services.add(uuid.value);
  }
  return ok([...services]);
}

async function lookInto(
  peripheral: PeripheralLike,
  gatt: GattLike,
  holds: BluetoothHolds,
  person: BluetoothPerson,
): Promise<Result<CharacteristicPick | null>> {
  const hold = holds.hold(gatt);
  const { signal } = new AbortController(); // the person waits for this one
  const found = await connectAndDiscover({ peripheral, gatt, hold, device: nameOf(peripheral), signal });
  const pick = found.ok ? await pickFor(peripheral, found.value, person) : found;
  if (pick.ok) holds.handOver(peripheral, hold);
  else hold.release();
  return pick;
}

async function pickFor(
  peripheral: PeripheralLike,
  found: readonly FoundCharacteristic[],
  person: BluetoothPerson,
): Promise<Result<CharacteristicPick | null>> {
  if (person.pickAnew?.() !== true) {
    const before = person.remembered?.(peripheral.id) ?? null;
    if (before !== null && endsOf(found, before) !== null) return ok(before);
    if (knownEnds(found) !== null) return ok(null);
  }
  // Without anything to receive from there is nothing to pick.
  if (!person.pickCharacteristics || !found.some(({ notifies }) => notifies))
    return failed(problem('bluetooth.no-profile', { device: nameOf(peripheral) }));
  const pick = await person.pickCharacteristics(optionsOf(found));
  return pick === null ? failed(problem('link.refused')) : ok(pick);
}

/**
 * Why the browser gave no device. It says NotFoundError to almost everything, and only its words tell a person who chose
 * nothing from a computer without Bluetooth (texts of Chromium, bluetooth_error.cc); asking it once more is surer.
 */
async function whyNone(bluetooth: BluetoothLike, error: unknown): Promise<Problem> {
  const detail = errorText(error);
  if (errorName(error) === 'AbortError') return problem('link.refused');
  if (errorName(error) !== 'NotFoundError') return problem('bluetooth.not-allowed', { detail });
  if (/permission|disabled/i.test(detail)) return problem('bluetooth.not-allowed', { detail });
  if (/not available|not supported/i.test(detail)) return problem('bluetooth.off');
  const present = await (bluetooth.getAvailability?.() ?? Promise.resolve(true)).catch(() => true);
  return problem(present ? 'link.refused' : 'bluetooth.off');
}
