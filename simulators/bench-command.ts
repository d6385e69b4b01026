import { emptyVessel, primeEngine, refitted, rigged, type EngineState } from './engine/engine.ts';
import type { Defect } from './engine/defects.ts';
import { opensFuelPath, PARTS_OF, type Part } from './engine/parts.ts';
import type { Pedal, VesselLine } from './engine/rig.ts';
import { engineOf, type BenchScenario } from './scenarios.ts';

/** What a person does at the bench, as data. Each holds until the next of its kind; the last three are done once. */
export type BenchCommand =
  | { readonly kind: 'key'; readonly at: KeyPosition }
  | { readonly kind: 'pedal'; readonly at: Pedal }
  | { readonly kind: 'raise rail'; readonly on: boolean }
  | { readonly kind: 'rail ports'; readonly blocked: boolean }
  | { readonly kind: 'injection'; readonly blocked: boolean }
  | { readonly kind: 'test valve'; readonly fitted: boolean }
  | { readonly kind: 'line'; readonly into: VesselLine | null }
  | { readonly kind: 'empty vessel' }
  | { readonly kind: 'replace'; readonly part: Part }
  | { readonly kind: 'prime' };

export type KeyPosition = 'off' | 'on' | 'crank';

/** What commands act on. */
export interface Commanded {
  readonly scenario: BenchScenario;
  readonly engine: EngineState;
  readonly key: KeyPosition;
  readonly pedal: Pedal;
  readonly raiseRail: boolean;
  /** What is still wrong: replaced parts carry nothing. */
  readonly defects: readonly Defect[];
}

/** The bench after a command. It takes no time. */
export function obeyCommand<T extends Commanded>(bench: T, command: BenchCommand): T {
  switch (command.kind) {
    case 'key':
      return { ...bench, key: command.at };
    case 'pedal':
      return { ...bench, pedal: command.at };
    case 'raise rail':
      return { ...bench, raiseRail: command.on };
    case 'rail ports':
      return { ...bench, engine: rigged(bench.engine, { portsBlocked: command.blocked }) };
    case 'injection':
      return { ...bench, engine: rigged(bench.engine, { injectionBlocked: command.blocked }) };
    case 'test valve':
      return { ...bench, engine: rigged(bench.engine, { testValve: command.fitted }) };
    case 'line':
      return { ...bench, engine: rigged(bench.engine, { intoVessel: command.into }) };
    case 'empty vessel':
      return { ...bench, engine: emptyVessel(bench.engine) };
    case 'replace':
      return replaced(bench, command.part);
    case 'prime':
      return { ...bench, engine: primeEngine(bench.engine) };
  }
}

function replaced<T extends Commanded>(bench: T, part: Part): T {
  const defects = bench.defects.filter(({ kind }) => !PARTS_OF[kind].includes(part));
  const parameters = engineOf({ ...bench.scenario, defects });
  return { ...bench, defects, engine: refitted(bench.engine, parameters, opensFuelPath(part)) };
}
