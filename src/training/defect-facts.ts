import type { Defect, DefectKind } from '../../simulators/engine/defects.ts';

/** What a person is told of a defect at the end. */
export interface DefectFacts {
  /** In plain words, within a sentence. */
  readonly name: string;
  /** The causes of the shipped procedure that name it, the likeliest first. A set of filters that is clogged on both sides is named by either. */
  readonly causes: readonly [string, ...string[]];
  /** What it did to this engine, as a sentence. */
  readonly did: string;
  /** It lies in the measuring, not in the engine: nothing of the engine has to be repaired. */
  readonly ofMeasuring: boolean;
}

/** Written from the bench's own model (simulators/engine/defects.ts) and common practice, no source. */
export const DEFECT_FACTS: Readonly<Record<DefectKind, DefectFacts>> = {
  'clogged filter': {
    name: 'clogged filters',
    causes: ['clogged-filter', 'clogged-pressure-filter'],
    did: 'Fuel came through the filters with resistance: more vacuum in front of the supply pump, less pressure behind it, most of all at high idle and under load.',
    ofMeasuring: false,
  },
  'suction restriction': {
    name: 'a tight suction line',
    causes: ['suction-restriction'],
    did: 'The supply pump had to suck hard: high vacuum in the suction line, and supply pressure that fell as more fuel was asked for.',
    ofMeasuring: false,
  },
  'air leak': {
    name: 'air drawn in on the suction side',
    causes: ['air-leak'],
    did: 'Bubbles took up part of what the supply pump moved, so supply pressure came late and low while cranking, and rail pressure built slowly.',
    ofMeasuring: false,
  },
  'weak supply pump': {
    name: 'a weak supply pump',
    causes: ['weak-supply-pump'],
    did: 'Supply pressure was low at every operating point though the suction side was free, and the high-pressure pump did not fill.',
    ofMeasuring: false,
  },
  'sticking metering valve': {
    name: 'a sticking metering valve',
    causes: ['sticking-metering-valve'],
    did: 'The valve did not open as far as it was told and moved in jerks: too little fuel reached the pumping elements, and rail pressure hunted.',
    ofMeasuring: false,
  },
  'cracked metering housing': {
    name: 'a cracked metering housing',
    causes: ['cracked-metering-housing'],
    did: 'Supply fuel went through the crack into the pump’s return: a high pump return, and somewhat less supply pressure and delivery.',
    ofMeasuring: false,
  },
  'worn pump elements': {
    name: 'worn pumping elements',
    causes: ['worn-elements'],
    did: 'Fuel went back through the gaps of the pumping elements: a high pump return, slow rail pressure build and low crank delivery.',
    ofMeasuring: false,
  },
  'one element dead': {
    name: 'one pumping element that did not deliver',
    causes: ['dead-element'],
    did: 'Up to half of the delivery was missing while the return stayed as usual; rail pressure rippled once a turn of the pump.',
    ofMeasuring: false,
  },
  'leaking outlet check valve': {
    name: 'an outlet check valve that let fuel back',
    causes: ['leaking-outlet-valve'],
    did: 'Fuel went back from the rail into the pump: rail pressure decayed fast after key off, and crank delivery was low.',
    ofMeasuring: false,
  },
  'leaking rail relief valve': {
    name: 'a rail relief valve that leaked',
    causes: ['leaking-relief-valve'],
    did: 'Fuel left the rail through the relief valve far below its opening pressure: a relief return where none should be, slow build and fast decay.',
    ofMeasuring: false,
  },
  'high injector return': {
    name: 'injectors that lost too much to their return',
    causes: ['high-injector-return'],
    did: 'Fuel left the rail through the injectors: a high injector return while cranking and at idle, slow build and fast decay.',
    ofMeasuring: false,
  },
  'weak battery': {
    name: 'weak batteries',
    causes: ['weak-battery'],
    did: 'The starter turned the engine too slowly: whatever depends on cranking speed came out low or could not be graded.',
    ofMeasuring: false,
  },
  'corroded starter cable': {
    name: 'a corroded starter cable',
    causes: ['weak-battery'],
    did: 'The starter got too little current: the engine turned too slowly, though the battery’s own voltage fell little.',
    ofMeasuring: false,
  },
  'high cranking drag': {
    name: 'high cranking drag',
    causes: ['cranking-drag'],
    did: 'The engine turned stiffly: cranking was slow though the batteries were in order.',
    ofMeasuring: false,
  },
  'noisy rail sensor': {
    name: 'a noisy rail pressure sensor',
    causes: ['rail-sensor', 'wiring'],
    did: 'The sensor’s value jumped though the pressure did not; the controller answered to what it was told.',
    ofMeasuring: false,
  },
  'stuck rail sensor': {
    name: 'a stuck rail pressure sensor',
    causes: ['rail-sensor', 'wiring'],
    did: 'The sensor hardly followed the pressure: what was shown as rail pressure was not the pressure in the rail.',
    ofMeasuring: false,
  },
  'dropped frames': {
    name: 'a measuring bridge that lost frames',
    causes: ['bridge-cable'],
    did: 'A part of the data never arrived. The engine was sound; runs could not be graded or were less certain.',
    ofMeasuring: true,
  },
  'loose bridge cable': {
    name: 'a loose cable of the measuring bridge',
    causes: ['bridge-cable'],
    did: 'The data stopped and came back. The engine was sound; runs had holes.',
    ofMeasuring: true,
  },
};

/** Below this it may run on and be watched; from there on it is to be repaired (invented). */
export const PLAIN_SEVERITY = 0.4;

const SEVERITY_WORDS: readonly (readonly [below: number, words: string])[] = [
  [0.2, 'slight'],
  [PLAIN_SEVERITY, 'mild'],
  [0.65, 'plain'],
  [0.85, 'severe'],
  [Infinity, 'as bad as it gets'],
];

/** How bad a defect is, in words; 0 to 1. */
export const severityWords = ({ severity }: Defect): string =>
  SEVERITY_WORDS.find(([below]) => severity < below)![1];
