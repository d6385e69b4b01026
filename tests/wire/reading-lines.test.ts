import { describe, expect, test } from 'vitest';
import { NO_ORIGIN } from '../../src/quantities/reading.ts';
import { liveReadingLinesDecoder, READING_LINE_LIMIT } from '../../src/wire/reading-lines.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import { readThrough, refused, said, type Piece } from './decode-lines.ts';

const live = (...pieces: Piece[]) => readThrough(runDecoder(liveReadingLinesDecoder), pieces);
const text = (lines: string) => live([1000, lines]);

describe('JSON objects, one a line', () => {
  test('give a reading for each known key, in the order of the line, without an origin', () => {
    const read = text('{"engineSpeed": 151.2, "t": 12345, "railPressure_bar": 300}\n');
    expect(said(read)).toEqual(['1000 engineSpeed=151.2', '1000 railPressure=30000']);
    expect(read.readings[0]).toEqual({
      signal: 'engineSpeed',
      atMs: 1000,
      value: 151.2,
      quality: 'valid',
      origin: NO_ORIGIN,
    });
    expect(read.decoder.counts).toMatchObject({ lines: 1, frames: 1, bytes: 60 });
  });

  test.each([
    ['null', 'null'],
    ['a bare nan, as microcontrollers print it', 'nan'],
    ['NaN', 'NaN'],
    ['a negative nan', '-nan'],
    ['an empty string', '""'],
    ['nan in quotes', '"nan"'],
  ])('say "not available" by %s', (_what, value) => {
    const read = text(`{"t":1,"engineSpeed":${value}}\n`);
    expect(read.readings.map(({ value, quality }) => [value, quality])).toEqual([[null, 'notAvailable']]);
    expect(refused(read)).toEqual({});
  });

  test.each([
    ['a number in quotes', '"151.5"', 151.5],
    ['a decimal comma in quotes', '"151,5"', 151.5],
    ['an exponent', '1.515e2', 151.5],
    ['zero', '0', 0],
    ['a negative number', '-3', -3],
  ])('may hold %s', (_what, value, expected) => {
    expect(text(`{"rpm":${value}}\n`).readings.map((reading) => reading.value)).toEqual([expected]);
  });

  test('may hold true and false for a state', () => {
    expect(said(text('{"waterInFuel":true}\n{"waterInFuel":false}\n'))).toEqual([
      '1000 waterInFuel=1',
      '1000 waterInFuel=0',
    ]);
  });

  test.each([
    ['Infinity is no JSON', '{"rpm":Infinity}', 'unknownLine'],
    ['inf, as microcontrollers print it', '{"rpm":inf}', 'unknownLine'],
    ['1e300', '{"rpm":1e300}', 'badValue'],
    ['1e999, which JSON reads as infinite', '{"rpm":1e999}', 'badValue'],
    ['a word for a number', '{"rpm":"fast"}', 'badValue'],
    ['an object for a number', '{"rpm":{"value":1}}', 'badValue'],
    ['a list for a number', '{"rpm":[1]}', 'badValue'],
    ['one bad value beside a good one', '{"battery":12.1,"rpm":1e300}', 'badValue'],
    ['a stamp without end', '{"rpm":1,"t":1e300}', 'badValue'],
    ['a cut object', '{"rpm":15', 'unknownLine'],
    ['two objects', '{"rpm":1}{"rpm":2}', 'unknownLine'],
    ['a list', '[{"rpm":1}]', 'unknownLine'],
    ['deep nesting', `{"a":${'['.repeat(4000)}`, 'unknownLine'],
  ])('are malformed: %s', (_what, line, reason) => {
    const read = text(`\n${line}\n{"rpm":7}\n`);
    expect(refused(read)).toEqual({ [reason]: 1 });
    expect(said(read)).toEqual(['1000 engineSpeed=7']);
    expect(read.decoder.counts.recentMalformed[0]).toMatchObject({ text: line.slice(0, 48), atMs: 1000 });
  });

  test('of two keys for one signal the first counts', () => {
    expect(said(text('{"rpm":7,"engineSpeed":8,"speed_rpm":9}\n'))).toEqual(['1000 engineSpeed=7']);
  });

  test('tell an unknown key once, and none beyond the first 32', () => {
    const read = text('{"rpm":1,"gear":2}\n{"rpm":1,"gear":3,"temp":4}\n');
    expect(read.notes).toEqual([
      { kind: 'unknownKey', text: 'gear' },
      { kind: 'unknownKey', text: 'temp' },
    ]);
    const many = Array.from({ length: 1000 }, (_, i) => `{"k${i}":1,"rpm":1}\n`).join('');
    expect(text(many).notes).toHaveLength(32);
    expect(text(many).readings).toHaveLength(1000);
  });

  test('without a known key are neither readings nor malformed', () => {
    const read = text('{"gear":2}\n{}\n{"t":5}\n');
    expect(read.readings).toEqual([]);
    expect(refused(read)).toEqual({});
    expect(read.decoder.counts).toMatchObject({ lines: 3, frames: 0 });
  });
});

