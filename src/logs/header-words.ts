import type { SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';

/** By what words a column's header tells its signal. All patterns meet `normalHeader` text. */
export interface SignalWords {
  readonly signal: SignalId;
  /** Units that this signal may be logged in; a header with a unit of another kind rules the signal out. */
  readonly units: readonly UnitId[];
  readonly strong: RegExp;
  readonly weak: RegExp | null;
  readonly not: RegExp;
}

const PRESSURES: readonly UnitId[] = ['psi', 'bar', 'kPa', 'MPa', 'Pa'];
const NOT_MEASURED =
  'desired|commanded|command|cmd|target|setpoint|set point|requested|request|consigne|demand\\w*|desead[ao]|objetivo|ordered|spn ?5313';
const RAIL =
  '\\brail\\b.*\\bp(?:ress\\w*)?\\b|rail ?dru?ck|press\\w* (?:de |du |la )*(?:rail|rampe)|pression (?:rail|rampe)|presion (?:de |del |en )*(?:rail|riel|rampa)|\\bp ?rail|\\bfrp\\b|spn ?157\\b|spn ?5313\\b|hochdruck|high pressure fuel|haute pression|alta presion';
const NOT_PRESSURE =
  'volt|spannung|duty|current|strom|percent|deviation|error|abweichung|differen[tc]|valve|ventil|actuator|temp';

/** The signals that an imported log may hold, the more particular first. Several languages; from memory. */
export const SIGNAL_WORDS: readonly SignalWords[] = [
  {
    signal: 'engineSpeed',
    units: ['rpm'],
    strong:
      /\b(?:eng(?:ine)? ?(?:spd|speed|rpm|revs)|engspd|rpm|r p m|motor ?drehzahl|drehzahl|n ?mot(?:or)?|n ?eng(?:ine)?|crank(?:ing|shaft)? ?(?:speed|rpm)|regime(?: moteur| motore)?|vitesse (?:de rotation )?(?:du )?moteur|velocidad (?:del? )?motor|regimen(?: del? motor)?|revoluciones|giri(?: motore)?|rotacao|toerental|motortoerental|varvtal|obroty|spn ?190|umdrehungen|motordrehz|u min)\b/,
    weak: /\b(?:speed|spd|velocidad|vitesse|n)\b/,
    not: new RegExp(
      `\\b(?:${NOT_MEASURED}|vehicle|veh|road|wheel|ground|car|truck|fahrzeug\\w*|fzg\\w*|\\w*geschwindigkeit|rad\\w*|fan|lufter\\w*|turbo\\w*|turbine|compressor|kompressor|shaft|output|input|transmission|trans|gear\\w*|getriebe\\w*|abtrieb\\w*|pump\\w*|alternator|generator|lichtmaschine\\w*|pto|zapfwelle\\w*|limit\\w*|governor|governed|max\\w*|rated|nenn\\w*|idle|leerlauf\\w*|ralenti|vehicule|vehiculo|roue|rueda|ventil\\w*|wind|cruise|camshaft|cam|nocken\\w*|gps|torque|drehmoment|error|deviation|abweichung|average|avg|mean|accel\\w*|km h|kmh|kph|mph)\\b|soll`,
    ),
  },
  {
    signal: 'commandedRailPressure',
    units: PRESSURES,
    strong: new RegExp(`^(?=.*(?:${RAIL}))(?=.*(?:\\b(?:${NOT_MEASURED})\\b|soll))`),
    weak: null,
    not: new RegExp(NOT_PRESSURE),
  },
  {
    signal: 'railPressure',
    units: PRESSURES,
    strong: new RegExp(RAIL),
    weak: /fuel press|kraftstoffdruck|pression (?:de |du )?carburant|presion (?:del? )?combustible/,
    not: new RegExp(`${NOT_PRESSURE}|soll|\\b(?:${NOT_MEASURED})\\b|\\brail ?2\\b|supply|delivery`),
  },
  {
    signal: 'supplyPressure',
    units: PRESSURES,
    strong:
      /supply press|fuel supply|transfer pump|lift pump|low (?:side )?(?:fuel )?press|fuel delivery press|vordruck|niederdruck|vorforder|pression (?:d )?alimentation|gavage|basse pression|baja presion|presion (?:de )?alimentacion|spn ?94\b/,
    weak: /fuel press|kraftstoffdruck|pression (?:de |du )?carburant|presion (?:del? )?combustible/,
    not: new RegExp(`${NOT_PRESSURE}|soll|\\b(?:${NOT_MEASURED})\\b|\\boil\\b|\\bair\\b|rail`),
  },
  {
    signal: 'batteryVoltage',
    units: ['V', 'mV'],
    strong:
      /\bbatt?(?:ery|erie\w*)?\b|\bu ?batt?\b|\bv ?batt?\b|bordspannung|bordnetz|(?:system|supply) volt|bateria|versorgungsspannung|spn ?168\b/,
    weak: null,
    not: /temp|current|strom|corriente|courant|charge|\bsoc\b/,
  },
  {
    signal: 'fuelTemperature',
    units: ['degC', 'degF'],
    strong:
      /fuel ?temp|kraftstoff ?temp|temp\w* (?:du |de )?carburant|temp\w* (?:del? )?combustible|\bt ?fuel\b|spn ?174\b/,
    weak: null,
    not: /volt|spannung/,
  },
];

/** Words of a header that mean time, and such that do not although a word of time is in them. */
export const TIME_WORDS =
  /\b(?:time|timestamp|zeit\w*|uhrzeit|laufzeit|messzeit|temps|heure|horodatage|tiempo|hora|tempo|ora|elapsed|clock|t|secs?|seconds?|sekunden?|secondes?|segundos?|ms|msec|millis\w*|millisekunden|datetime|date|datum|fecha|tijd|tid|czas|epoch|unix)\b/;
export const NOT_TIME_WORDS =
  /\b(?:hours|\w*stunden|heures|horas|injection|einspritz\w*|delay|duration|dauer|response|rise|glow|engine|motor|fuel|to|idle|on time|rpm|speed|press\w*|temp(?!(?:s|o)\b)\w*)\b/;
export const ROW_NUMBER_WORDS =
  /^(?:no|nr|num|number|nummer|index|idx|samples?|record|rec|row|points?|zeile|satz|lfd(?: nr)?|pos|n|n[°º]|count|counter|frame|id|ligne|fila|muestra|messpunkt|scan|datensatz)\b|^#/;

/** Header as the patterns read it: lower case, no accents, camelCase and separators as blanks. */
export const normalHeader = (header: string): string =>
  header
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[_\-./:;,'"’()[\]]+/g, ' ')
    .replace(/ {2,}/g, ' ')
    .trim();
