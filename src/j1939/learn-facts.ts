import { readAcknowledgement, type Acknowledgement } from './acknowledgement.ts';
import { readAddressClaim, type AddressClaim } from './address-claim.ts';
import type { BusFacts } from './bus-facts.ts';
import type { BrokenTransfer, BusMessage } from './bus-message.ts';
import { PGN } from './group-names.ts';
import { identify, UNIDENTIFIED } from './read-identification.ts';
import { readTroubleCodes } from './read-trouble-codes.ts';

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

/** The facts after some messages and broken transfers; the same value where these teach nothing. Bounded; never throws. */
export function learnFacts(
  facts: LearnedFacts,
  messages: readonly BusMessage[],
  broken: readonly BrokenTransfer[],
): LearnedFacts {
  const learned = messages.reduce(learnMessage, facts);
  if (broken.length === 0) return learned;
  return {
    ...learned,
    broken: [...learned.broken, ...broken].slice(-BROKEN_KEPT),
    brokenCount: learned.brokenCount + broken.length,
  };
}

function learnMessage(facts: LearnedFacts, message: BusMessage): LearnedFacts {
  const { pgn, origin } = message;
  if (pgn === PGN.activeCodes || pgn === PGN.previousCodes) {
    const report = readTroubleCodes(message.data, message.atMs);
    if (!report) return facts;
    return pgn === PGN.activeCodes
      ? { ...facts, active: withEntry(facts.active, origin, report) }
      : { ...facts, previous: withEntry(facts.previous, origin, report) };
  }
  if (pgn === PGN.acknowledgement) {
    const answer = readAcknowledgement(message);
    if (!answer) return facts;
    const key = acknowledgementKey(answer.pgn, origin);
    return { ...facts, acknowledgements: withEntry(facts.acknowledgements, key, answer) };
  }
  if (pgn === PGN.addressClaim) {
    const claim = readAddressClaim(message);
    return claim ? { ...facts, claims: withEntry(facts.claims, origin, claim) } : facts;
  }
  const known = facts.identifications.get(origin) ?? UNIDENTIFIED;
  const identified = identify(known, message);
  if (identified === known) return facts;
  return { ...facts, identifications: withEntry(facts.identifications, origin, identified) };
}

/** A map with an entry set. When it is full the entry that was set longest ago goes. */
function withEntry<V>(map: ReadonlyMap<number, V>, key: number, value: V): ReadonlyMap<number, V> {
  const copy = new Map(map);
  copy.delete(key);
  if (copy.size >= MOST_KEPT) copy.delete(copy.keys().next().value!);
  return copy.set(key, value);
}