describe('cells under a header', () => {
  test.each([
    ['comma', 't,engineSpeed,railPressure\n100,150.5,30000\n120,151,30100\n'],
    ['comma and blank', 't, engineSpeed, railPressure\n100, 150.5, 30000\n120, 151, 30100\n'],
    ['semicolon', 't;engineSpeed;railPressure\n100;150.5;30000\n120;151;30100\n'],
    ['semicolon and decimal comma', 't;engineSpeed;railPressure_bar\n100;150,5;300\n120;151,0;301\n'],
    ['tab', 't\tengineSpeed\trailPressure\n100\t150.5\t30000\n120\t151\t30100\n'],
    ['tab and decimal comma', 't\trpm\trail_bar\n100\t150,5\t300,0\n120\t151\t301\n'],
    ['quotes', '"t","engineSpeed","railPressure"\n"100","150.5","30000"\n120,151,30100\n'],
    ['a delimiter at the end of the rows', 't,rpm,rail\n100,150.5,30000,\n120,151,30100,\n'],
    ['a delimiter at the end of all lines', 't,rpm,rail,\n100,150.5,30000,\n120,151,30100,\n'],
  ])('are read with %s', (_what, lines) => {
    for (const ends of ['\n', '\r\n', '\r', '\n\n'])
      expect(said(text(lines.replaceAll('\n', ends)))).toEqual([
        '1000 engineSpeed=150.5',
        '1000 railPressure=30000',
        '1020 engineSpeed=151',
        '1020 railPressure=30100',
      ]);
  });

  test('may be one column', () => {
    expect(said(text('rpm\n150\n151.5\n'))).toEqual(['1000 engineSpeed=150', '1000 engineSpeed=151.5']);
  });

  test('a column that means nothing is skipped, whatever is in it, and told', () => {
    const read = text('state,rpm\ncranking,150\nrest,0\n');
    expect(said(read)).toEqual(['1000 engineSpeed=150', '1000 engineSpeed=0']);
    expect(read.notes).toEqual([{ kind: 'unknownKey', text: 'state' }]);
  });

  test.each(['', 'nan', 'NaN', 'NAN', 'null', 'N/A', '-', '  '])('an absent value may be %j', (cell) => {
    expect(said(text(`rpm,battery\n150,${cell}\n`))).toEqual([
      '1000 engineSpeed=150',
      '1000 batteryVoltage=-',
    ]);
  });

  test.each([
    ['too few cells', '150', 'wrongLength'],
    ['too many cells', '150,12.1,3,4', 'wrongLength'],
    ['a decimal comma where the comma delimits', '150,5,12,1', 'wrongLength'],
    ['a word', '150,low', 'badValue'],
    ['infinity', 'inf,12.1', 'badValue'],
    ['the overflow of a print', 'ovf,12.1', 'badValue'],
    ['hexadecimal', '0x96,12.1', 'badValue'],
    ['two points', '1.5.0,12.1', 'badValue'],
    ['a number out of this world', '150,1e300', 'badValue'],
    ['text', 'sensor not found', 'unknownLine'],
  ])('%s makes a line malformed, and the next is read', (_what, line, reason) => {
    const read = text(`rpm,battery\n${line}\n150,12\n`);
    expect(refused(read)).toEqual({ [reason]: 1 });
    expect(said(read)).toEqual(['1000 engineSpeed=150', '1000 batteryVoltage=12']);
  });

  test('are malformed before any header', () => {
    const read = text('100,150,30000\n120,151,30100\nt,rpm,rail\n140,152,30200\n');
    expect(refused(read)).toEqual({ cutLine: 1, unknownLine: 1 });
    expect(said(read)).toEqual(['1000 engineSpeed=152', '1000 railPressure=30200']);
  });

  test('follow the last header: a board that starts again may send others', () => {
    const read = text('rpm,battery\n150,12\nrpm,battery\n151,12\nbattery;rpm;rail_bar\n11,5;152;300\n');
    expect(said(read)).toEqual([
      '1000 engineSpeed=150',
      '1000 batteryVoltage=12',
      '1000 engineSpeed=151',
      '1000 batteryVoltage=12',
      '1000 batteryVoltage=11.5',
      '1000 engineSpeed=152',
      '1000 railPressure=30000',
    ]);
    expect(refused(read)).toEqual({});
  });

  test('may be mixed with JSON objects', () => {
    expect(said(text('rpm,battery\n150,12\n{"rail_bar":1}\n151,12\n'))).toHaveLength(5);
  });
});

