import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CROSS_PX, keyWish, NUDGE_PX } from '../../src/ui/picture-keys.ts';
import { loupeMiddle, LOUPE_RADIUS } from '../../src/ui/picture-paint.ts';
import { fitView, panView, showPlace, toPicture, toScreen, zoomView } from '../../src/ui/picture-view.ts';

const extent = fc.record({
  width: fc.integer({ min: 100, max: 4000 }),
  height: fc.integer({ min: 100, max: 4000 }),
});
const pane = fc.record({
  width: fc.integer({ min: 300, max: 1600 }),
  height: fc.integer({ min: 250, max: 900 }),
});
const part = fc.double({ min: 0, max: 1, noNaN: true });
const factor = fc.double({ min: 0.2, max: 5, noNaN: true });

describe('the view of a picture', () => {
  test('fits all of it into the window', () => {
    fc.assert(
      fc.property(extent, pane, (picture, window) => {
        const view = fitView(picture, window);
        const end = toScreen(view, { x: picture.width, y: picture.height });
        expect(Math.min(view.left, view.top)).toBeGreaterThanOrEqual(0);
        expect(end.x).toBeLessThanOrEqual(window.width);
        expect(end.y).toBeLessThanOrEqual(window.height);
      }),
    );
  });

  test('enlarges about a place that stays where it is, and never gets smaller than the fit', () => {
    fc.assert(
      fc.property(extent, pane, fc.tuple(part, part), factor, (picture, window, [across, down], times) => {
        const fit = fitView(picture, window);
        const about = { x: across * window.width, y: down * window.height };
        const view = zoomView(fit, times, about, fit);
        expect(view.scale).toBeGreaterThanOrEqual(fit.scale);
        if (view === fit) return;
        const under = toPicture(fit, about);
        expect(toScreen(view, under).x).toBeCloseTo(about.x, 6);
        expect(toScreen(view, under).y).toBeCloseTo(about.y, 6);
      }),
    );
  });

  test('moved however far, the middle of the window stays on the picture', () => {
    fc.assert(
      fc.property(extent, pane, fc.integer(), fc.integer(), (picture, window, x, y) => {
        const view = panView(fitView(picture, window), { x, y }, picture, window);
        const middle = toPicture(view, { x: window.width / 2, y: window.height / 2 });
        expect(middle.x).toBeGreaterThan(-0.01);
        expect(middle.x).toBeLessThan(picture.width + 0.01);
        expect(middle.y).toBeGreaterThan(-0.01);
        expect(middle.y).toBeLessThan(picture.height + 0.01);
      }),
    );
  });

  test('moves so that the cross hair is in the window', () => {
    fc.assert(
      fc.property(extent, pane, part, part, (picture, window, across, down) => {
        const fit = fitView(picture, window);
        const close = zoomView(fit, 8, { x: 0, y: 0 }, fit);
        const at = { x: across * picture.width, y: down * picture.height };
        const { x, y } = toScreen(showPlace(close, at, window), at);
        expect(x).toBeGreaterThan(0);
        expect(x).toBeLessThan(window.width);
        expect(y).toBeGreaterThan(0);
        expect(y).toBeLessThan(window.height);
      }),
    );
  });
});

describe('the loupe', () => {
  test('never covers the place under a finger or the mouse', () => {
    fc.assert(
      fc.property(pane, part, part, fc.boolean(), (window, across, down, finger) => {
        const at = { x: across * window.width, y: down * window.height };
        const middle = loupeMiddle(at, window, finger);
        expect(Math.hypot(middle.x - at.x, middle.y - at.y)).toBeGreaterThan(LOUPE_RADIUS);
      }),
    );
  });
});

const key = (name: string, held: object = {}) => ({
  key: name,
  shiftKey: false,
  altKey: false,
  ctrlKey: false,
  metaKey: false,
  ...held,
});

describe('keys on the picture', () => {
  test.each([
    [{}, NUDGE_PX.usual, 1],
    [{ shiftKey: true }, NUDGE_PX.coarse, 5],
    [{ altKey: true }, NUDGE_PX.fine, 0.25],
    [{ ctrlKey: true }, NUDGE_PX.fine, 0.25],
  ])('an arrow with %j moves what is held by its step', (held, step, px) => {
    expect(step).toBe(px);
    expect(keyWish(key('ArrowLeft', held), true)).toEqual({ do: 'nudge', by: { x: -px, y: 0 } });
  });

  test('an arrow with nothing held moves the cross hair', () => {
    expect(keyWish(key('ArrowDown'), false)).toEqual({ do: 'move cross', by: { x: 0, y: CROSS_PX.usual } });
  });

  test('Tab, letters and Ctrl+Z are left alone', () => {
    for (const each of [key('Tab'), key('a'), key('z', { ctrlKey: true }), key('+', { ctrlKey: true })])
      expect(keyWish(each, false)).toBeNull();
  });
});
