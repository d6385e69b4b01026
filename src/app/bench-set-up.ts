import type { BenchCommand } from '../../simulators/bench-command.ts';
import type { Rig } from '../../simulators/engine/rig.ts';
import { AS_DRIVEN, DELIVERY_TEST_RIG } from '../../simulators/engine/rig.ts';

/** How the bench engine has to stand for a check of the shipped procedure: what is fitted, and what the person in the cab does. */
export interface BenchSetUp {
  readonly rig: Rig;
  readonly pedal: 'idle' | 'high idle' | 'load';
  readonly raiseRail: boolean;
  /** Said in one line: what was set up, and what is left for the hand. */
  readonly words: string;
}

const DRIVEN: BenchSetUp = {
  rig: AS_DRIVEN,
  pedal: 'idle',
  raiseRail: false,
  words: 'As it was driven in. Start the engine and let it idle.',
};
const CRANKED: BenchSetUp = {
  ...DRIVEN,
  rig: { ...AS_DRIVEN, injectionBlocked: true },
  words: 'Injection is blocked, so that it cannot start. Turn the starter.',
};

const SET_UPS: Readonly<Record<string, BenchSetUp>> = {
  'suction-restriction': { ...DRIVEN, pedal: 'high idle', words: 'Start the engine: it goes to high idle.' },
  'supply-cranking': CRANKED,
  'supply-high-idle': { ...DRIVEN, pedal: 'high idle', words: 'Start the engine: it goes to high idle.' },
  'supply-load': { ...DRIVEN, pedal: 'load', words: 'Start the engine: it pulls under load.' },
  'rail-at-rest': { ...DRIVEN, words: 'Key on, engine off: the rail has lost its pressure.' },
  'rail-build': CRANKED,
  'pump-return': {
    rig: { ...AS_DRIVEN, intoVessel: 'pump return' },
    pedal: 'idle',
    raiseRail: true,
    words: 'The pump return runs into the vessel. Start the engine: the rail pressure is raised at idle.',
  },
  'injector-return-cranking': {
    ...CRANKED,
    rig: { ...AS_DRIVEN, injectionBlocked: true, intoVessel: 'injector return' },
    words: 'Injection is blocked, the injector return runs into the vessel. Turn the starter.',
  },
  'injector-return-idle': {
    ...DRIVEN,
    rig: { ...AS_DRIVEN, intoVessel: 'injector return' },
    words: 'The injector return runs into the vessel. Start the engine and let it idle.',
  },
  'relief-valve-leak': {
    rig: { ...AS_DRIVEN, intoVessel: 'relief valve return' },
    pedal: 'idle',
    raiseRail: true,
    words:
      'The relief valve return runs into the vessel. Start the engine: the rail pressure is raised at idle.',
  },
  'rail-decay': { ...DRIVEN, words: 'Start the engine, let it idle a while, then turn the key off.' },
  'crank-delivery': {
    ...DRIVEN,
    rig: DELIVERY_TEST_RIG,
    words: 'Rail ports blocked, the calibrated relief valve drains into the vessel. Turn the starter.',
  },
  'final-drive': { ...DRIVEN, pedal: 'load', words: 'Start the engine: it pulls under load.' },
};

/** How the bench has to stand for a check; as it was driven in for checks that the bench does not know. */
export const benchSetUp = (checkId: string): BenchSetUp => SET_UPS[checkId] ?? DRIVEN;

/** The commands that bring the bench there, whatever was fitted before. */
export function setUpCommands({ rig, pedal, raiseRail }: BenchSetUp): readonly BenchCommand[] {
  return [
    { kind: 'rail ports', blocked: rig.portsBlocked },
    { kind: 'injection', blocked: rig.injectionBlocked },
    { kind: 'test valve', fitted: rig.testValve },
    { kind: 'line', into: rig.intoVessel },
    { kind: 'empty vessel' },
    { kind: 'pedal', at: pedal },
    { kind: 'raise rail', on: raiseRail },
  ];
}
