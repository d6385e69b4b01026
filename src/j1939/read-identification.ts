import { starFields } from './bus-text.ts';
import type { BusMessage } from './bus-message.ts';
import { PGN } from './group-names.ts';
import type { ComponentIdentification, EcuIdentification, Identification } from './identification.ts';

/** Nothing known yet. */
export const UNIDENTIFIED: Identification = { vin: null, component: null, software: null, ecu: null };

/** Vehicle identification number, SPN 237 (PGN 65260): the first text, up to its `*`. Null where there is none. */
export const readVin = (data: Uint8Array): string | null =>
  starFields(data).find((field) => field !== null) ?? null;

const present = (fields: readonly (string | null)[]): string[] => fields.filter((field) => field !== null);

/**
 * Component identification (PGN 65259): make, model, serial number, unit number (SPN 586, 587, 588, 233), and what some controllers
 * send behind these. Null where all are empty.
 */
export function readComponent(data: Uint8Array): ComponentIdentification | null {
  const [make = null, model = null, serialNumber = null, unitNumber = null, ...rest] = starFields(data);
  const further = present(rest);
  if (present([make, model, serialNumber, unitNumber]).length + further.length === 0) return null;
  return { make, model, serialNumber, unitNumber, further };
}

const FIRST_PRINTABLE = 0x20;

/**
 * Software identification (PGN 65242): a number of fields, then the texts (SPN 965, 234). The number is not trusted: what texts are there
 * are given, and a controller that leaves it out begins with a printable character. Null where there are none.
 */
export function readSoftware(data: Uint8Array): readonly string[] | null {
  const counted = data.length > 0 && (data[0]! < FIRST_PRINTABLE || data[0]! > 0x7e);
  const texts = present(starFields(counted ? data.subarray(1) : data));
  return texts.length === 0 ? null : texts;
}

/** ECU identification (PGN 64965): part number, serial number, location, type, manufacturer, and later editions' further fields. */
export function readEcu(data: Uint8Array): EcuIdentification | null {
  const [partNumber = null, serialNumber = null, location = null, type = null, manufacturer = null, ...rest] =
    starFields(data);
  const further = present(rest);
  const named = present([partNumber, serialNumber, location, type, manufacturer]);
  if (named.length + further.length === 0) return null;
  return { partNumber, serialNumber, location, type, manufacturer, further };
}

/**
 * What is known of a controller with one more message of its own. A message that says nothing (all padding) takes nothing away. Messages of
 * other groups leave it as it is (the same value).
 */
export function identify(
  known: Identification,
  { pgn, data }: Pick<BusMessage, 'pgn' | 'data'>,
): Identification {
  switch (pgn) {
    case PGN.vin:
      return { ...known, vin: readVin(data) ?? known.vin };
    case PGN.component:
      return { ...known, component: readComponent(data) ?? known.component };
    case PGN.software:
      return { ...known, software: readSoftware(data) ?? known.software };
    case PGN.ecu:
      return { ...known, ecu: readEcu(data) ?? known.ecu };
    default:
      return known;
  }
}
