import type { Cause, Procedure } from '../procedures/procedure.ts';
import { STATION_IDS, STATIONS, type StationId } from '../procedures/station.ts';

/** What the words of a conclusion name. */
export interface NamedCause {
  /** Ids of the causes of the procedure that the words name; empty where they name none for certain. */
  readonly causes: readonly string[];
  /** The stations of those causes, or those that are named by their own name. */
  readonly stations: readonly StationId[];
}

/** Other ways to say a cause: all words of one way must stand there. Common practice, no source. */
const OTHER_WORDS: Readonly<Record<string, readonly (readonly string[])[]>> = {
  'clogged-filter': [
    ['clogged', 'filter'],
    ['dirty', 'filter'],
    ['blocked', 'filter'],
    ['plugged', 'filter'],
  ],
  'clogged-pressure-filter': [
    ['clogged', 'pressure', 'filter'],
    ['blocked', 'pressure', 'filter'],
  ],
  'suction-restriction': [
    ['suction', 'restrict'],
    ['suction', 'tight'],
    ['suction', 'blocked'],
    ['kinked'],
    ['collapsed', 'hose'],
  ],
  'air-leak': [
    ['air', 'leak'],
    ['drawing', 'air'],
    ['sucking', 'air'],
    ['draws', 'air'],
    ['air', 'suction'],
  ],
  'weak-supply-pump': [
    ['supply', 'pump'],
    ['transfer', 'pump'],
    ['lift', 'pump'],
    ['feed', 'pump'],
  ],
  'sticking-metering-valve': [
    ['metering', 'valve', 'stick'],
    ['metering', 'valve', 'stuck'],
    ['metering', 'valve', 'sticks'],
  ],
  'cracked-metering-housing': [
    ['metering', 'crack'],
    ['housing', 'crack'],
    ['metering', 'housing'],
  ],
  'worn-elements': [
    ['worn', 'element'],
    ['worn', 'pump'],
    ['pump', 'wear'],
  ],
  'dead-element': [
    ['dead', 'element'],
    ['one', 'element'],
    ['element', 'not', 'deliver'],
  ],
  'leaking-outlet-valve': [
    ['outlet', 'valve'],
    ['check', 'valve'],
  ],
  'leaking-relief-valve': [['relief', 'valve']],
  'high-injector-return': [
    ['injector', 'return'],
    ['injector', 'leak'],
    ['injector', 'worn'],
  ],
  'weak-battery': [['batter'], ['starter', 'cable']],
  'cranking-drag': [['drag'], ['turns', 'stiffly'], ['cranks', 'stiffly']],
  'rail-sensor': [['sensor'], ['transducer']],
  wiring: [['wiring'], ['wire'], ['plug', 'sensor']],
  'bridge-cable': [['bridge'], ['adapter', 'cable'], ['data', 'cable']],
  'low-fuel': [
    ['too', 'little', 'fuel'],
    ['low', 'fuel', 'level'],
    ['tank', 'empty'],
  ],
  'bad-fuel': [
    ['bad', 'fuel'],
    ['dirty', 'fuel'],
    ['old', 'fuel'],
  ],
  'water-in-fuel': [['water']],
};

/**
 * What the words name. A cause's own text is taken at its word, also among others; else other words for it. A negation is not understood: words
 * that name nothing, or something beside, are for a person to compare. Empty words name nothing.
 */
export function namedCause(procedure: Procedure, words: string): NamedCause {
  const said = folded(words);
  if (said === '') return { causes: [], stations: [] };
  const plainly = procedure.causes.filter(({ text }) => said.includes(folded(text)));
  const causes = plainly.length > 0 ? plainly : longestOnly(procedure.causes, said);
  if (causes.length > 0)
    return {
      causes: causes.map(({ id }) => id),
      stations: [...new Set(causes.map(({ station }) => station))],
    };
  const stations = STATION_IDS.filter(
    (id) => said.includes(folded(id)) || said.includes(folded(STATIONS[id].name)),
  );
  return { causes: [], stations };
}

/** "Clogged pressure filter" names the pressure filter, not each clogged filter: of ways that overlap the one with more words counts. */
function longestOnly(causes: readonly Cause[], said: string): readonly Cause[] {
  const found = causes.flatMap((cause) =>
    (OTHER_WORDS[cause.id] ?? [])
      .filter((way) => way.every((word) => said.includes(word)))
      .map((way) => ({ cause, way })),
  );
  const best = found.filter(
    ({ way, cause }) =>
      !found.some(
        (other) =>
          other.cause !== cause &&
          other.way.length > way.length &&
          way.every((word) => other.way.includes(word)),
      ),
  );
  return [...new Set(best.map(({ cause }) => cause))];
}

const folded = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
