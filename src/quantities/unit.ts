/** What can be measured in Meniscus. Each dimension has one canonical unit, used everywhere inside. */
export type Dimension =
  'speed' | 'pressure' | 'voltage' | 'temperature' | 'volume' | 'span' | 'ratio' | 'hours' | 'state';

/** The units that a file may hold, a screen may show or a person may type. */
export const UNIT_IDS = [
  'rpm',
  'kPa',
  'MPa',
  'bar',
  'psi',
  'Pa',
  'inHg',
  'mmHg',
  'V',
  'mV',
  'degC',
  'degF',
  'mL',
  'L',
  'usFlOz',
  'impFlOz',
  'ms',
  's',
  'min',
  'percent',
  'h',
  'state',
] as const;
export type UnitId = (typeof UNIT_IDS)[number];
