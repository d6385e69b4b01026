import { chanceFrom, nextChance, uniform, type Chance } from '../../simulators/chance.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import { AS_DRIVEN } from '../../simulators/engine/rig.ts';
import { ORDINARY, type BenchScenario } from '../../simulators/scenarios.ts';
import { fingerprintOf, writeCaseId } from './case-id.ts';
import type { CaseSet } from './case-set.ts';
import { sharePart } from './case-set-mistakes.ts';

/** An engine drawn from a set. What is wrong with it stands in `scenario.defects`, worst first, and is for no screen before the end. */
export interface TrainingCase {
  readonly scenarioId: string;
  readonly set: CaseSet;
  readonly seed: number;
  readonly scenario: BenchScenario;
}

/** Draws in a row, each its own number; the object lives within one drawing. */
interface Lot {
  /** In [0, 1). */
  next(): number;
}

/** The engine that this seed draws from the set: the same on every machine. A seed counts by its low 32 bits. */
export function drawCase(set: CaseSet, seed: number): TrainingCase {
  const kept = seed >>> 0;
  const fingerprint = fingerprintOf(set);
  const lot = lotFrom(Math.imul(kept, 0x9e3779b1) ^ Number.parseInt(fingerprint, 16));
  const defects = drawDefects(set, lot);
  const complaint = drawComplaint(set, defects, lot);
  const vehicle = oneOf(set.vehicles, lot);
  const identity = {
    unit: vehicle.unit,
    engineFamily: vehicle.engineFamily,
    serialNumber: `P${whole(vehicle.serialNumbers, lot)}`,
    hours: whole(vehicle.hours, lot),
  };
  const dayC = between(set.temperaturesC.day, lot);
  const scenario: BenchScenario = {
    ...ORDINARY,
    rig: AS_DRIVEN,
    firesAfterTurns: 3,
    complaint,
    identity,
    defects,
    seed: kept,
    fuelTemperatureC: between(set.temperaturesC.fuel, lot),
    batteryTemperatureC: dayC,
    oilTemperatureC: dayC,
    speedEveryMs: lot.next() < 0.5 ? 10 : 20,
  };
  return { scenarioId: writeCaseId({ setId: set.id, fingerprint, seed: kept }), set, seed: kept, scenario };
}

function drawDefects(set: CaseSet, lot: Lot): readonly Defect[] {
  const { defects: count } = weighted(set.howMany, lot);
  const drawn: Defect[] = [];
  while (drawn.length < count) {
    const left = set.defects.filter(({ kind }) => !drawn.some((other) => sharePart(kind, other.kind)));
    if (left.length === 0) break;
    const { kind, least, most } = weighted(left, lot);
    drawn.push({ kind, severity: between({ least, most }, lot) });
  }
  return drawn.toSorted((a, b) => b.severity - a.severity);
}

/** What the driver noticed comes from the worst of it, or is said by any driver. */
function drawComplaint(set: CaseSet, defects: readonly Defect[], lot: Lot): string {
  const [worst] = defects;
  const fitting = set.complaints.filter(
    ({ fits }) => fits.length === 0 || (worst !== undefined && fits.includes(worst.kind)),
  );
  return oneOf(fitting, lot).text;
}

function lotFrom(seed: number): Lot {
  let chance: Chance = chanceFrom(seed);
  return {
    next: () => {
      chance = nextChance(chance);
      return uniform(chance);
    },
  };
}

const oneOf = <T>(all: readonly T[], lot: Lot): T => all[Math.floor(lot.next() * all.length)]!;

function weighted<T extends { readonly weight: number }>(all: readonly T[], lot: Lot): T {
  const sum = all.reduce((total, { weight }) => total + weight, 0);
  let left = lot.next() * sum;
  return all.find(({ weight }) => (left -= weight) < 0) ?? all.at(-1)!;
}

interface Span {
  readonly least: number;
  readonly most: number;
}
const between = ({ least, most }: Span, lot: Lot): number => least + (most - least) * lot.next();
const whole = ({ least, most }: Span, lot: Lot): number =>
  Math.floor(least) + Math.floor(lot.next() * (Math.floor(most) - Math.floor(least) + 1));
