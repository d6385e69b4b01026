import { broadcastsOf, isDue, type Broadcast } from './bridge/broadcast.ts';
import { broadcastLine } from './bridge/broadcast-line.ts';
import { throughLine } from './bridge/line-noise.ts';
import { CLOSED_DEVICE, hearHost, noticeFrame, type SlcanDevice } from './bridge/slcan-device.ts';
import { chanceFrom, nextChance, uniform, type Chance } from './chance.ts';
import { stepController, wakingController, type Controller } from './engine/controller.ts';
import { obeyCommand, type BenchCommand, type KeyPosition } from './bench-command.ts';
import { RAD_S_PER_RPM } from './engine/crankshaft.ts';
import type { Defect } from './engine/defects.ts';
import { restingEngine, stepEngine, type EngineState } from './engine/engine.ts';
import type { Pedal, Rig } from './engine/rig.ts';
import { densityKgM3 } from './engine/fluid.ts';
import { readSensors, restingSensing, stepSensing, type Sensing } from './engine/sensors.ts';
import { engineOf, type BenchScenario } from './scenarios.ts';
import { vesselView, type VesselView } from './vessel.ts';

/** The step of the simulation. All broadcasts fall on it. */
const TICK_MS = 2;
/** Controllers go to sleep this long after key off and standstill (common practice, no source). */
const AWAKE_MS = 2000;

/** The whole bench: engine, its controllers, the bus and the bridge. Replaced by each step, never changed in place. */
export interface BenchState {
  readonly scenario: BenchScenario;
  readonly timeMs: number;
  /** Asked for but not yet simulated: less than one tick. */
  readonly pendingMs: number;
  readonly engine: EngineState;
  readonly controller: Controller;
  readonly sensing: Sensing;
  readonly device: SlcanDevice;
  readonly broadcasts: readonly Broadcast[];
  readonly sensorChance: Chance;
  readonly lineChance: Chance;
  readonly awakeUntilMs: number;
  /** A loose cable makes contact again from here on. */
  readonly contactFromMs: number;
  readonly key: KeyPosition;
  readonly pedal: Pedal;
  readonly raiseRail: boolean;
  /** What is still wrong with the engine. */
  readonly defects: readonly Defect[];
}

/**
 * What acts on the bench from now on; all of it at the beginning of the step, the commands last and in their order. A key that is not
 * given stays where it is.
 */
export interface BenchInputs {
  readonly keyOn?: boolean;
  readonly starterOn?: boolean;
  readonly fromHost: Uint8Array | null;
  readonly emptyVessel?: boolean;
  readonly commands?: readonly BenchCommand[];
}

/** What there is to see at the bench. */
export interface BenchView {
  readonly timeMs: number;
  readonly keyOn: boolean;
  readonly starterOn: boolean;
  readonly engineRunning: boolean;
  readonly speedRpm: number; // true, not as reported
  readonly vessel: VesselView;
  readonly pedal: Pedal;
  readonly raiseRail: boolean;
  readonly rig: Rig;
  readonly gauges: BenchGauges;
  /** Air in the low-pressure side that priming would push out. */
  readonly needsPriming: boolean;
}

/** What the technician's own gauges would show, kPa; whole kPa, as digital gauges do. A controller's parameter may end before. */
export interface BenchGauges {
  readonly supplyKPa: number; // behind the pressure filter
  readonly suctionKPa: number; // restriction at the inlet of the supply pump, as a positive number
}

/** A bench at rest with the bridge closed. The scenario has a seed of its own, mixed with this one. */
export function createBench(scenario: BenchScenario, seed: number): BenchState {
  const chance = nextChance(chanceFrom(Math.imul(scenario.seed, 0x9e3779b1) ^ seed));
  return {
    scenario,
    timeMs: 0,
    pendingMs: 0,
    engine: restingEngine(engineOf(scenario), scenario.rig),
    controller: wakingController(chance),
    sensing: restingSensing(engineOf(scenario)),
    contactFromMs: 0,
    device: CLOSED_DEVICE,
    broadcasts: broadcastsOf(scenario.speedEveryMs),
    sensorChance: nextChance(chance),
    lineChance: chanceFrom(~chance),
    awakeUntilMs: 0,
    key: 'off',
    pedal: 'idle',
    raiseRail: false,
    defects: scenario.defects,
  };
}

/**
 * The bench `dtMs` later, and what the bridge sent meanwhile. Simulated in fixed ticks, so however a stretch of time is
 * cut, the bytes are the same. Inputs hold from the first tick that begins in the step.
 */
