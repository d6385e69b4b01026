/** What a seed is written in; `auto` is not one, since it has no text of its own. */
export type Dialect = 'slcan' | 'candump' | 'screen' | 'json' | 'csv';

export interface Seed {
  readonly dialect: Dialect;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A frame as it is written by hand: identifier and data, both in hex. */
export type HandFrame = readonly [id: string, data: string];

export const ascii = (text: string): Uint8Array =>
  Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0xff);

/**
 * Traffic that reaches every part of src/j1939, by hand from SAE J1939-21 (transport) and J1939-73 (trouble codes), as
 * reference/j1939.md tells them. The VIN of seventeen ones is the usual example of one whose check digit is right.
 */
const TRAFFIC: Readonly<Record<string, readonly HandFrame[]>> = {
  'engine speed, 0 to 188 rpm': [
    ['0CF00400', 'FFFFFF0000FFFFFF'],
    ['0CF00400', 'FFFFFF6804FFFFFF'],
    ['0CF00400', 'FFFFFFE005FFFFFF'],
    ['0CF00403', 'FFFFFFFFFFFFFFFF'],
    ['0CF00400', 'FFFFFFFFFEFFFFFF'],
  ],
  'rail pressure, temperatures, battery': [
    ['18FEDB00', 'FFFF80400000FFFF'],
    ['18FEEE00', '5A3C4000FFFFFFFF'],
    ['18FEF700', 'FFFFFFFFF200FFFF'],
    ['18FEFC17', 'FF80FFFFFFFFFFFF'],
  ],
  'DM1 in one frame, SPN 157 FMI 18': [['18FECA00', '04FF9D0012017FFF']],
  'DM1 without codes': [['18FECA00', '00FF00000000FFFF']],
  'DM1 of three codes, announced to all': [
    ['18ECFF00', '200E0003FFCAFE00'],
    ['18EBFF00', '0104FF9D001201BE'],
    ['18EBFF00', '0200020100640004'],
    ['18EBFF00', '030A01FFFFFFFFFF'],
  ],
  'DM2 of two codes, announced to all': [
    ['18ECFF00', '200A0002FFCBFE00'],
    ['18EBFF00', '0100FF9D00120164'],
    ['18EBFF00', '02000401FFFFFFFF'],
  ],
  'VIN, announced to all': [
    ['18ECFF00', '20120003FFECFE00'],
    ['18EBFF00', '0131313131313131'],
    ['18EBFF00', '0231313131313131'],
    ['18EBFF00', '033131312AFFFFFF'],
  ],
  'component identification in a session between two addresses': [
    ['18EAFFF9', 'EBFE00'],
    ['1CECF900', '10100003FFEBFE00'],
    ['1CEC00F9', '110301FFFFEBFE00'],
    ['1CEBF900', '014D414B452A4D4F'],
    ['1CEBF900', '0244454C2A534E31'],
    ['1CEBF900', '03322AFFFFFFFFFF'],
    ['1CEC00F9', '13100003FFEBFE00'],
  ],
  'software identification, and a session aborted': [
    ['18ECFF00', '200B0002FFDAFE00'],
    ['18EBFF00', '01015631322E332A'],
    ['18EBFF00', '02562A2A2AFFFFFF'],
    ['1CEC2100', '10000705FFEBFE00'],
    ['1CEC0021', 'FF03FFFFFFEBFE00'],
  ],
  'address claimed, request, 11-bit frame': [
    ['18EEFF00', '0102030405060780'],
    ['18EA00F9', 'CAFE00'],
    ['7DF', '02010C0000000000'],
  ],
};

/** A frame as an SLCAN line with CR; `stamp` in ms or null. Lower case `t` for identifiers of three digits. */
export function slcanLine([id, data]: HandFrame, stamp: number | null): string {
  const letter = id.length > 3 ? 'T' : 't';
  const shown = stamp === null ? '' : (stamp % 60_000).toString(16).toUpperCase().padStart(4, '0');
  return `${letter}${id}${data.length / 2}${data}${shown}\r`;
}

/** A frame as a line of a candump log, time since 1970. */
export const logLine = ([id, data]: HandFrame, atMs: number): string =>
  `(${(1_700_000_000 + atMs / 1000).toFixed(6)}) can0 ${id}#${data}\n`;

/** A frame as candump prints it on the screen, stamps from zero. */
export const screenLine = ([id, data]: HandFrame, atMs: number): string =>
  ` (${(atMs / 1000).toFixed(6).padStart(10, '0')})  can0  ${id}   [${data.length / 2}]  ${data.replace(/..(?!$)/g, '$& ')}\n`;

const framesOf = (name: string): readonly HandFrame[] => TRAFFIC[name]!;

const wired: readonly Seed[] = Object.keys(TRAFFIC).flatMap((name) => [
  seed(
    'slcan',
    name,
    framesOf(name)
      .map((frame, place) => slcanLine(frame, 10 * place))
      .join(''),
  ),
  seed(
    'slcan',
    `${name}, no stamps`,
    framesOf(name)
      .map((frame) => slcanLine(frame, null))
      .join(''),
  ),
  seed(
    'candump',
    name,
    framesOf(name)
      .map((frame, place) => logLine(frame, 10 * place))
      .join(''),
  ),
  seed(
    'screen',
    name,
    framesOf(name)
      .map((frame, place) => screenLine(frame, 10 * place))
      .join(''),
  ),
]);

const quirks: readonly Seed[] = [
  seed('slcan', 'replies of a bridge', '\r\x07V1013\rN1234\rF00\rz\rZ\r&T0CF004008FFFFFF6804FFFFFF\r'),
  seed('slcan', 'lost frames told', 'F09\re10ro\rt1232AABB\n\rr12344\r\x07'),
  seed(
    'candump',
    'drops, remarks, errors',
    '# remark\nDROPCOUNT: dropped 3 CAN frames on can0\n can0 123#R4\n',
  ),
  seed(
    'candump',
    'long frames and colours',
    '\x1b[31m(1.0) can0 123##1AABB\x1b[0m\n(1.1) can1 1F334455#11.22.33\n',
  ),
  seed(
    'json',
    'speeds',
    '{"engineSpeed": 151.2, "t": 0.02}\n{"engineSpeed": 152.0, "t": 0.04}\r\n{"t":0.06}\n',
  ),
  seed('json', 'several signals', '{"t":1,"engineSpeed":148,"railPressure":32000,"batteryVoltage":10.4}\n'),
  seed('json', 'odd numbers', '{"engineSpeed":1e999,"t":-0}\n{"engineSpeed":null,"t":"x"}\n[[[[{}]]]]\n""\n'),
  seed('csv', 'speeds', 't,engineSpeed\n0.00,0\n0.02,148.5\n0.04,151.0\n0.06,\n'),
  seed('csv', 'semicolons and commas', 't;engineSpeed;batteryVoltage\r\n0,00;0;12,4\r\n0,02;148,5;10,1\r\n'),
  seed('csv', 'quotes', '"t","engineSpeed"\n"0.0","1""5"\n"0.1,"151\n'),
];

/** Everything the mutations begin from. All of it is right as it stands, save the quirks, which a good reader survives. */
export const CORPUS: readonly Seed[] = [...wired, ...quirks];

function seed(dialect: Dialect, name: string, text: string): Seed {
  return { dialect, name, bytes: ascii(text) };
}
