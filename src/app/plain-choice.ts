import type { CharacteristicPick } from '../../adapters/bluetooth-profiles.ts';
import type { LivePending } from './live-sources.ts';

/** As plain data, which an interface is not to the types. */
type PlainPick = {
  [End in keyof CharacteristicPick]: { [Part in 'service' | 'characteristic']: string } | null;
};

/** What of a choice can be written down: characteristics picked by hand. All else is found again by its key. */
export const plainChoice = ({ adapter, choice }: LivePending) =>
  adapter === 'web-bluetooth' && 'pick' in choice ? (choice.pick as PlainPick | null) : null;
