/** The parts of the drawing in the order they are read and tabbed through: turning, fuel, pressure, listening. */
export const MODEL_PART_IDS = [
  'battery',
  'starter',
  'crankshaft',
  'combustion',
  'tank',
  'suction line',
  'suction filter',
  'supply pump',
  'pressure filter',
  'metering valve',
  'pumping elements',
  'outlet check valves',
  'rail',
  'injectors',
  'relief valve',
  'test relief valve',
  'return lines',
  'vessel',
  'rail sensor',
  'controller',
  'bridge',
] as const;
export type ModelPartId = (typeof MODEL_PART_IDS)[number];

/** Where a part stands on a wide screen: CSS grid lines, row / column / row end / column end. Eight columns, four rows. */
export const MODEL_PLACE: Readonly<Record<ModelPartId, string>> = {
  battery: '1 / 2',
  starter: '1 / 3',
  crankshaft: '1 / 4',
  combustion: '1 / 5',
  tank: '2 / 1',
  'suction line': '2 / 2',
  'suction filter': '2 / 3',
  'supply pump': '2 / 4',
  'pressure filter': '2 / 5',
  'metering valve': '2 / 6',
  'pumping elements': '2 / 7',
  'outlet check valves': '2 / 8',
  rail: '3 / 3 / 4 / 7',
  injectors: '4 / 3',
  'relief valve': '4 / 4',
  'test relief valve': '4 / 5',
  'return lines': '3 / 2',
  vessel: '4 / 2',
  'rail sensor': '4 / 6',
  controller: '4 / 7',
  bridge: '4 / 8',
};

export const MODEL_LINES = ['fuel', 'pressure', 'return', 'turning', 'signal'] as const;
export type ModelLine = (typeof MODEL_LINES)[number];

/** What each kind of line means, in words. */
export const MODEL_LINE_WORDS: Readonly<Record<ModelLine, string>> = {
  fuel: 'fuel',
  pressure: 'fuel under rail pressure',
  return: 'returns',
  turning: 'cable or shaft',
  signal: 'signals',
};

/** The lines behind the parts; a cell of the grid is 100 by 100, and a line may run in the gap between two cells. */
export const MODEL_PATHS: Readonly<Record<ModelLine, string>> = {
  fuel: 'M50 150H650',
  pressure: 'M650 150H750V250H550M250 250V350M350 250V350M450 250V350M550 250V350',
  return: 'M630 150V202H162V250M530 150V202M330 150V202M150 250H50V150M250 350V398M350 350V398M450 350V398H200V264H150M138 250V350', // prettier-ignore
  turning: 'M150 50H450M350 50V150M370 50V98H670V150',
  signal: 'M450 50H700V298H670V350M550 350H750M630 350V298H600V210H560V150',
};

/** The CSS class of a part's box. */
export const modelClass = (id: ModelPartId): string => `at-${id.replaceAll(' ', '-')}`;
