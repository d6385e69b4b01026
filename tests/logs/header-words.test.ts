import { describe, expect, test } from 'vitest';
import {
  normalHeader,
  NOT_TIME_WORDS,
  ROW_NUMBER_WORDS,
  SIGNAL_WORDS,
  TIME_WORDS,
} from '../../src/logs/header-words.ts';
import type { SignalId } from '../../src/quantities/reading.ts';

/** Signals whose strong words stand in a header and whose excluding words do not. */
const told = (header: string): readonly SignalId[] =>
  SIGNAL_WORDS.filter(
    ({ strong, not }) => strong.test(normalHeader(header)) && !not.test(normalHeader(header)),
  ).map(({ signal }) => signal);
const hinted = (header: string): readonly SignalId[] =>
  SIGNAL_WORDS.filter(
    ({ weak, not }) => (weak?.test(normalHeader(header)) ?? false) && !not.test(normalHeader(header)),
  ).map(({ signal }) => signal);

describe('a header as the patterns read it', () => {
  test.each([
    ['Engine Speed', 'engine speed'],
    ['engine_speed', 'engine speed'],
    ['EngineSpeed', 'engine speed'],
    ['ENGINE-SPEED', 'engine speed'],
    ['Régime moteur', 'regime moteur'],
    ['Presión_Riel', 'presion riel'],
    ['Umdrehungen/min', 'umdrehungen min'],
    ['  n   [1/min] ', 'n 1 min'],
    ["Pression d'alimentation", 'pression d alimentation'],
    ['Lüfterdrehzahl', 'lufterdrehzahl'],
    ['', ''],
  ])('"%s" is "%s"', (header, normal) => expect(normalHeader(header)).toBe(normal));
});

/** Headers as loggers write them in English, German, French, Spanish and a few others. From memory. */
const TOLD: Readonly<Record<string, readonly string[]>> = {
  engineSpeed: [
    'Engine Speed',
    'engine_speed_rpm',
    'EngineRPM',
    'Eng Spd',
    'RPM',
    'rpm_raw',
    'Motordrehzahl',
    'Drehzahl',
    'nMot',
    'n_mot',
    'Cranking speed',
    'Crankshaft speed',
    'Régime moteur',
    'Régime',
    'Vitesse moteur',
    'Vitesse de rotation du moteur',
    'Velocidad del motor',
    'Velocidad motor',
    'Régimen del motor',
    'Revoluciones',
    'Giri motore',
    'Toerental',
    'Varvtal',
    'Obroty',
    'SPN 190',
    'SPN190',
    'Umdrehungen',
  ],
  railPressure: [
    'Rail pressure',
    'Fuel Rail Press',
    'FuelRailPressure',
    'Raildruck',
    'Rail-Druck',
    'p_rail',
    'pRail',
    'FRP',
    'SPN 157',
    'Hochdruck',
    'Pression rail',
    'Pression rampe',
    'Pression de la rampe',
    'Presión del riel',
    'Presión rampa',
    'High pressure fuel',
    'Alta presión',
  ],
  commandedRailPressure: [
    'Desired rail pressure',
    'Rail pressure desired',
    'Rail pressure setpoint',
    'Commanded rail pressure',
    'Raildruck Soll',
    'Raildrucksollwert',
    'Target rail press',
    'Pression rail consigne',
    'Presión del riel deseada',
    'Requested fuel rail pressure',
  ],
  supplyPressure: [
    'Fuel supply pressure',
    'Supply pressure',
    'Supply Press',
    'Lift pump pressure',
    'Transfer pump pressure',
    'Low pressure',
    'Low side fuel pressure',
    'Fuel delivery pressure',
    'Vordruck',
    'Niederdruck',
    'Kraftstoff-Niederdruck',
    "Pression d'alimentation",
    'Presión de alimentación',
    'Basse pression',
    'SPN 94',
  ],
  batteryVoltage: [
    'Battery',
    'Battery Voltage',
    'Batt V',
    'Batteriespannung',
    'U_Batt',
    'UBatt',
    'Vbatt',
    'Bordspannung',
    'System voltage',
    'Supply voltage',
    'Batería',
    'Versorgungsspannung',
    'SPN 168',
  ],
  fuelTemperature: [
    'Fuel temperature',
    'Fuel Temp',
    'FuelTemp',
    'Kraftstofftemperatur',
    'T_fuel',
    'Température du carburant',
    'Temperatura del combustible',
    'SPN 174',
  ],
};

