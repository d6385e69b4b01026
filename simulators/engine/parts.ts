import type { DefectKind } from './defects.ts';

/** What can be replaced at the bench. The names of the fuel path are those of the stations of a procedure. */
export const PARTS = [
  'suction line',
  'suction filter',
  'supply pump',
  'pressure filter',
  'metering valve',
  'high-pressure pump',
  'rail sensor',
  'relief valve',
  'injectors',
  'battery',
  'starter',
  'bridge',
] as const;
export type Part = (typeof PARTS)[number];

/** Which parts carry a defect: with a new one it is gone. Filters are changed as a set. */
export const PARTS_OF: Readonly<Record<DefectKind, readonly Part[]>> = {
  'clogged filter': ['suction filter', 'pressure filter'],
  'suction restriction': ['suction line'],
  'air leak': ['suction line'],
  'weak supply pump': ['supply pump'],
  'sticking metering valve': ['metering valve'],
  'cracked metering housing': ['metering valve'],
  'worn pump elements': ['high-pressure pump'],
  'one element dead': ['high-pressure pump'],
  'leaking outlet check valve': ['high-pressure pump'],
  'leaking rail relief valve': ['relief valve'],
  'high injector return': ['injectors'],
  'weak battery': ['battery'],
  'corroded starter cable': ['starter', 'battery'],
  'high cranking drag': ['starter'],
  'noisy rail sensor': ['rail sensor'],
  'stuck rail sensor': ['rail sensor'],
  'dropped frames': ['bridge'],
  'loose bridge cable': ['bridge'],
};

const DRY: readonly Part[] = ['rail sensor', 'battery', 'starter', 'bridge'];

/** Whether the fuel path is opened for it, so that air gets in. */
export const opensFuelPath = (part: Part): boolean => !DRY.includes(part);
