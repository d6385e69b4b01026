/**
 * Pressures of a rail by closed form, kPa over seconds: ../shared/reference/check-values.md section D, "Rail ODE closed forms", dp/dt = (K/V)(Q_in − Q_leak)
 * with K 1.4 GPa, V 30 mL, Q_in 5 mL/s. The values printed there stand in the tests beside what is fitted to them.
 */
const KPA_PER_PA = 1 / 1000;
const K = 1.4e9;
const V = 30e-6;
const Q = 5e-6;
const G = 2e-14;
const C = 2e-10;

/** Linear leak: levels off at Q/G with τ = V/(KG). Printed: p∞ 2500 bar, τ 1.071429 s; 932.277 bar at 0.5 s, 2113.404 at 2 s. */
export const levellingOff = (s: number): number => KPA_PER_PA * (Q / G) * (1 - Math.exp((-s * K * G) / V));

/** No leak: 2333.33 bar/s. */
export const straight = (s: number): number => (KPA_PER_PA * K * Q * s) / V;

/** Linear leak, no inflow, from p0: the same τ. */
export const exponential = (p0KPa: number, s: number): number => p0KPa * Math.exp((-s * K * G) / V);

/** Square-root leak, no inflow, from 1000 bar: √p = √p0 − KCt/(2V). Printed: 908.844 bar at 0.1 s, 739.600 at 0.3, zero at 2.142857 s. */
export const rootLeak = (s: number): number =>
  KPA_PER_PA * Math.max(0, Math.sqrt(1e8) - (K * C * s) / (2 * V)) ** 2;

/** K = K0(1 + p/p*), K0 1.2 GPa, p* 100 MPa, no leak: faster and faster. Printed: 221.403 bar at 0.1 s, 1718.282 at 0.5. */
export const stiffening = (s: number): number =>
  KPA_PER_PA * 1e8 * (Math.exp((1.2e9 * Q * s) / (V * 1e8)) - 1);
