import type { BusFacts } from '../j1939/bus-facts.ts';
import { UNREADABLE } from '../j1939/bus-text.ts';
import type { Identification } from '../j1939/identification.ts';
import { ENGINE_ADDRESSES, isEngineOrigin } from '../j1939/source-addresses.ts';
import type { IdentityField, RunEntry } from '../jobs/run-entry.ts';

/** A value of a field, and the origin that says it. */
export interface SaidValue {
  readonly value: string;
  readonly origin: number;
}

/**
 * What the bus says of one field. `taken`: what may go into the run without asking; null where nobody who counts says it readably, or where
 * those who say it differ and none of them is the engine. `said`: every different value, the engine's first.
 */
export interface IdentityProposal {
  readonly field: IdentityField;
  readonly taken: SaidValue | null;
  readonly said: readonly SaidValue[];
}

interface FieldRule {
  readonly of: (identification: Identification) => string | null;
  readonly from: 'engine' | 'anybody';
}

const RULES: Readonly<Record<Exclude<IdentityField, 'engineHours'>, FieldRule>> = {
  vin: { of: ({ vin }) => vin, from: 'anybody' },
  make: { of: ({ component }) => component?.make ?? null, from: 'engine' },
  model: { of: ({ component }) => component?.model ?? null, from: 'engine' },
  serialNumber: { of: ({ component }) => component?.serialNumber ?? null, from: 'engine' },
  unitNumber: { of: ({ component }) => component?.unitNumber ?? null, from: 'engine' },
};

/** What can be proposed for each field that the bus says something of. Hours: the last reading of the engine's hours (SPN 247), h. */
export function identityProposals(
  facts: Pick<BusFacts, 'identifications'>,
  hours: { readonly value: number | null; readonly origin: number } | null = null,
): readonly IdentityProposal[] {
  const controllers = [...facts.identifications].toSorted(([a], [b]) => byRank(a, b));
  const proposals = Object.entries(RULES).map(([field, { of, from }]) =>
    proposalOf(
      field as IdentityField,
      controllers.flatMap(([origin, identification]) => {
        const value = from === 'anybody' || isEngineOrigin(origin) ? of(identification)?.trim() : null;
        return value ? [{ value, origin }] : [];
      }),
    ),
  );
  return [...proposals, hoursProposal(hours)].filter(({ said }) => said.length > 0);
}

/**
 * The entries by which a run takes over what the bus says. Each value of each origin is entered once, however often it is heard; engine hours
 * only the first time, since they count on. A typed value is not touched by them: it holds against the bus (run-entries.ts).
 * Only for a run whose source is open: what is entered later would take back a verdict that stands.
 */
export function identityEntries(
  entries: readonly RunEntry[],
  proposals: readonly IdentityProposal[],
  atIso: string,
): readonly RunEntry[] {
  const heard = entries.filter((entry) => entry.kind === 'identity').filter(({ from }) => from === 'bus');
  return proposals.flatMap(({ field, taken }): readonly RunEntry[] => {
    if (!taken) return [];
    const known = heard.some(
      (entry) =>
        entry.field === field &&
        (field === 'engineHours' || (entry.value === taken.value && entry.origin === taken.origin)),
    );
    return known ? [] : [{ atIso, reason: '', kind: 'identity', field, from: 'bus', ...taken }];
  });
}

function proposalOf(field: IdentityField, said: readonly SaidValue[]): IdentityProposal {
  const different = said.filter(
    ({ value }, place) => said.findIndex((other) => other.value === value) === place,
  );
  const readable = different.filter(({ value }) => !value.includes(UNREADABLE));
  const [first] = readable;
  const settled = first !== undefined && (readable.length === 1 || isEngineOrigin(first.origin));
  return { field, taken: settled ? first : null, said: different };
}

function hoursProposal(hours: Parameters<typeof identityProposals>[1]): IdentityProposal {
  if (!hours || hours.value === null || !isEngineOrigin(hours.origin)) return proposalOf('engineHours', []);
  // A hundredth of an hour is finer than the parameter (0.05 h a bit, SPN 247).
  const value = String(Math.round(hours.value * 100) / 100);
  return proposalOf('engineHours', [{ value, origin: hours.origin }]);
}

/** Engine 1 of any channel, engine 2 of any channel, then all others, each in order of channel and address. */
function byRank(a: number, b: number): number {
  const rank = (origin: number) =>
    isEngineOrigin(origin) ? ENGINE_ADDRESSES.indexOf(origin % 256) : Infinity;
  return rank(a) === rank(b) ? a - b : rank(a) - rank(b);
}
