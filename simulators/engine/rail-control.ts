import type { EngineParameters } from './engine-parameters.ts';
import type { Pedal } from './rig.ts';

/** The controller's side of rail pressure: what it commands, and how far the metering valve stands open. */
export interface RailControl {
  readonly commandedPa: number;
  readonly integralM3S: number;
  readonly opening: number; // 0 to 1
}

export const RESTING_CONTROL: RailControl = { commandedPa: 0, integralM3S: 0, opening: 0 };

/** What the controller knows. */
export interface ControlInputs {
  readonly keyOn: boolean;
  readonly running: boolean;
  readonly turns: number; // of the present cranking; 0 at rest
  readonly pedal: Pedal;
  readonly raiseRail: boolean;
  readonly sensedPa: number;
  readonly unplugged: boolean; // the metering valve: it stands open by its spring
}

/** Commanded pressures, Pa: truck A commands 25 MPa as soon as it turns and up to 42 MPa at idle; the others are invented. */
const WAKING_PA = 25e6;
const IDLE_PA = 42e6;
const RAISED_PA = 110e6;
const HIGH_IDLE_PA = 80e6;
const LOAD_PA = 150e6;
const SLEW_PA_S = 80e6;
const PLACED_TURNS = 1.5;
/** Flow asked for per pascal missing, and how fast the integral follows. */
const GAIN_M3_S_PA = 4e-13;
const INTEGRAL_PER_S = 2;
/** Gallery pressure that the controller reckons with when it turns flow into opening. */
const RECKONED_ROOT_PA = Math.sqrt(1e6);

function aimPa({ keyOn, running, turns, pedal, raiseRail }: ControlInputs): number {
  if (!keyOn || (!running && turns === 0)) return 0;
  if (!running) return turns < PLACED_TURNS ? WAKING_PA : IDLE_PA;
  if (pedal === 'load') return LOAD_PA;
  if (pedal === 'high idle') return HIGH_IDLE_PA;
  return raiseRail ? RAISED_PA : IDLE_PA;
}

/** One step: proportional and integral on the missing pressure, the valve behind it with lag and, where it sticks, in jerks. */
export function stepRailControl(
  { metering }: EngineParameters,
  state: RailControl,
  inputs: ControlInputs,
  dtSeconds: number,
): RailControl {
  const aim = aimPa(inputs);
  const move = SLEW_PA_S * dtSeconds;
  const commandedPa =
    state.commandedPa === 0 || aim === 0
      ? aim
      : Math.min(state.commandedPa + move, Math.max(state.commandedPa - move, aim));
  const fullM3S = metering.fullM3SRootPa * RECKONED_ROOT_PA;
  const missing = commandedPa - inputs.sensedPa;
  const asked = GAIN_M3_S_PA * missing + state.integralM3S;
  const held = (asked > fullM3S && missing > 0) || (asked < 0 && missing < 0);
  const integral = state.integralM3S + (held ? 0 : GAIN_M3_S_PA * INTEGRAL_PER_S * missing * dtSeconds);
  const freely = inputs.unplugged ? 1 : commandedPa === 0 ? 0 : Math.max(0, asked / fullM3S);
  const wanted = Math.min(metering.mostOpen, freely);
  const opening = slide(metering, state.opening, wanted, dtSeconds);
  return { commandedPa, integralM3S: commandedPa === 0 ? 0 : Math.max(0, integral), opening };
}

/** Where the slide is after a step: behind what is wanted by its lag; where it sticks, it breaks loose and jumps. */
function slide(
  { stickBand, lagS }: EngineParameters['metering'],
  opening: number,
  wanted: number,
  dtSeconds: number,
): number {
  if (stickBand > 0) return Math.abs(wanted - opening) < stickBand ? opening : wanted;
  return opening + (wanted - opening) * -Math.expm1(-dtSeconds / lagS);
}
