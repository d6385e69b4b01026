import type { CollectedVolume, CrankDelivery, VolumeMeasurement } from '../checks/measurement.ts';
import type { SpeedChart, Window } from '../limits/limit-sheet.ts';
import { named, type ArithmeticStep, type NamedNumber } from './arithmetic-step.ts';
import { nearestBoundary, type Boundary, type Placement } from './boundary.ts';
import { placeOnChart } from './grade-speed-chart.ts';
import { collectedRate } from './grade-rate.ts';
import { collectedValue, placeInWindow } from './grade-window.ts';
import { NEEDED_CONFIDENCE } from './judge.ts';
import type { UncertaintyCause } from './uncertainty.ts';
import type { Verdict } from './verdict.ts';

/**
 * Every number behind the verdict on a crank delivery, in the order in which a person would work it out by hand: time, average speed, volume, boundaries at
 * that speed, distance, uncertainty, probability, verdict. Without a place on the chart it ends where the working out ends.
 */
export function deliveryArithmetic(
  delivery: CrankDelivery,
  chart: SpeedChart,
  verdict: Verdict,
): readonly ArithmeticStep[] {
  const placed = placeOnChart(delivery, chart);
  const scaled = { seconds: delivery.crankSeconds, ...delivery };
  return [
    timeStep(delivery),
    ...speedSteps(delivery, chart),
    ...volumeSteps(scaled),
    ...(placed.ok ? placementSteps(placed.value, verdict) : []),
    verdictStep(verdict),
  ];
}

/** Every number behind the verdict on a collected volume, as `deliveryArithmetic`; for a window of a flow, over its time. */
export function collectedArithmetic(
  collected: CollectedVolume,
  window: Window,
  verdict: Verdict,
): readonly ArithmeticStep[] {
  const isRate = window.quantity === 'rate';
  const value = isRate ? collectedRate(collected) : collectedValue(collected);
  const placed = value.ok ? placeInWindow(value.value, window) : value;
  return [
    ...volumeSteps(isRate ? { ...collected, volumeAtTargetMl: null } : collected),
    ...(isRate && value.ok ? [rateStep(collected, value.value.value)] : []),
    ...(placed.ok ? placementSteps(placed.value, verdict) : []),
    verdictStep(verdict),
  ];
}

function timeStep({
  cranks,
  crankSeconds,
  crankSecondsUncertainty,
  targetSeconds,
}: CrankDelivery): ArithmeticStep {
  const counting = cranks.filter(({ counts }) => counts);
  return {
    label: 'Crank time',
    formula: 'sum over the cranks that count, from starter on to release',
    numbers: [
      ...counting.map(({ startMs, endMs }, index) =>
        named(`crank ${index + 1}`, (endMs - startMs) / 1000, 's'),
      ),
      named('target', targetSeconds, 's'),
      named('standard uncertainty', crankSecondsUncertainty, 's'),
    ],
    result: named('crank time', crankSeconds, 's'),
  };
}

function speedSteps(
  { cranks, average }: CrankDelivery,
  { speedAverage }: SpeedChart,
): readonly ArithmeticStep[] {
  if (!average) return [];
  const weighted: ArithmeticStep = {
    label: 'Average cranking speed, time-weighted',
    formula: 'area under the speed trace ÷ time, over the cranks that count',
    numbers: [
      ...cranks
        .filter(({ counts }) => counts)
        .map(({ average: one }, index) => named(`crank ${index + 1} mean`, one.meanRpm, 'rpm')),
      named('area', average.integralRpmMs / 1000, 'rpm·s'),
      named('time', average.durationMs / 1000, 's'),
      named('standard uncertainty', average.standardUncertaintyRpm, 'rpm'),
    ],
    result: named('time-weighted mean', average.meanRpm, 'rpm'),
  };
  const plain: ArithmeticStep = {
    label: 'Average cranking speed, plain mean of the samples',
    formula: 'sum of the samples ÷ their number, as a spreadsheet forms it',
    numbers: [named('samples', average.samples, '')],
    result: named('mean of samples', average.sampleMeanRpm, 'rpm'),
  };
  const used: ArithmeticStep = {
    label: 'Speed for the chart',
    formula: `the limit sheet asks for the ${speedAverage === 'samples' ? 'mean of the samples' : 'time-weighted mean'}`,
    numbers: [],
    result: named('speed', speedAverage === 'samples' ? average.sampleMeanRpm : average.meanRpm, 'rpm'),
  };
  return [weighted, plain, used];
}

type Collected = Pick<CollectedVolume, 'volume' | 'volumeAtTargetMl' | 'seconds' | 'targetSeconds'>;

function volumeSteps({
  volume,
  volumeAtTargetMl,
  seconds,
  targetSeconds,
}: Collected): readonly ArithmeticStep[] {
  if (!volume) return [];
  const read: ArithmeticStep = {
    label: 'Volume',
    formula: `read ${volume.parts?.photoMl === undefined ? 'on' : 'off a photograph of'}: ${volume.vessel.name}`,
    numbers: readings(volume),
    result: named('volume', volume.valueMl, 'mL'),
  };
  if (volumeAtTargetMl === null || seconds === null || targetSeconds === null) return [read];
  const scaled: ArithmeticStep = {
    label: 'Volume scaled to the target time (an estimate)',
    formula: 'volume × target time ÷ measured time',
    numbers: [
      named('volume', volume.valueMl, 'mL'),
      named('target', targetSeconds, 's'),
      named('measured', seconds, 's'),
    ],
    result: named('estimate', volumeAtTargetMl, 'mL'),
  };
  return [read, scaled];
}

