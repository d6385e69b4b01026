import { fmiText } from './fmi-texts.ts';
import type { TroubleCode } from './trouble-codes.ts';

/** A suspect parameter of the fuel path or what bears on it, in plain words. */
interface SpnWords {
  readonly words: string;
  /** Keys of j1939.md, or "from memory" where that has none. */
  readonly source: string;
}

const row = (words: string, source: string): SpnWords => ({ words, source });
const MEMORY = 'from memory';

/** Plain words for the SPNs that a fuel complaint shows. Sources: j1939.md, tables and "Disagreements between sources". */
export const SPN_WORDS: ReadonlyMap<number, SpnWords> = new Map([
  [16, row('fuel filter pressure drop, suction side', 'OS')],
  [94, row('fuel supply (delivery) pressure', 'DA VJ BL CS RD')],
  [95, row('fuel filter pressure drop', 'DA BL CS')],
  [96, row('fuel level', 'DA BL CS')],
  [97, row('water in the fuel', 'DA CS')],
  [100, row('engine oil pressure', 'DA VJ BL PJ')],
  [102, row('boost pressure', 'DA CB VJ BL GD')],
  [110, row('coolant temperature', 'DA CB VJ BL LJ PJ GD')],
  [157, row('fuel rail pressure', 'DA CB BL RD')],
  [158, row('key-switch battery voltage', 'DA VJ BL LJ RD')],
  [164, row('injection control pressure', 'DA CB BL')],
  [168, row('battery voltage', 'DA VJ BL PJ CB RD')],
  [174, row('fuel temperature', 'DA CB VJ BL LJ PJ GD')],
  [175, row('oil temperature', 'DA CB VJ BL PJ')],
  [190, row('engine speed', 'DA CB VJ BL CS LJ PJ GD RD')],
  [637, row('engine timing sensor', 'DA OS')],
  [651, row('injector, cylinder 1', 'DA')],
  [652, row('injector, cylinder 2', MEMORY)],
  [653, row('injector, cylinder 3', MEMORY)],
  [654, row('injector, cylinder 4', MEMORY)],
  [655, row('injector, cylinder 5', MEMORY)],
  [656, row('injector, cylinder 6', MEMORY)],
  [1347, row('fuel pump pressurizing assembly 1 (metering)', MEMORY)],
  [1348, row('fuel pump pressurizing assembly 2 (metering)', MEMORY)],
  [1349, row('fuel rail pressure, rail 2', 'DA CB BL')],
  [1381, row('fuel supply pump intake pressure', 'DA')],
  [1382, row('fuel filter pressure drop, suction side', 'DA')],
  [5313, row('commanded fuel rail pressure', 'DA RD')],
  [5578, row('fuel delivery pressure, absolute', 'DA')],
  [6589, row('fuel rail pressure, sensor 1', 'DA')],
  [6590, row('fuel rail pressure, sensor 2', 'DA')],
  [7469, row('fuel delivery pressure', 'DA')],
]);

/** What an SPN stands for in plain words; null for those that Meniscus has no words for. */
export const spnWords = (spn: number): string | null => SPN_WORDS.get(spn)?.words ?? null;

/** One code as a technician reads it. */
export interface CodeWords {
  /** What: the words of the SPN, or its number. */
  readonly what: string;
  /** How: the words of the FMI. */
  readonly how: string;
  /** How often, where the controller counts. */
  readonly count: string | null;
  /** The doubt about the number where the controller uses an older packing; null where there is none. */
  readonly doubt: string | null;
}

/** A trouble code in words. Never throws; numbers without words are given as numbers. */
export function describeCode(code: TroubleCode): CodeWords {
  const { spn, fmi, occurrences, otherSpns } = code;
  return {
    what: spnWords(spn) ?? `SPN ${spn}`,
    how: fmiText(fmi),
    count: occurrences === null ? null : occurrences === 1 ? 'once' : `${occurrences} times`,
    doubt: otherSpns.length === 0 ? null : doubtText(spn, otherSpns),
  };
}

function doubtText(spn: number, others: readonly number[]): string {
  const named = (each: number) => (spnWords(each) === null ? `${each}` : `${each} (${spnWords(each)})`);
  return `The controller packs its numbers in an older way and does not say which: SPN ${named(spn)}, or ${others.map(named).join(', or ')}.`;
}