describe('around the lines', () => {
  test('blank lines and remarks are skipped', () => {
    const read = text('# a sketch\r\n\r\n   \r\n{"rpm":1}\r\n# {"rpm":2}\r\n\t\r\n');
    expect(said(read)).toEqual(['1000 engineSpeed=1']);
    expect(refused(read)).toEqual({});
  });

  test('what a board prints while it starts is counted, not thrown', () => {
    const boot =
      '\x00\xffets Jun  8 2016 00:22:57\r\n\r\nboot:0x13 (FLASH)\r\nload:0x3fff0018,len:4\r\nready, waiting\r\n';
    const read = text(`${boot}{"rpm":1}\r\n`);
    expect(said(read)).toEqual(['1000 engineSpeed=1']);
    expect(Object.values(refused(read)).reduce((sum, lines) => sum + lines)).toBe(4);
  });

  test('a line without end is dropped once, up to its end', () => {
    const junk = '{'.repeat(READING_LINE_LIMIT);
    const read = live([0, junk], [1, junk], [2, junk], [3, '\n{"rpm":1}\n']);
    expect(refused(read)).toEqual({ tooLong: 1 });
    expect(said(read)).toEqual(['3 engineSpeed=1']);
  });

  test('the longest line that is read holds all signals with units', () => {
    const longest = `{"rpm":1,"note":"${'x'.repeat(READING_LINE_LIMIT - 20)}"}`;
    expect(longest.length).toBeLessThanOrEqual(READING_LINE_LIMIT);
    expect(said(text(`${longest}\n`))).toEqual(['1000 engineSpeed=1']);
  });

  test('at the end an object without a line end is taken, a row is not: its last number might go on', () => {
    expect(said(text('{"rpm":1}'))).toEqual(['1000 engineSpeed=1']);
    const row = text('rpm,battery\n150,12\n151,1');
    expect(said(row)).toEqual(['1000 engineSpeed=150', '1000 batteryVoltage=12']);
    expect(refused(row)).toEqual({ cutLine: 1 });
    expect(refused(text('{"rpm":1}\n{"rp'))).toEqual({ cutLine: 1 });
    expect(refused(text('{"rpm":1}\n# end'))).toEqual({});
    expect(refused(text('{"rpm":1}\n  '))).toEqual({});
  });

  test('behind an opening no rest of a row is taken for one, and the header still holds', () => {
    const read = live([0, 't,rpm\n100,150\n12'], 'open', [50, '20,151\n140,152\n']);
    expect(said(read)).toEqual(['0 engineSpeed=150', '50 engineSpeed=152']);
    expect(refused(read)).toEqual({ cutLine: 2 });
  });

  test('behind an opening the rest of a header does not take its place', () => {
    const read = live([0, 't,rpm,rail\n0,150,1\n'], 'open', [50, 'rpm,rail\n20,151,2\n']);
    expect(said(read)).toHaveLength(4);
    expect(refused(read)).toEqual({ cutLine: 1 });
  });

  test('behind an opening an object is read at once', () => {
    expect(said(live([0, '{"rpm":1}\n'], 'open', [50, '{"rpm":2}\n']))).toEqual([
      '0 engineSpeed=1',
      '50 engineSpeed=2',
    ]);
  });
});
