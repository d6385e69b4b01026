import { describe, expect, test } from 'vitest';
import { monitorFilter, monitorLine, type MonitorRow } from '../../src/ui/raw-monitor-row.ts';

const speed: MonitorRow = {
  kind: 'frame',
  time: '1.250',
  id: '0CF00400',
  pgn: 61444,
  source: 0x00,
  data: 'FF FF FF 68 13 FF FF FF',
  decoded: 'Engine speed 621.0 rpm',
};
const brakes: MonitorRow = { ...speed, id: '18F0010B', pgn: 61441, source: 0x0b, data: '00 3F', decoded: '' };
const short: MonitorRow = { ...speed, id: '7E8', pgn: null, source: null, data: '06 41', decoded: '' };
const malformed: MonitorRow = { kind: 'malformed', time: '1.3', text: 't7FF9', reason: 'too short' };
const note: MonitorRow = { kind: 'note', time: '1.4', text: 'V1013', reason: 'version' };
const bytes: MonitorRow = { kind: 'bytes', time: '1.5', hex: 'E6 06', text: '..x' };
const ROWS = { speed, brakes, short, malformed, note, bytes };

const fitting = (text: string) => {
  const fits = monitorFilter(text);
  return Object.entries(ROWS).flatMap(([name, row]) => (fits === null || fits(row) ? [name] : []));
};

describe('monitorFilter', () => {
  test('an empty text filters nothing', () => {
    expect(monitorFilter('')).toBeNull();
    expect(monitorFilter('  ')).toBeNull();
  });

  test.each([
    ['0cf004', ['speed']], // part of the identifier
    ['61444', ['speed']], // PGN as the standard writes it
    ['f004', ['speed']], // and in hexadecimal
    ['0b', ['brakes']], // two digits: a source address
    ['00', ['speed']],
    ['Engine', ['speed']], // a word of what it says
    ['malformed', ['malformed']],
    ['version', ['note']],
    ['v10', ['note']],
    ['e6', ['bytes']],
    ['from:b', ['brakes']],
    ['from:0', ['speed']],
    ['from:', []],
    ['pgn:61441', ['brakes']],
    ['pgn:F001', ['brakes']],
    ['pgn:6144', []], // a whole number, not a part of it
    ['id:7e8', ['short']],
    ['data:6813', ['speed']],
    ['data:41', ['short']],
    ['rpm 0cf', ['speed']], // every word must fit
    ['rpm 0b', []],
    ['from:zz', []],
    ['pgn:null', []],
    ['null', []],
  ])('%j lets through %j', (text, names) => {
    expect(fitting(text)).toEqual(names);
  });
});

describe('monitorLine', () => {
  test('keeps columns apart by tabs and leaves no trailing one', () => {
    expect(monitorLine(speed)).toBe('1.250\t0CF00400\tFF FF FF 68 13 FF FF FF\tEngine speed 621.0 rpm');
    expect(monitorLine(short)).toBe('1.250\t7E8\t06 41');
    expect(monitorLine(malformed)).toBe('1.3\tt7FF9\tmalformed: too short');
    expect(monitorLine(bytes)).toBe('1.5\tE6 06\t..x');
  });
});
