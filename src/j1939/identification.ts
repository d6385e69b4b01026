/** What one controller says that it is. Null where it has not said. */
export interface Identification {
  readonly vin: string | null;
  readonly component: ComponentIdentification | null;
  readonly software: readonly string[] | null;
  readonly ecu: EcuIdentification | null;
}

/** Component identification, PGN 65259: texts between `*`, empty ones null. */
export interface ComponentIdentification {
  readonly make: string | null;
  readonly model: string | null;
  readonly serialNumber: string | null;
  readonly unitNumber: string | null;
  readonly further: readonly string[];
}

/** ECU identification, PGN 64965. */
export interface EcuIdentification {
  readonly partNumber: string | null;
  readonly serialNumber: string | null;
  readonly location: string | null;
  readonly type: string | null;
  readonly manufacturer: string | null;
  readonly further: readonly string[];
}