const rateStep = ({ volume, seconds }: CollectedVolume, rate: number): ArithmeticStep => ({
  label: 'Flow',
  formula: 'volume × 60 s ÷ time',
  numbers: [named('volume', volume?.valueMl ?? NaN, 'mL'), named('time', seconds ?? NaN, 's')],
  result: named('flow', rate, 'mL/min'),
});

const readings = ({ parts, vessel }: VolumeMeasurement): readonly NamedNumber[] => [
  ...(parts?.readingsMl ?? []).map((reading, index) => named(`filling ${index + 1}`, reading, 'mL')),
  named('one mark', vessel.graduationMl, 'mL'),
  vessel.tolerance.kind === 'mL'
    ? named('tolerance ±', vessel.tolerance.halfWidth, 'mL')
    : named('tolerance ±', 100 * vessel.tolerance.halfWidth, '%'),
  ...(parts?.photoMl === undefined
    ? []
    : [named('standard uncertainty off the photograph', parts.photoMl, 'mL')]),
];

/** Boundaries, distance, uncertainties and probabilities of a value that has its place. */
export function placementSteps(placement: Placement, verdict: Verdict): readonly ArithmeticStep[] {
  const nearest = nearestBoundary(placement);
  return [
    ...placement.boundaries.map((boundary) => boundaryStep(boundary, placement)),
    ...(nearest ? [distanceStep(nearest, placement)] : []),
    ...placement.boundaries.flatMap((boundary) => [
      uncertaintyStep(boundary, placement),
      probabilityStep(boundary, placement),
    ]),
    ...zoneSteps(verdict),
  ];
}

function boundaryStep(
  { name, atValue, slopePerRpm }: Boundary,
  { unit, speedRpm }: Placement,
): ArithmeticStep {
  const result = named(name, atValue, unit);
  if (speedRpm === null)
    return { label: `Limit ${name}`, formula: 'from the limit sheet', numbers: [], result };
  return {
    label: `Curve ${name} at this speed`,
    formula: 'between the two points of the curve around the speed',
    numbers: [named('speed', speedRpm, 'rpm'), named('slope there', slopePerRpm, 'mL/rpm')],
    result,
  };
}

function distanceStep({ name, atValue }: Boundary, { value, unit }: Placement): ArithmeticStep {
  return {
    label: `Distance to the nearest boundary, ${name}`,
    formula: 'value − boundary; in per cent: 100 × distance ÷ boundary',
    numbers: [
      named('value', value, unit),
      named('boundary', atValue, unit),
      ...(atValue === 0 ? [] : [named('distance', (100 * (value - atValue)) / atValue, '%')]),
    ],
    result: named('distance', value - atValue, unit),
  };
}

const CAUSES: Readonly<Record<UncertaintyCause, string>> = {
  tolerance: 'vessel tolerance (÷ √3)',
  reading: 'reading, half a mark (÷ √3)',
  photo: 'reading off the photograph',
  line: 'left in the line (÷ √3)',
  volume: 'volume',
  time: 'time (value ÷ time × its uncertainty)',
  speed: 'speed (slope × its uncertainty)',
  value: 'value',
  tracing: 'tracing of the curve, in volume',
  tracingSpeed: 'tracing of the curve, in speed (slope × its uncertainty)',
  spread: 'spread of the values, neighbours leaning on each other (÷ √ of the effective number)',
  resolution: 'one step of the signal (÷ √12)',
  instrument: 'tolerance of the instrument (÷ √3)',
  instrumentStep: 'half a step of the instrument (÷ √3)',
  startEdge: 'beginning, between two values (÷ √12)',
  endEdge: 'end, between two values (÷ √12)',
  lateReport: 'starter on before speed was reported (÷ √3)',
};

/** What a part of an uncertainty comes from, in words. */
export const causeWords = (cause: UncertaintyCause): string => CAUSES[cause];

const uncertaintyStep = ({ name, budget }: Boundary, { unit }: Placement): ArithmeticStep => ({
  label: `Standard uncertainty of the distance to ${name}`,
  formula: 'square root of the sum of the squares',
  numbers: budget.parts.map(({ cause, contribution }) => named(CAUSES[cause], contribution, unit)),
  result: named('u', budget.combined, unit),
});

function probabilityStep({ name, atValue, budget }: Boundary, { value }: Placement): ArithmeticStep {
  const z = (value - atValue) / budget.combined;
  return {
    label: `Distance to ${name} in standard uncertainties`,
    formula: 'distance ÷ u; the normal distribution turns it into a probability',
    numbers: [],
    result: Number.isFinite(z) ? named('z', z, '') : { text: 'no uncertainty given' },
  };
}

function zoneSteps({ probabilities, confidence, leaning }: Verdict): readonly ArithmeticStep[] {
  if (!probabilities || confidence === null || leaning === null) return [];
  return [
    {
      label: 'Probability of each area',
      formula: 'from the normal distribution between the boundaries',
      numbers: Object.entries(probabilities).map(([zone, share]) => named(zone, 100 * share, '%')),
      result: named(leaning, 100 * confidence, '%'),
    },
  ];
}

/** The word that the probabilities earned. */
export function verdictStep({ word, leaning }: Verdict): ArithmeticStep {
  const rule = `a verdict needs ${100 * NEEDED_CONFIDENCE} % for its area`;
  const text = word === 'too close to call' ? `${word}, leaning ${leaning}` : word;
  return { label: 'Verdict', formula: rule, numbers: [], result: { text } };
}
