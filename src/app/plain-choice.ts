import type { AdapterId } from '../link/adapter.ts';
import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';

/** As plain data, which an interface is not to the types. */
type PlainPick = {
  [End in keyof CharacteristicPick]: { [Part in 'service' | 'characteristic']: string } | null;
};

/** What of a choice can be written down: characteristics picked by hand. All else is found again by its key. */
export const plainChoice = ({ adapter, choice }: { readonly adapter: AdapterId; readonly choice: object }) =>
  adapter === 'web-bluetooth' && 'pick' in choice ? (choice.pick as PlainPick | null) : null;
