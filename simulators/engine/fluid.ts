/**
 * Diesel fuel as a fluid, SI inside (Pa, m3, kg, s), temperatures in degC.
 * Amounts of fuel are kept as mass, so that nothing is gained or lost by warming or squeezing.
 */

/** Density at 15 degC, within EN 590 (820 to 845 kg/m3). */
export const DENSITY_15_KG_M3 = 832;

/** How stiff a fluid is: K = bulkModulusPa * (1 + p / stiffeningPa); Infinity means a constant K. */
export interface Stiffness {
  readonly bulkModulusPa: number;
  readonly stiffeningPa: number;
}

/** K = 12000 (1 + 0.001 p) bar, p in bar: the usual model of diesel fuel (check-values.md D, Lino et al. 2007, from memory). */
export const DIESEL_STIFFNESS: Stiffness = { bulkModulusPa: 1.2e9, stiffeningPa: 1e8 };

/**
 * Density at ambient pressure, kg/m3: API MPMS 11.1 table 54B (1980 form), the band of 787.5 to 839 kg/m3 at 15 degC.
 */
export function densityKgM3(temperatureC: number, density15KgM3 = DENSITY_15_KG_M3): number {
  const alpha = 594.5418 / (density15KgM3 * density15KgM3);
  const warming = temperatureC - 15;
  return density15KgM3 * Math.exp(-alpha * warming * (1 + 0.8 * alpha * warming));
}

/** Kinematic viscosity, m2/s: ASTM D341 (Walther) through 2.9 mm2/s at 40 degC and 1.16 at 100 degC. */
export function kinematicViscosityM2S(temperatureC: number): number {
  const logLog = 10.0629386 - 4.134075 * Math.log10(temperatureC + 273.15);
  return (10 ** (10 ** logLog) - 0.7) * 1e-6;
}

/** Dynamic viscosity, Pa s. */
export const viscosityPaS = (temperatureC: number): number =>
  kinematicViscosityM2S(temperatureC) * densityKgM3(temperatureC);

/** Thickening with pressure: exp(p / BARUS_PA), from the trend of n-dodecane at 40 degC (check-values.md D). */
const BARUS_PA = 1.1e8;

/** Dynamic viscosity at a gauge pressure over that at ambient pressure (Barus). */
export const thickening = (pressurePa: number): number => Math.exp(pressurePa / BARUS_PA);

/** The pressure drop that drives as much fuel of ambient thickness through a gap as the drop from `pressurePa` to nothing does. */
export const thinnedDropPa = (pressurePa: number): number => -BARUS_PA * Math.expm1(-pressurePa / BARUS_PA);

/** Softer when warm: half a per cent a degree about 20 degC (from memory, doubtful). */
export const stiffnessAt = (cold: Stiffness, temperatureC: number): Stiffness => ({
  bulkModulusPa: cold.bulkModulusPa * Math.max(0.3, 1 - 0.005 * (temperatureC - 20)),
  stiffeningPa: cold.stiffeningPa,
});

/** Bulk modulus at a gauge pressure, Pa. */
export const bulkModulusPa = (pressurePa: number, { bulkModulusPa: k, stiffeningPa }: Stiffness): number =>
  k * (1 + pressurePa / stiffeningPa);

/** How much denser the fluid is than at ambient pressure: the integral of dp / K, as a ratio. */
export function compressionRatio(pressurePa: number, { bulkModulusPa: k, stiffeningPa }: Stiffness): number {
  if (stiffeningPa === Infinity) return Math.exp(pressurePa / k);
  return (1 + pressurePa / stiffeningPa) ** (stiffeningPa / k);
}

/** The gauge pressure at which the fluid is that much denser; 0 for a ratio of 1 or less (no tension). */
export function pressureAtRatioPa(ratio: number, { bulkModulusPa: k, stiffeningPa }: Stiffness): number {
  if (ratio <= 1) return 0;
  if (stiffeningPa === Infinity) return k * Math.log(ratio);
  return stiffeningPa * (ratio ** (k / stiffeningPa) - 1);
}

/** An annular gap, as between a plunger and its barrel: diameter, radial clearance, length, m. */
export interface Gap {
  readonly diameterM: number;
  readonly clearanceM: number;
  readonly lengthM: number;
}

/** Leak through a concentric annular gap, m3/s: pi d c^3 dp / (12 mu L) (Rabie, Fluid Power Engineering, eq. 2.19). */
export const gapLeakM3S = (gap: Gap, dropPa: number, viscosity: number): number =>
  (Math.PI * gap.diameterM * gap.clearanceM ** 3 * dropPa) / (12 * viscosity * gap.lengthM);
