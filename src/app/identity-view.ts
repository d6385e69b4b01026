import type { BusFacts } from '../j1939/bus-facts.ts';
import { CHECK_DIGIT_NOTE, vinCheckDigit } from '../j1939/vin-check-digit.ts';
import type { IdentityValue, RunValues } from '../jobs/run-entries.ts';
import type { IdentityField } from '../jobs/run-entry.ts';
import type {
  IdentityEntry as CardEntry,
  IdentityField as CardField,
  IdentityChange,
} from '../ui/identity-card.ts';
import type { IdentityProposal } from './bus-identity.ts';
import { controllerName } from './origin-words.ts';
import type { WantedEntry } from './parts/entry-wanted.ts';

/** The card's fields by the run's; software is shown but not kept, since nothing is judged by it. */
const CARD_FIELDS: readonly (readonly [CardField, IdentityField])[] = [
  ['vin', 'vin'],
  ['make', 'make'],
  ['model', 'model'],
  ['engineSerial', 'serialNumber'],
  ['unitNumber', 'unitNumber'],
];

/**
 * What the identity card shows of a run: what holds in it, with what each controller says to choose from, and what is to be said of it. Where
 * controllers differ and nothing was taken the value stays empty, so that the card asks.
 */
export function identityCard(
  { identity, heardIdentity }: Pick<RunValues, 'identity' | 'heardIdentity'>,
  proposals: readonly IdentityProposal[],
  facts: Pick<BusFacts, 'identifications'> | null,
): readonly CardEntry[] {
  const kept = CARD_FIELDS.map(([field, own]): CardEntry => {
    const said = proposals.find((proposal) => proposal.field === own)?.said ?? [];
    return {
      field,
      ...heldValue(identity.get(own)),
      choices: said.map(({ value, origin }) => ({ value, from: controllerName(origin) })),
      ...noteOn(field, identity.get(own), heardIdentity.get(own)),
    };
  });
  return [...kept, softwareEntry(facts)];
}

function heldValue(held: IdentityValue | undefined): Pick<CardEntry, 'value' | 'origin' | 'from'> {
  if (!held) return { value: '', origin: null, from: '' };
  const { value, from, origin } = held;
  return { value, origin: from, from: origin === null ? '' : controllerName(origin) };
}

/**
 * The entry that a change on the card asks for; null where the field is not kept. What is chosen from the bus keeps the controller that says
 * it, and counts as typed all the same: the person has decided, and the bus must not decide otherwise later.
 */
export function identityWanted({ field, value, origin }: IdentityChange): WantedEntry | null {
  const own = CARD_FIELDS.find(([card]) => card === field)?.[1];
  if (own === undefined) return null;
  const reason = origin === 'bus' ? 'chosen from what the controllers say' : '';
  return { kind: 'identity', field: own, value, from: 'typed', origin: null, reason };
}

type Note = Pick<CardEntry, 'note' | 'noteTone'>;

function noteOn(field: CardField, held: IdentityValue | undefined, heard: IdentityValue | undefined): Note {
  if (!held) return NO_NOTE;
  if (held.from === 'typed' && heard && heard.value !== held.value)
    return { note: `The bus says ${heard.value}.`, noteTone: 'doubt' };
  return field === 'vin' ? vinNote(held.value) : NO_NOTE;
}

const NO_NOTE: Note = { note: '', noteTone: 'good' };

function vinNote(vin: string): Note {
  switch (vinCheckDigit(vin)) {
    case 'fits':
      return { note: 'The check digit fits.', noteTone: 'good' };
    case 'does not fit':
      return { note: `The check digit does not fit. ${CHECK_DIGIT_NOTE}`, noteTone: 'doubt' };
    case 'not applicable':
      return { note: 'A VIN has 17 characters, without I, O and Q.', noteTone: 'doubt' };
  }
}

/** The engine's software, or that of the lowest address that tells it. */
function softwareEntry(facts: Pick<BusFacts, 'identifications'> | null): CardEntry {
  const told = [...(facts?.identifications ?? [])]
    .flatMap(([origin, { software }]) => (software && software.length > 0 ? [{ origin, software }] : []))
    .toSorted((a, b) => (a.origin % 256) - (b.origin % 256) || a.origin - b.origin);
  const [first] = told;
  return {
    field: 'software',
    value: first ? first.software.join(', ') : '',
    origin: first ? 'bus' : null,
    from: first ? controllerName(first.origin) : '',
    choices: [],
    note: '',
    noteTone: 'good',
  };
}
