import type { IdentityValue, RunValues } from '../jobs/run-entries.ts';
import type { IdentityField } from '../jobs/run-entry.ts';
import type { IdentityProposal } from './bus-identity.ts';

/** What would hold in a run that took over what the bus says: for a page that has no run. */
export function proposedIdentity(
  proposals: readonly IdentityProposal[],
): Pick<RunValues, 'identity' | 'heardIdentity'> {
  const taken = proposals.flatMap(({ field, taken: said }): [IdentityField, IdentityValue][] =>
    said ? [[field, { ...said, from: 'bus' }]] : [],
  );
  return { identity: new Map(taken), heardIdentity: new Map(taken) };
}
