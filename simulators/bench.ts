import { broadcastsOf, isDue, type Broadcast } from './bridge/broadcast.ts';
import { broadcastLine } from './bridge/broadcast-line.ts';
import { throughLine } from './bridge/line-noise.ts';
import { CLOSED_DEVICE, hearHost, noticeFrame, type SlcanDevice } from './bridge/slcan-device.ts';
import { chanceFrom, nextChance, type Chance } from './chance.ts';
import { stepController, wakingController, type Controller } from './engine/controller.ts';
import { RAD_S_PER_RPM } from './engine/crankshaft.ts';
import { emptyVessel, restingEngine, stepEngine, type EngineState } from './engine/engine.ts';
import { densityKgM3 } from './engine/fluid.ts';
import { readSensors } from './engine/sensors.ts';
import { engineOf, type Scenario } from './scenarios.ts';
import { vesselView, type VesselView } from './vessel.ts';

/** The step of the simulation. All broadcasts fall on it. */
const TICK_MS = 2;
/** Controllers go to sleep this long after key off and standstill (common practice, no source). */
const AWAKE_MS = 2000;

/** The whole bench: engine, its controllers, the bus and the bridge. Replaced by each step, never changed in place. */
export interface BenchState {
  readonly scenario: Scenario;
  readonly timeMs: number;
  /** Asked for but not yet simulated: less than one tick. */
  readonly pendingMs: number;
  readonly engine: EngineState;
  readonly controller: Controller;
  readonly device: SlcanDevice;
  readonly broadcasts: readonly Broadcast[];
  readonly sensorChance: Chance;
  readonly lineChance: Chance;
  readonly awakeUntilMs: number;
  readonly keyOn: boolean;
  readonly starterOn: boolean;
}

/** What acts on the bench from now on. `fromHost` arrives at the bridge at the beginning of the step. */
export interface BenchInputs {
  readonly keyOn: boolean;
  readonly starterOn: boolean;
  readonly fromHost: Uint8Array | null;
  readonly emptyVessel?: boolean;
}

/** What there is to see at the bench. */
export interface BenchView {
  readonly timeMs: number;
  readonly keyOn: boolean;
  readonly starterOn: boolean;
  readonly engineRunning: boolean;
  readonly speedRpm: number; // true, not as reported
  readonly vessel: VesselView;
}

/** A bench at rest with the bridge closed. The scenario has a seed of its own, mixed with this one. */
export function createBench(scenario: Scenario, seed: number): BenchState {
  const chance = nextChance(chanceFrom(Math.imul(scenario.seed, 0x9e3779b1) ^ seed));
  return {
    scenario,
    timeMs: 0,
    pendingMs: 0,
    engine: restingEngine(engineOf(scenario)),
    controller: wakingController(chance),
    device: CLOSED_DEVICE,
    broadcasts: broadcastsOf(scenario.speedEveryMs),
    sensorChance: nextChance(chance),
    lineChance: chanceFrom(~chance),
    awakeUntilMs: 0,
    keyOn: false,
    starterOn: false,
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
  const { keyOn, starterOn } = inputs;
  const heard = hearHost(bench.device, inputs.fromHost ?? new Uint8Array(0));
  const wantedMs = bench.pendingMs + Math.max(0, dtMs);
  const ticks = Math.floor(wantedMs / TICK_MS + 1e-9);
  let state: BenchState = { ...bench, keyOn, starterOn, device: heard.device };
  if (inputs.emptyVessel === true) state = { ...state, engine: emptyVessel(state.engine) };
  const sent = [asBytes(heard.reply)];
  for (let tick = 0; tick < ticks; tick += 1) state = stepTick(state, sent);
  const { bytes, chance } = throughLine(joined(sent), bench.scenario.noise, bench.lineChance);
  const pendingMs = Math.max(0, wantedMs - ticks * TICK_MS);
  return { state: { ...state, pendingMs, lineChance: chance }, toHost: bytes };
}

/** One tick; what the bridge sends is put at the end of `sent`. */
function stepTick(bench: BenchState, sent: Uint8Array[]): BenchState {
  const timeMs = bench.timeMs + TICK_MS;
  const { keyOn, starterOn } = bench;
  const engine = stepEngine(bench.engine, { keyOn, starterOn }, TICK_MS / 1000);
  const controller = stepController(bench.controller, engine, TICK_MS / 1000);
  const active = keyOn || controller.speedRpm > 0;
  const awakeUntilMs = active ? timeMs + AWAKE_MS : bench.awakeUntilMs;
  const next = { ...bench, timeMs, engine, controller, awakeUntilMs };
  return timeMs < awakeUntilMs ? sendDue(next, sent) : next;
}

function sendDue(bench: BenchState, sent: Uint8Array[]): BenchState {
  let { device, sensorChance } = bench;
  for (const broadcast of bench.broadcasts) {
    if (!isDue(broadcast, bench.timeMs)) continue;
    const read = readSensors(bench.engine, bench.controller, sensorChance);
    sensorChance = read.chance;
    device = noticeFrame(device);
    sent.push(broadcastLine(device, broadcast, read.sensors, bench.timeMs));
  }
  return { ...bench, device, sensorChance };
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

/** What there is to see now. */
export function benchView({ timeMs, keyOn, starterOn, engine }: BenchState): BenchView {
  const { fuel, firing, crankshaft } = engine;
  const volumeMl = (fuel.mass.vessel / densityKgM3(fuel.temperatureC)) * 1e6;
  return {
    timeMs,
    keyOn,
    starterOn: keyOn && starterOn,
    engineRunning: firing.running,
    speedRpm: crankshaft.speedRadS / RAD_S_PER_RPM,
    vessel: vesselView(volumeMl),
  };
}
