/** What the technician did to the engine's fuel path, beside the key and the pedal. */
export interface Rig {
  readonly portsBlocked: boolean; // injector ports of the rail capped
  readonly injectionBlocked: boolean; // electrically: the injectors stay shut
  readonly testValve: boolean; // calibrated relief valve on the rail; the metering valve is unplugged and stands open
  readonly intoVessel: VesselLine | null;
}

/** Lines that can be put into the vessel; the others run to the tank. */
export const VESSEL_LINES = [
  'crank delivery',
  'pump return',
  'injector return',
  'relief valve return',
] as const;
export type VesselLine = (typeof VESSEL_LINES)[number];

/** As for the crank delivery test: rail ports capped, test valve fitted and draining into the vessel. */
export const DELIVERY_TEST_RIG: Rig = {
  portsBlocked: true,
  injectionBlocked: true,
  testValve: true,
  intoVessel: 'crank delivery',
};

/** As the engine came in: nothing taken off, nothing fitted. */
export const AS_DRIVEN: Rig = {
  portsBlocked: false,
  injectionBlocked: false,
  testValve: false,
  intoVessel: null,
};

/** Where the right foot is: a loaded pull is pedal down against a load. */
export type Pedal = 'idle' | 'high idle' | 'load';

/** What the person in the cab does. Raising the rail is a test function of the controller, at idle only. */
export interface EngineInputs {
  readonly keyOn: boolean;
  readonly starterOn: boolean; // has effect with the key on only
  readonly pedal?: Pedal;
  readonly raiseRail?: boolean;
}
