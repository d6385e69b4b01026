import {
  BLUETOOTH_PROFILES,
  type CharacteristicPath,
  type CharacteristicPick,
} from './bluetooth-profiles.ts';
import { errorName, type CharacteristicLike, type GattLike } from './bluetooth-device.ts';

/** A characteristic that a person may choose for a serial line, as data for the screen. */
export interface CharacteristicOption extends CharacteristicPath {
  readonly notifies: boolean;
  readonly writes: boolean;
}

/** A characteristic that the connected device has. Good for this connection only. */
export interface FoundCharacteristic extends CharacteristicOption {
  readonly characteristicLike: CharacteristicLike;
}

/** The two ends of a serial line on the connected device. */
export interface SerialEnds {
  readonly notify: CharacteristicLike;
  readonly write: CharacteristicLike | null;
}

/**
 * All characteristics of a connected device that can notify or be written, in the services that the page may touch. A
 * device without any gives none; everything else that goes wrong rejects as the browser's error. One service after the
 * other: some stacks refuse two questions at once.
 */
export async function discover(gatt: GattLike): Promise<readonly FoundCharacteristic[]> {
  const found: FoundCharacteristic[] = [];
  for (const service of await orNone(gatt.getPrimaryServices())) {
    for (const characteristic of await orNone(service.getCharacteristics())) {
      const { notify, indicate, write, writeWithoutResponse } = characteristic.properties;
      const option = {
        service: service.uuid,
        characteristic: characteristic.uuid,
        notifies: notify || indicate,
        writes: write || writeWithoutResponse,
      };
      if (option.notifies || option.writes) found.push({ ...option, characteristicLike: characteristic });
    }
  }
  return found;
}

async function orNone<T>(list: Promise<readonly T[]>): Promise<readonly T[]> {
  try {
    return await list;
  } catch (error) {
    if (errorName(error) === 'NotFoundError') return [];
    throw error;
  }
}

/** What was found, without the browser's objects. */
export const optionsOf = (found: readonly FoundCharacteristic[]): readonly CharacteristicOption[] =>
  found.map(({ service, characteristic, notifies, writes }) => ({
    service,
    characteristic,
    notifies,
    writes,
  }));

/** The ends that a pick names, or null where the device lacks one or it cannot do what it is picked for. */
export function endsOf(
  found: readonly FoundCharacteristic[],
  { notify, write }: CharacteristicPick,
): SerialEnds | null {
  const out = found.find((one) => one.notifies && isAt(one, notify));
  if (out === undefined) return null;
  if (write === null) return { notify: out.characteristicLike, write: null };
  const into = found.find((one) => one.writes && isAt(one, write));
  return into === undefined ? null : { notify: out.characteristicLike, write: into.characteristicLike };
}

const isAt = (one: CharacteristicPath, path: CharacteristicPath): boolean =>
  one.service === path.service && one.characteristic === path.characteristic;

/** The ends of the first profile of the table that the device has, or null. */
export function knownEnds(found: readonly FoundCharacteristic[]): SerialEnds | null {
  for (const profile of BLUETOOTH_PROFILES) {
    const ends = endsOf(found, profile);
    if (ends !== null) return ends;
  }
  return null;
}
