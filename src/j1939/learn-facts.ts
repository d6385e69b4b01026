import { readAcknowledgement, type Acknowledgement } from './acknowledgement.ts';
import { readAddressClaim, type AddressClaim } from './address-claim.ts';
import type { BusFacts } from './bus-facts.ts';
import type { BrokenTransfer, BusMessage } from './bus-message.ts';
import { PGN } from './group-names.ts';
import type { Identification } from './identification.ts';
import { identify, UNIDENTIFIED } from './read-identification.ts';
import { readTroubleCodes } from './read-trouble-codes.ts';
import type { CodeReport } from './trouble-codes.ts';

/** BusFacts, and what controllers answered and call themselves. */
export interface LearnedFacts extends BusFacts {
  /** The last acknowledgement of each group by each controller; key: PGN * 65536 + origin, as `acknowledgementKey` gives it. */
  readonly acknowledgements: ReadonlyMap<number, Acknowledgement>;
  /** The last address claim of each origin. */
  readonly claims: ReadonlyMap<number, AddressClaim>;
}

export const START_FACTS: LearnedFacts = {
  identifications: new Map(),
  active: new Map(),
  previous: new Map(),
  broken: [],
  brokenCount: 0,
  acknowledgements: new Map(),
  claims: new Map(),
};

const BROKEN_KEPT = 20;
/** More controllers, or refused groups, than a vehicle has; noise beyond it pushes out the oldest. */
const MOST_KEPT = 256;

export const acknowledgementKey = (pgn: number, origin: number): number => pgn * 65536 + origin;

/**
 * The facts after some messages and broken transfers; the same value where these teach nothing. Each map is copied once a call at most.
 * Bounded; never throws.
 */
export function learnFacts(
  facts: LearnedFacts,
  messages: readonly BusMessage[],
  broken: readonly BrokenTransfer[],
): LearnedFacts {
  const learned = messages.length === 0 ? facts : learnMessages(facts, messages);
  if (broken.length === 0) return learned;
  return {
    ...learned,
    broken: [...learned.broken, ...broken].slice(-BROKEN_KEPT),
    brokenCount: learned.brokenCount + broken.length,
  };
}

function learnMessages(facts: LearnedFacts, messages: readonly BusMessage[]): LearnedFacts {
  const draft = {
    identifications: copyOnSet(facts.identifications),
    active: copyOnSet(facts.active),
    previous: copyOnSet(facts.previous),
    acknowledgements: copyOnSet(facts.acknowledgements),
    claims: copyOnSet(facts.claims),
  };
  for (const message of messages) learnMessage(draft, message);
  if (Object.values(draft).every(({ copied }) => !copied())) return facts;
  return {
    ...facts,
    identifications: draft.identifications.map(),
    active: draft.active.map(),
    previous: draft.previous.map(),
    acknowledgements: draft.acknowledgements.map(),
    claims: draft.claims.map(),
  };
}

interface Draft {
  readonly identifications: CopyOnSet<Identification>;
  readonly active: CopyOnSet<CodeReport>;
  readonly previous: CopyOnSet<CodeReport>;
  readonly acknowledgements: CopyOnSet<Acknowledgement>;
  readonly claims: CopyOnSet<AddressClaim>;
}

function learnMessage(draft: Draft, message: BusMessage): void {
  const { pgn, origin } = message;
  switch (pgn) {
    case PGN.activeCodes:
      return draft.active.set(origin, readTroubleCodes(message.data, message.atMs));
    case PGN.previousCodes:
      return draft.previous.set(origin, readTroubleCodes(message.data, message.atMs));
    case PGN.acknowledgement: {
      const answer = readAcknowledgement(message);
      return draft.acknowledgements.set(acknowledgementKey(answer?.pgn ?? 0, origin), answer);
    }
    case PGN.addressClaim:
      return draft.claims.set(origin, readAddressClaim(message));
    default: {
      const known = draft.identifications.get(origin) ?? UNIDENTIFIED;
      const identified = identify(known, message);
      return draft.identifications.set(origin, identified === known ? null : identified);
    }
  }
}

/** A map that is copied when it is first changed. Setting null changes nothing. When it is full the entry set longest ago goes. */
interface CopyOnSet<V> {
  get(key: number): V | undefined;
  set(key: number, value: V | null): void;
  copied(): boolean;
  map(): ReadonlyMap<number, V>;
}

function copyOnSet<V>(original: ReadonlyMap<number, V>): CopyOnSet<V> {
  let copy: Map<number, V> | null = null;
  return {
    get: (key) => (copy ?? original).get(key),
    set(key, value) {
      if (value === null) return;
      copy ??= new Map(original);
      copy.delete(key);
      if (copy.size >= MOST_KEPT) copy.delete(copy.keys().next().value!);
      copy.set(key, value);
    },
    copied: () => copy !== null,
    map: () => copy ?? original,
  };
}