export function stepBench(
  bench: BenchState,
  inputs: BenchInputs,
  dtMs: number,
): { readonly state: BenchState; readonly toHost: Uint8Array } {
  const heard = hearHost(bench.device, inputs.fromHost ?? new Uint8Array(0));
  const wantedMs = bench.pendingMs + Math.max(0, dtMs);
  const ticks = Math.floor(wantedMs / TICK_MS + 1e-9);
  let state: BenchState = { ...bench, device: heard.device };
  for (const command of commandsOf(inputs)) state = obeyCommand(state, command);
  const sent = [asBytes(heard.reply)];
  for (let tick = 0; tick < ticks; tick += 1) state = stepTick(state, sent);
  const { bytes, chance } = throughLine(joined(sent), bench.scenario.noise, bench.lineChance);
  const pendingMs = Math.max(0, wantedMs - ticks * TICK_MS);
  return { state: { ...state, pendingMs, lineChance: chance }, toHost: bytes };
}

function commandsOf({ keyOn, starterOn, emptyVessel, commands = [] }: BenchInputs): readonly BenchCommand[] {
  const key = keyOn === undefined ? [] : [{ kind: 'key', at: keyAt(keyOn, starterOn === true) } as const];
  const empty = emptyVessel === true ? [{ kind: 'empty vessel' } as const] : [];
  return [...key, ...empty, ...commands];
}

const keyAt = (keyOn: boolean, starterOn: boolean): KeyPosition =>
  keyOn ? (starterOn ? 'crank' : 'on') : 'off';

/** One tick; what the bridge sends is put at the end of `sent`. */
function stepTick(bench: BenchState, sent: Uint8Array[]): BenchState {
  const timeMs = bench.timeMs + TICK_MS;
  const { key, pedal, raiseRail } = bench;
  const keyOn = key !== 'off';
  const inputs = { keyOn, starterOn: key === 'crank', pedal, raiseRail };
  const engine = stepEngine(bench.engine, inputs, TICK_MS / 1000);
  const controller = stepController(bench.controller, engine, TICK_MS / 1000);
  const sensing = stepSensing(bench.sensing, engine, TICK_MS / 1000);
  const active = keyOn || controller.speedRpm > 0;
  const awakeUntilMs = active ? timeMs + AWAKE_MS : bench.awakeUntilMs;
  const next = { ...bench, timeMs, engine, controller, sensing, awakeUntilMs };
  return timeMs < awakeUntilMs ? sendDue(next, sent) : next;
}

function sendDue(before: BenchState, sent: Uint8Array[]): BenchState {
  const { framesLost, looseness } = before.engine.parameters.bridge;
  const bench = looseness > 0 ? shaken(before, looseness) : before;
  let { device, sensorChance } = bench;
  for (const broadcast of bench.broadcasts) {
    if (!isDue(broadcast, bench.timeMs)) continue;
    const read = readSensors(bench, sensorChance);
    sensorChance = read.chance;
    if (framesLost > 0) {
      sensorChance = nextChance(sensorChance);
      if (uniform(sensorChance) < framesLost) continue;
    }
    if (bench.timeMs < bench.contactFromMs) continue;
    device = noticeFrame(device);
    sent.push(broadcastLine(device, broadcast, read.sensors, bench.timeMs));
  }
  return { ...bench, device, sensorChance };
}

/** A loose cable loses contact about every 1.5 s at worst, for up to as long (common practice, no source). */
const SHAKES_PER_TICK = 0.0013;
const LONGEST_GAP_MS = 1500;

function shaken(bench: BenchState, looseness: number): BenchState {
  const draw = nextChance(bench.sensorChance);
  if (uniform(draw) >= SHAKES_PER_TICK * looseness) return { ...bench, sensorChance: draw };
  const span = nextChance(draw);
  const contactFromMs = bench.timeMs + LONGEST_GAP_MS * looseness * uniform(span);
  return { ...bench, sensorChance: span, contactFromMs: Math.max(bench.contactFromMs, contactFromMs) };
}

/** Replies of the device are ASCII. */
const asBytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** More air than this in the low-pressure side, and the engine has to be cranked for long. */
const AIRLESS = 0.1;

/** What there is to see now. */
export function benchView(bench: BenchState): BenchView {
  const { fuel, firing, crankshaft, rig, parameters } = bench.engine;
  const volumeMl = (fuel.mass.vessel / densityKgM3(fuel.temperatureC)) * 1e6;
  return {
    timeMs: bench.timeMs,
    keyOn: bench.key !== 'off',
    starterOn: bench.key === 'crank',
    engineRunning: firing.running,
    speedRpm: Math.abs(crankshaft.speedRadS) / RAD_S_PER_RPM,
    vessel: vesselView(volumeMl),
    pedal: bench.pedal,
    raiseRail: bench.raiseRail,
    rig,
    gauges: {
      supplyKPa: Math.max(0, Math.round(fuel.supply.galleryPa / 1000)),
      suctionKPa: Math.max(0, Math.round(fuel.supply.suctionPa / 1000)),
    },
    needsPriming: fuel.supply.air - parameters.suction.airShare > AIRLESS,
  };
}
