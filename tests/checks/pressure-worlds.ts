import { measurePressureBuild } from '../../src/checks/pressure-build.ts';
import { measurePressureDecay } from '../../src/checks/pressure-decay.ts';
import { measurePressureDeviation } from '../../src/checks/pressure-deviation.ts';
import { measureSteadyPressure } from '../../src/checks/steady-pressure.ts';
import type { ValueMeasurement } from '../../src/checks/value-measurement.ts';
import { crankOf } from './example-cranks.ts';
import { sampled, signalsFrom, type Point } from './example-signals.ts';

/** What is done to the pressure before it is measured: all of it by default nothing. */
export interface Change {
  /** All instants are later by this, ms. */
  readonly shiftMs?: number;
  /** All pressures, and the pressures of the settings, times this. */
  readonly factor?: number;
  /** Interval of the pressure, ms. */
  readonly stepMs?: number;
  /** The points of the pressure as they arrive. */
  readonly arrives?: (points: readonly Point[]) => readonly Point[];
}

/** A pressure of which the measured value is known by hand. */
export interface World {
  readonly kind: 'steady pressure' | 'pressure build' | 'pressure decay' | 'pressure deviation';
  /** Worked out beside each; ms or kPa. */
  readonly truth: number;
  readonly measure: (change?: Change) => ValueMeasurement;
}

const TO_MS = 40_000;
type Laid = Required<Change>;

const laid = (change: Change = {}): Laid => ({
  shiftMs: 0,
  factor: 1,
  stepMs: 100,
  arrives: (points) => points,
  ...change,
});
const pressure = ({ shiftMs, factor, stepMs, arrives }: Laid, of: (s: number) => number) =>
  arrives(sampled(TO_MS, stepMs, of).map(([ms, value]): Point => [ms + shiftMs, factor * value!]));
const beside = ({ shiftMs }: Laid, of: (s: number) => number) =>
  sampled(TO_MS, 100, of).map(([ms, value]): Point => [ms + shiftMs, value]);

/** 500 kPa ± 4 kPa in a wave of 1 s at idle from 5 s to 35 s, 300 and 800 kPa before and after at other speeds. Mean of whole waves: 500 kPa. */
const steady: World = {
  kind: 'steady pressure',
  truth: 500,
  measure: (change) => {
    const how = laid(change);
    const idles = (s: number) => s >= 5 && s <= 35;
    const wave = (s: number) => 500 + 4 * Math.sin(2 * Math.PI * s);
    return measureSteadyPressure({
      settings: {
        kind: 'steady pressure',
        signal: 'supplyPressure',
        speed: { minRpm: 500, maxRpm: 1000 },
        leastSeconds: 10,
        steadyWithinKPa: 80 * how.factor,
        vacuum: false,
      },
      signals: signalsFrom({
        supplyPressure: pressure(how, (s) => (idles(s) ? wave(s) : s < 5 ? 300 : 800)),
        engineSpeed: beside(how, (s) => (idles(s) ? 700 : 1800)),
      }),
      typed: null,
      chosen: null,
    });
  },
};

/** Cranked from 2 s on; 800 kPa a second from 3 s on: 20 000 kPa stand at 28 s, 26 s after the start. */
const build: World = {
  kind: 'pressure build',
  truth: 26_000,
  measure: (change) => {
    const how = laid(change);
    return measurePressureBuild({
      settings: {
        kind: 'pressure build',
        signal: 'railPressure',
        fromKPa: 0,
        toKPa: 20_000 * how.factor,
        from: 'crank start',
      },
      signals: signalsFrom({ railPressure: pressure(how, (s) => Math.max(0, 800 * (s - 3))) }),
      cranks: [{ crank: crankOf(2000 + how.shiftMs, 36_000, { startSign: 'battery' }) }],
      underWay: null,
      typed: null,
      chosen: null,
    });
  },
};

/** 40 000 kPa · e^(−t/15 s): from 25 000 to 10 000 kPa in 15 s · ln 2.5 = 13.7444 s. */
const decay: World = {
  kind: 'pressure decay',
  truth: 15_000 * Math.log(2.5),
  measure: (change) => {
    const how = laid(change);
    return measurePressureDecay({
      settings: {
        kind: 'pressure decay',
        signal: 'railPressure',
        fromKPa: 25_000 * how.factor,
        toKPa: 10_000 * how.factor,
      },
      signals: signalsFrom({
        railPressure: pressure(how, (s) => 40_000 * Math.exp(-s / 15)),
        engineSpeed: beside(how, () => 0),
      }),
      typed: null,
      chosen: null,
    });
  },
};

/** 100 MPa commanded at 1500 rpm; 1000 kPa short, and from 15 s to 25 s 6000 kPa: the worst five seconds are 6000 kPa short. */
const deviation: World = {
  kind: 'pressure deviation',
  truth: 6000,
  measure: (change) => {
    const how = laid(change);
    return measurePressureDeviation({
      settings: {
        kind: 'pressure deviation',
        actual: 'railPressure',
        commanded: 'commandedRailPressure',
        stretchSeconds: 5,
        speedBandsRpm: [1200],
        loadBandsPercent: [50],
        leastCommandedKPa: 80_000 * how.factor,
        leastSeconds: 20,
      },
      signals: signalsFrom({
        railPressure: pressure(how, (s) => 100_000 - (s >= 15 && s <= 25 ? 6000 : 1000)),
        commandedRailPressure: beside(how, () => 100_000 * how.factor),
        engineSpeed: beside(how, () => 1500),
        actualTorque: beside(how, () => 80),
      }),
      typed: null,
      chosen: null,
    });
  },
};

/** One of each kind of check that gives a value from a pressure. */
export const WORLDS: readonly World[] = [steady, build, decay, deviation];

/** Whether the value is a time, which does not grow with the pressure. */
export const isTime = ({ kind }: World): boolean => kind === 'pressure build' || kind === 'pressure decay';