describe('words that tell a signal', () => {
  for (const [signal, headers] of Object.entries(TOLD))
    test.each(headers)(`"%s" is ${signal} and nothing else`, (header) =>
      expect(told(header)).toEqual([signal]),
    );

  test.each([
    'Vehicle Speed',
    'Road speed',
    'Wheel speed FL',
    'Fan speed',
    'Fan RPM',
    'Turbo Speed (rpm)',
    'Turbine RPM',
    'Output shaft RPM',
    'Transmission input speed',
    'Pump RPM',
    'Alternator RPM',
    'PTO rpm',
    'Max RPM',
    'RPM limit',
    'Idle RPM',
    'Commanded RPM',
    'Desired engine speed',
    'Target RPM',
    'Solldrehzahl',
    'Drehzahl Soll',
    'Leerlaufdrehzahl Leerlauf',
    'Lüfter Drehzahl',
    'Fahrzeuggeschwindigkeit',
    'Nennwert Drehzahl',
    'Getriebe Drehzahl',
    'Velocidad del vehículo',
    'Vitesse véhicule',
    'Régime consigne',
    'Camshaft RPM',
    'Average RPM',
    'Engine speed error',
    'Rail pressure sensor voltage',
    'Raildruck Abweichung',
    'Rail pressure deviation',
    'Rail valve duty',
    'Oil supply pressure',
    'Air supply pressure',
    'Battery current',
    'Battery temperature',
    'Batterie Strom',
    'Fuel temperature sensor voltage',
    'Coolant temperature',
    'Oil pressure',
    'Boost',
    'Load',
    'Throttle',
    'Sharpman',
    'Kerpmill',
  ])('"%s" tells none', (header) => expect(told(header)).toEqual([]));

  test.each<[string, readonly string[]]>([
    ['Speed', ['engineSpeed']],
    ['n', ['engineSpeed']],
    ['Fuel pressure', ['railPressure', 'supplyPressure']],
    ['Kraftstoffdruck', ['railPressure', 'supplyPressure']],
    ['Presión combustible', ['railPressure', 'supplyPressure']],
    ['Coolant', []],
  ])('"%s" only hints at %s', (header, signals) => {
    expect(told(header)).toEqual([]);
    expect(hinted(header)).toEqual(signals);
  });

  test('each signal may be in units of its own kind only', () => {
    for (const { signal, units } of SIGNAL_WORDS) {
      expect([signal, units.includes('psi')]).toEqual([signal, /pressure$/i.test(signal)]);
      expect([signal, units.includes('rpm')]).toEqual([signal, signal === 'engineSpeed']);
      expect([signal, units.includes('degF')]).toEqual([signal, signal === 'fuelTemperature']);
    }
  });
});

describe('words of time', () => {
  const isTime = (header: string) => TIME_WORDS.test(normalHeader(header)) && !NOT_TIME_WORDS.test(normalHeader(header)); // prettier-ignore

  test.each([
    'Time', 'Timestamp', 'time_s', 'Zeit', 'Uhrzeit', 'Messzeit', 'Zeitstempel', 'Temps', 'Heure', 'Horodatage', 'Tiempo',
    'Hora', 'Elapsed', 'Clock', 't', 'sec', 'Seconds', 'Sekunden', 'ms', 'Millis', 'Date', 'Datum', 'Fecha', 'Epoch',
    'Elapsed Time', 'Tijd', 'Tempo', 'Unix time',
  ])('"%s" is time', (header) => expect(isTime(header)).toBe(true)); // prettier-ignore

  test.each([
    'Engine hours', 'Betriebsstunden', 'Injection time', 'Injection duration', 'Einspritzdauer ms', 'Delay ms',
    'Rise time', 'Glow time', 'Engine time', 'Time to idle', 'Speed', 'Rail pressure', 'Temp', 'Temperature', 'RPM',
    'Timing', 'Sentiment',
  ])('"%s" is none', (header) => expect(isTime(header)).toBe(false)); // prettier-ignore
});

describe('words of row numbers', () => {
  test.each(['No', 'No.', 'Nr', 'Nr.', 'Number', 'Index', 'Sample', 'Samples', 'Record', 'Row', 'Zeile', 'Lfd. Nr.', '#', '# row', 'Count', 'Frame', 'ID', 'Fila', 'Muestra'])(
    '"%s" counts rows',
    (header) => expect(ROW_NUMBER_WORDS.test(normalHeader(header))).toBe(true),
  ); // prettier-ignore

  test.each(['Time', 'Note', 'Nominal', 'Idle', 'Zeit'])('"%s" does not', (header) =>
    expect(ROW_NUMBER_WORDS.test(normalHeader(header))).toBe(false),
  );
});
