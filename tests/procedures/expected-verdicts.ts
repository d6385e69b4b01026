import type { CheckFinding } from '../../src/procedures/finding.ts';

type Words = Readonly<Record<string, CheckFinding['word']>>;

/**
 * Defect × check → the verdict that the trade expects (common practice, no source; written from how the fuel path works, before the ranking was).
 * What is not named passes. `seen` is the inspection point's cause, where looking shows it.
 */
export const EXPECTED: Readonly<
  Record<string, { readonly words: Words; readonly seen?: readonly [check: string, cause: string] }>
> = {
  'low-fuel': {
    words: { 'fuel-quality': 'fail low', 'supply-load': 'fail low', 'final-drive': 'fail high' },
    seen: ['fuel-quality', 'low-fuel'],
  },
  'bad-fuel': {
    words: { 'fuel-quality': 'fail low', 'final-drive': 'fail high' },
    seen: ['fuel-quality', 'bad-fuel'],
  },
  'water-in-fuel': { words: { filters: 'fail low' }, seen: ['filters', 'water-in-fuel'] },
  'clogged-filter': {
    words: {
      'suction-restriction': 'fail high',
      'supply-high-idle': 'fail low',
      'supply-load': 'fail low',
      'final-drive': 'fail high',
      filters: 'fail low',
    },
    seen: ['filters', 'clogged-filter'],
  },
  'suction-restriction': {
    words: {
      'suction-restriction': 'fail high',
      'supply-high-idle': 'marginal',
      'supply-load': 'fail low',
      'final-drive': 'fail high',
    },
  },
  'air-leak': {
    words: { 'air-in-fuel': 'fail low', 'supply-cranking': 'fail low', 'rail-build': 'fail high' },
    seen: ['air-in-fuel', 'air-leak'],
  },
  'weak-supply-pump': {
    words: {
      'supply-cranking': 'fail low',
      'supply-idle': 'fail low',
      'supply-high-idle': 'fail low',
      'supply-load': 'fail low',
      'rail-build': 'fail high',
      'crank-delivery': 'fail low',
      'final-drive': 'fail high',
    },
  },
  'sticking-metering-valve': {
    words: { 'rail-build': 'fail high', 'crank-delivery': 'marginal', 'final-drive': 'fail low' },
  },
  'cracked-metering-housing': {
    words: {
      'pump-return': 'fail high',
      'rail-build': 'marginal',
      'crank-delivery': 'marginal',
      'supply-cranking': 'marginal',
    },
  },
  'worn-elements': {
    words: {
      'pump-return': 'fail high',
      'rail-build': 'fail high',
      'crank-delivery': 'fail low',
      'final-drive': 'fail high',
    },
  },
  'dead-element': {
    words: { 'rail-build': 'fail high', 'crank-delivery': 'fail low', 'final-drive': 'fail high' },
  },
  'leaking-outlet-valve': {
    words: {
      'rail-decay': 'fail low',
      'rail-build': 'fail high',
      'crank-delivery': 'fail low',
      'final-drive': 'fail high',
    },
  },
  'leaking-relief-valve': {
    words: {
      'relief-valve-leak': 'fail high',
      'rail-decay': 'fail low',
      'rail-build': 'fail high',
      'final-drive': 'fail high',
    },
  },
  'high-injector-return': {
    words: {
      'injector-return-cranking': 'fail high',
      'injector-return-idle': 'fail high',
      'rail-decay': 'fail low',
      'rail-build': 'fail high',
      'final-drive': 'fail high',
    },
  },
  'weak-battery': {
    seen: ['batteries', 'weak-battery'],
    words: {
      batteries: 'fail low',
      'supply-cranking': 'fail low',
      'rail-build': 'fail high',
      'crank-delivery': 'not valid',
      'injector-return-cranking': 'not valid',
    },
  },
  'cranking-drag': {
    seen: ['batteries', 'cranking-drag'],
    words: {
      batteries: 'fail low',
      'supply-cranking': 'fail low',
      'rail-build': 'fail high',
      'crank-delivery': 'not valid',
      'injector-return-cranking': 'not valid',
    },
  },
  'rail-sensor': {
    words: {
      'rail-at-rest': 'fail high',
      'rail-build': 'fail low',
      'rail-decay': 'fail high',
      'final-drive': 'fail low',
    },
  },
  wiring: { words: { 'rail-at-rest': 'not valid', 'rail-build': 'fail high', 'final-drive': 'fail high' } },
  'clogged-pressure-filter': {
    words: {
      filters: 'fail low',
      'supply-high-idle': 'marginal',
      'supply-load': 'fail low',
      'final-drive': 'fail high',
    },
    seen: ['filters', 'clogged-pressure-filter'],
  },
  'bridge-cable': {
    words: {
      'suction-restriction': 'not valid',
      'supply-idle': 'not valid',
      'rail-build': 'not valid',
      'rail-decay': 'not valid',
      'crank-delivery': 'not valid',
      'final-drive': 'not valid',
    },
  },
  'wrong-set-up': { words: { 'pump-return': 'fail low', 'crank-delivery': 'fail high' } },
};
