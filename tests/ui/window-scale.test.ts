import { describe, expect, test } from 'vitest';
import { windowScale, windowWords } from '../../src/ui/window-scale.ts';

const mark = (value: number, halfWidth = 0) => ({ value, halfWidth, label: 'run' });

describe('the scale of a window', () => {
  test('shows half a window to each side', () => {
    // by hand: 350 to 500 is 150 wide, so 275 to 575
    expect(windowScale({ min: 350, max: 500 }, [])).toMatchObject({
      from: 275,
      to: 575,
      zones: [
        { name: 'fail low', from: 275, to: 350 },
        { name: 'pass', from: 350, to: 500 },
        { name: 'fail high', from: 500, to: 575 },
      ],
    });
  });

  test('with one end has two zones', () => {
    expect(windowScale({ min: 100, max: null }, [])?.zones).toEqual([
      { name: 'fail low', from: 50, to: 100 },
      { name: 'pass', from: 100, to: 150 },
    ]);
    expect(windowScale({ min: null, max: 100 }, [])?.zones.map(({ name }) => name)).toEqual([
      'pass',
      'fail high',
    ]);
  });

  test('begins at 0, not below, where nothing is negative', () => {
    expect(windowScale({ min: 10, max: 90 }, [])?.from).toBe(0);
    expect(windowScale({ min: 0, max: 90 }, [])?.zones.map(({ name }) => name)).toEqual([
      'pass',
      'fail high',
    ]);
    expect(windowScale({ min: 10, max: 90 }, [mark(-5)])?.from).toBeLessThan(-5);
  });

  test('reaches over every mark with its bar, and holds none that is no number', () => {
    const scale = windowScale({ min: 350, max: 500 }, [mark(800, 20), mark(NaN)]);
    expect(scale?.to).toBeGreaterThan(820);
    expect(scale?.at(820)).toBeLessThan(1);
    expect(scale?.at(Infinity)).toBe(1);
  });

  test('is not drawn without a limit, or with one upside down', () => {
    expect(windowScale({ min: null, max: null }, [mark(3)])).toBeNull();
    expect(windowScale({ min: 5, max: 3 }, [])).toBeNull();
  });

  test('a window of no width still has its two sides', () => {
    expect(windowScale({ min: 4, max: 4 }, [])).toMatchObject({ from: 2, to: 6 });
  });

  test.each([
    [349.9, 'fail low'],
    [350, 'pass'],
    [500, 'pass'],
    [500.1, 'fail high'],
  ] as const)('%d is %s', (value, word) => {
    expect(windowWords(value, { min: 350, max: 500 })).toBe(word);
  });
});
