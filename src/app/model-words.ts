import type { ModelPartId } from '../ui/model-layout.ts';

/** Name and plain words of a part of the bench engine. */
export interface PartWords {
  readonly name: string;
  /** What it does, its equation in words. */
  readonly what: string;
}

/** What each part of the drawing does in the simulator. The equations stand in simulators/engine. */
export const PART_WORDS: Readonly<Record<ModelPartId, PartWords>> = {
  battery: {
    name: 'Batteries',
    what: 'They push current through their own resistance, the cable and the starter. The voltage at the posts is the voltage at rest, less current times inner resistance. In the cold that resistance grows.',
  },
  starter: {
    name: 'Starter',
    what: 'Current is what is left of the voltage when the starter’s own counter-voltage is taken off, divided by all the resistance in the loop. Torque grows with current, and the counter-voltage with speed: so it pulls hardest at standstill.',
  },
  crankshaft: {
    name: 'Crankshaft',
    what: 'Driving torque, less friction, less what the compressions take, speeds it up or slows it down against its inertia. Each compression brakes before its top and pushes after it: that is the ripple in the speed. At the end it may be thrown back a little.',
  },
  combustion: {
    name: 'Combustion and governor',
    what: 'With enough rail pressure and enough turns it fires. The governor then asks for torque until the speed is as wanted. Fuel burnt is power divided by efficiency and by the heat in the fuel.',
  },
  tank: {
    name: 'Tank',
    what: 'What is drawn leaves it and what returns comes back, to the drop. With the tank all but empty the pick-up draws air. Cold fuel is thicker and a little denser.',
  },
  'suction line': {
    name: 'Suction line',
    what: 'The pull it costs is its resistance times the flow, times how thick the fuel is. Where it leaks, air comes in with the fuel.',
  },
  'suction filter': {
    name: 'Suction filter',
    what: 'Its resistance adds to that of the line: pull is resistance times flow. When the pull at the pump comes near 70 kPa, the pump gets gas instead of fuel.',
  },
  'supply pump': {
    name: 'Supply pump and its relief',
    what: 'It moves the same volume in each turn. Some slips back through its clearances, more at a higher pressure. Above a set pressure its relief lets the rest back to the tank.',
  },
  'pressure filter': {
    name: 'Pressure filter',
    what: 'The drop over it is its resistance times the flow. The space behind it rises in pressure when more comes in than goes out. Air in it must be swept out first.',
  },
  'metering valve': {
    name: 'Metering valve and housing',
    what: 'It lets through its opening times the root of the supply pressure. The controller opens it as long as rail pressure is missing. Without its plug it stands open by its spring.',
  },
  'pumping elements': {
    name: 'Two pumping elements',
    what: 'Each plunger fills as far as supply pressure and metering valve allow, and pushes that out in the last part of its stroke. Some leaks back past the plunger: play to the third power, times rail pressure, over how thick the fuel is.',
  },
  'outlet check valves': {
    name: 'Outlet check valves',
    what: 'They let fuel into the rail and hold it there. What leaks back past them is a constant times rail pressure, and goes to the return.',
  },
  rail: {
    name: 'Rail',
    what: 'One closed space with one pressure. Pressure rises with the mass of fuel in it: what comes in, less injection and all leaks. Fuel under pressure is stiffer.',
  },
  injectors: {
    name: 'Injectors',
    what: 'They take what combustion burns. To the return goes a leak, a constant times rail pressure, and in a running engine a little for each turn to work them.',
  },
  'relief valve': {
    name: 'Rail relief valve',
    what: 'Shut, it leaks a constant times rail pressure. Above its opening pressure it lets through more for each MPa.',
  },
  'test relief valve': {
    name: 'Test relief valve',
    what: 'Fitted for the crank delivery test, with the rail ports blocked. Above its opening pressure it lets through more for each MPa, so that nearly all that the pump delivers runs into the vessel.',
  },
  'return lines': {
    name: 'Return lines',
    what: 'All that leaks, lubricates or is let off runs back to the tank. One line at a time can be led into the vessel: it runs out late, and some hangs in it.',
  },
  vessel: {
    name: 'Vessel',
    what: 'It gathers the line that is led into it. What is more than it holds runs over the rim. When it is poured out, a film stays.',
  },
  'rail sensor': {
    name: 'Rail pressure sensor',
    what: 'It shows true pressure a little late, with noise, in steps, and no further than its range. The controller believes it.',
  },
  controller: {
    name: 'Controller and sensors',
    what: 'It reports speed 0 until it has found its place, after one or two turns, and then holds each value until the next mark. It compares the rail pressure it sees with the one it commands and moves the metering valve. It sends its values at the standard rates.',
  },
  bridge: {
    name: 'Bridge',
    what: 'It passes on the messages with the time of their arrival. Messages can get lost in it, and a loose cable cuts the connection now and then.',
  },
};
