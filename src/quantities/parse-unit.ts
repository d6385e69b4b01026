import type { UnitId } from './unit.ts';

/** Spellings as they are left by `bare`: lower case, no spaces, dots or brackets. */
const SPELLINGS: Readonly<Partial<Record<UnitId, string>>> = {
  rpm: 'rpm 1/min /min min-1 r/min rev/min revs/min revolutions/min u/min upm tr/min giri/min obr/min об/мин',
  kPa: 'kpa kpag kpagauge kilopascal kilopascals',
  MPa: 'mpa mpag mpagauge megapascal megapascals',
  bar: 'bar bars barg bargauge',
  psi: 'psi psig psigauge lb/in2 lbs/in2 lbf/in2 lb/sqin lbf/sqin',
  Pa: 'pa pag pascal pascals',
  inHg: 'inhg inchhg incheshg "hg',
  mmHg: 'mmhg',
  V: 'v volt volts vdc',
  mV: 'mv mvdc millivolt millivolts',
  degC: '°c degc degreesc degreec c celsius gradc degcelsius °celsius',
  degF: '°f degf degreesf degreef f fahrenheit degfahrenheit °fahrenheit',
  mL: 'ml cc ccm cm3 milliliter milliliters millilitre millilitres',
  L: 'l ltr liter liters litre litres',
  usFlOz: 'floz usfloz flozus usfluidounce fluidounce fluidounces',
  impFlOz: 'impfloz imperialfloz ukfloz flozuk flozimp',
  ms: 'ms msec msecs millisecond milliseconds',
  s: 's sec secs second seconds sek sekunde sekunden',
  min: 'min mins minute minutes minuten',
  percent: '% percent pct',
  h: 'h hr hrs hour hours std stunden',
};

const BY_SPELLING: ReadonlyMap<string, UnitId> = new Map(
  Object.entries(SPELLINGS).flatMap(([unit, spellings]) =>
    spellings.split(' ').map((spelling): [string, UnitId] => [spelling, unit as UnitId]),
  ),
);

/** Compatibility forms made plain (superscripts, the one-character degC), and what carries no meaning dropped. */
const bare = (text: string): string =>
  text
    .replaceAll('º', '°')
    .replaceAll('˚', '°')
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('−', '-')
    .replace(/[\s._^*()[\]{}]/g, '');

/**
 * The unit that a header or a person means, whatever its case or spacing; "mPa" is read as MPa, since nobody logs millipascals.
 * Null for everything else, absolute pressures too ("psia", "bar abs"): their zero is not that of a gauge.
 */
export const parseUnit = (text: string): UnitId | null => BY_SPELLING.get(bare(text)) ?? null;
