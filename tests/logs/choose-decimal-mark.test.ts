import { describe, expect, test } from 'vitest';
import { chooseDecimalMark } from '../../src/logs/choose-decimal-mark.ts';

const choose = (...columns: string[][]) => chooseDecimalMark(columns);
const POINT = { mark: '.', sure: true };
const COMMA = { mark: ',', sure: true };

describe('the decimal mark of a log', () => {
  test.each([
    ['fractions of one digit', ['0.5', '1.0']],
    ['fractions of two digits', ['12.25']],
    ['fractions of four digits', ['0.1250']],
    ['a leading zero', ['0.500', '0.750']],
    ['no whole part', ['.5']],
    ['four digits before three', ['1460.125']],
    ['thousands beside a fraction', ['1,146.5']],
    ['two groups of commas', ['1,234,567']],
    ['blanks that set off thousands', ['12 000.5']],
    ['apostrophes that set off thousands', ["12'000.5"]],
    ['a sign', ['-12.5', '+3.5']],
    ['an exponent', ['1.5e3']],
  ])('is a point: %s', (_, cells) => expect(choose(cells)).toEqual(POINT));

  test.each([
    ['fractions of one digit', ['0,5', '1,0']],
    ['fractions of two digits', ['12,25']],
    ['a leading zero', ['0,500', '0,750']],
    ['no whole part', [',5']],
    ['four digits before three', ['1460,125']],
    ['thousands beside a fraction', ['1.146,5']],
    ['two groups of points', ['1.234.567']],
    ['blanks that set off thousands', ['12\u00a0000,5']],
    ['a sign', ['-12,5']],
  ])('is a comma: %s', (_, cells) => expect(choose(cells)).toEqual(COMMA));

  test('is a point where no cell has a mark', () => {
    expect(choose(['0', '146', 'N/A', ''])).toEqual(POINT);
    expect(choose()).toEqual(POINT);
  });

  test('is told by one column for all of them', () => {
    expect(choose(['1,234', '1,250'], ['0,5', '1,0'])).toEqual(COMMA);
    expect(choose(['1,234', '1,250'], ['0.5', '1.0'])).toEqual(POINT);
  });

  test('is told by the greater number of cells where they disagree', () => {
    expect(choose(['0.5', '1.5', '2,5'])).toEqual(POINT);
    expect(choose(['0,5', '1,5', '2.5'])).toEqual(COMMA);
  });

  test('words, dates and clock times do not count', () => {
    expect(choose(['12.03.2024', '10:00:00,5', 'n.a.', 'rpm'], ['0,5'])).toEqual(COMMA);
  });
});

describe('one mark before three digits', () => {
  test('sets off thousands where shorter whole numbers stand in the column', () => {
    expect(choose(['950', '1,020', '1,146'])).toEqual(POINT);
    expect(choose(['950', '1.020', '1.146'])).toEqual(COMMA);
  });

  test('is before a fraction where all cells keep their three digits; a comma then leaves doubt', () => {
    expect(choose(['146.250', '147.000'])).toEqual(POINT);
    expect(choose(['146,250', '147,000'])).toEqual({ mark: ',', sure: false });
  });

  test('a lone 0 among them tells nothing', () => {
    expect(choose(['0', '146,250', '147,000'])).toEqual({ mark: ',', sure: false });
  });

  test('signs do not change that', () => {
    expect(choose(['-950', '-1,020'])).toEqual(POINT);
  });

  test('thousands in any column decide for the whole log', () => {
    expect(choose(['146,250', '147,000'], ['950', '1,020'])).toEqual(POINT);
  });
});
