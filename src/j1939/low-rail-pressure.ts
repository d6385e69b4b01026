import { severityOf } from './fmi-texts.ts';
import type { TroubleCode } from './trouble-codes.ts';

/**
 * What a code says about low fuel pressure. `low rail` and `low supply` are findings about the fuel; `drift` and `circuit` are about the
 * sensor, and no proof of low pressure.
 */
export type PressureFinding = 'low rail' | 'low supply' | 'drift' | 'circuit';

export interface PressureWords {
  readonly finding: PressureFinding;
  /** One sentence in plain words, with the severity where the FMI has one. */
  readonly words: string;
  /** The SPN that it is about: one of `otherSpns` where the number is in doubt. */
  readonly spn: number;
  /** The code is of a controller that packs its numbers in an older way; the finding holds for one of the readings only. */
  readonly doubtful: boolean;
}

/** The pressures that a low rail pressure complaint is about (j1939.md: 65243, 64656; 65263 and its near relatives; 164 under its own name). */
const PRESSURES: ReadonlyMap<number, { readonly side: 'low rail' | 'low supply'; readonly name: string }> =
  new Map([
    [157, { side: 'low rail', name: 'Fuel rail pressure' }],
    [1349, { side: 'low rail', name: 'Fuel pressure of rail 2' }],
    [6589, { side: 'low rail', name: 'Fuel rail pressure (sensor 1)' }],
    [6590, { side: 'low rail', name: 'Fuel rail pressure (sensor 2)' }],
    [164, { side: 'low rail', name: 'Injection control pressure' }],
    [94, { side: 'low supply', name: 'Fuel supply pressure' }],
    [5578, { side: 'low supply', name: 'Fuel supply pressure' }],
    [7469, { side: 'low supply', name: 'Fuel supply pressure' }],
    [1381, { side: 'low supply', name: 'Pressure at the intake of the supply pump' }],
  ]);

/** FMI 3 to 6: voltage and current. */
const isElectrical = (fmi: number): boolean => fmi >= 3 && fmi <= 6;

/**
 * Whether a code is about low rail pressure or low fuel supply, or about the sensor of one of them, and what it says in plain words; null where
 * it is about something else (too high included). FMI 1, 17 and 18 are low; 20 and 21 drift of the reading; 3 to 6 the circuit of the
 * sensor. Where the number is in doubt (conversion bit 1) the older readings are looked at too.
 */
export function pressureFinding(code: TroubleCode): PressureWords | null {
  const spn = [code.spn, ...code.otherSpns].find((each) => PRESSURES.has(each));
  if (spn === undefined) return null;
  const { side, name } = PRESSURES.get(spn)!;
  const finding = findingOf(code.fmi, side);
  if (finding === null) return null;
  const doubtful = code.otherSpns.length > 0;
  const words = sentence(finding, name, code.fmi);
  const doubt = ' The controller packs its numbers in an older way, so it may be about something else.';
  return { finding, words: doubtful ? words + doubt : words, spn, doubtful };
}

function findingOf(fmi: number, side: 'low rail' | 'low supply'): PressureFinding | null {
  if (severityOf(fmi)?.side === 'low') return side;
  if (fmi === 20 || fmi === 21) return 'drift';
  return isElectrical(fmi) ? 'circuit' : null;
}

function sentence(finding: PressureFinding, name: string, fmi: number): string {
  if (finding === 'drift')
    return `${name}: the reading has drifted ${fmi === 20 ? 'high' : 'low'}. Prove the sensor before the pressure.`;
  if (finding === 'circuit') return `${name}: the sensor circuit, not the pressure.`;
  return `${name} is low (${severityOf(fmi)!.words}).`;
}

/** The words of `pressureFinding`, or null where the code is about something else. */
export const lowRailPressure = (code: TroubleCode): string | null => pressureFinding(code)?.words ?? null;
