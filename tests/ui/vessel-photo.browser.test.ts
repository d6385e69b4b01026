import { html } from 'lit';
import { page } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { applyMap, type Homography } from '../../src/tracing/homography.ts';
import type { Picture, Pixel } from '../../src/tracing/pixel.ts';
import '../../src/ui/vessel-photo.ts';
import type { VesselPhoto, VolumeRead } from '../../src/ui/vessel-photo.ts';
import { askew, photograph } from '../tracing/draw-chart.ts';
import { drawVessel, VESSEL, vesselPlace } from './draw-vessel.ts';
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  settled,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';
import { handOn, press } from './trace-drive.ts';

const TRUTH_ML = 317;
const { width: WIDTH, height: HEIGHT, graduationMl: GRADUATION_ML } = VESSEL;
const placeOf = vesselPlace;
const PHOTO = new Blob(['the file as it came'], { type: 'image/jpeg' });

beforeEach(() => page.viewport(1280, 900));
afterEach(clearPage);

const vessel = async (picture: Picture = drawVessel(TRUTH_ML)) => {
  const element = await mount<VesselPhoto>(
    html`<m-vessel-photo .picture=${picture} .photo=${PHOTO}></m-vessel-photo>`,
  );
  await drawn();
  return element;
};
const marked = async (element: VesselPhoto, seen: (ml: number) => Pixel, volumes: readonly number[]) => {
  const hand = handOn(element);
  for (const ml of volumes) {
    await hand.click(seen(ml));
    await hand.type(`${ml}`);
  }
  return hand;
};

describe('m-vessel-photo', () => {
  test.each([
    ['from the front, two marks', 0, [0, 500]],
    ['askew, four marks', 0.15, [0, 150, 350, 500]],
  ] as const)(
    '%s: the volume is read within half a graduation, with the photograph',
    async (_, amount, volumes) => {
      const map: Homography = askew(WIDTH, HEIGHT, amount);
      const seen = (ml: number) => applyMap(map, placeOf(ml));
      const element = await vessel(
        amount === 0 ? drawVessel(TRUTH_ML) : photograph(drawVessel(TRUTH_ML), map),
      );
      const done = heard(element, 'volume-read');
      const hand = await marked(element, seen, volumes);
      await press(element, '[data-aim=liquid]');
      await hand.click(seen(TRUTH_ML));
      await press(element, '.primary');
      const read = done[0] as VolumeRead;
      expect(Math.abs(read.volumeMl - TRUTH_ML)).toBeLessThan(GRADUATION_ML / 2);
      expect(read.uMl).toBeGreaterThan(0.3);
      expect(read.uMl).toBeLessThan(GRADUATION_ML / 2);
      expect(read.marks).toHaveLength(volumes.length);
      expect(read.photo).toBe(PHOTO);
      expect(Math.abs(read.liquid.y - seen(TRUTH_ML).y)).toBeLessThan(2);
    },
  );

  test('by the keyboard alone', async () => {
    const element = await vessel();
    const hand = handOn(element);
    const done = heard(element, 'volume-read');
    const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
    const tabTo = async (wanted: string, keys = '{Tab}') => {
      for (let turn = 0; turn < 20 && !element.shadowRoot!.activeElement?.matches(wanted); turn++)
        await hand.type(keys);
      expect(element.shadowRoot!.activeElement?.matches(wanted), wanted).toBe(true);
    };
    await tabTo('m-picture-board');
    let cross = { x: 300, y: 450 };
    for (const ml of [0, 500]) {
      await hand.steer(cross, placeOf(ml));
      cross = placeOf(ml);
      await hand.type(`{Enter}${ml},0{Enter}{Escape}`);
    }
    await tabTo('[data-aim=liquid]');
    await hand.type('{Enter}');
    await tabTo('m-picture-board', '{Shift>}{Tab}{/Shift}');
    board.focusPane();
    await hand.steer(cross, placeOf(TRUTH_ML));
    await hand.type('{Enter}');
    await tabTo('.primary');
    await hand.type('{Enter}');
    expect(Math.abs((done[0] as VolumeRead).volumeMl - TRUTH_ML)).toBeLessThan(GRADUATION_ML / 2);
  });

  test('outside the marks nothing is read, and the reason is told', async () => {
    const element = await vessel();
    const done = heard(element, 'volume-read');
    const hand = await marked(element, placeOf, [0, 200]);
    await press(element, '[data-aim=liquid]');
    await hand.click(placeOf(TRUTH_ML));
    expect(textOf(one(element, 'm-problem'))).toContain('outside the marks (0 to 200 mL)');
    await press(element, '.primary');
    expect(done).toEqual([]);
  });

  test('tells what is still missing, and why a typed number does not do', async () => {
    const element = await vessel();
    expect(textOf(one(element, 'm-problem'))).toContain('at least two marks; there are 0');
    await marked(element, placeOf, [0, 500]);
    expect(textOf(one(element, 'm-problem'))).toContain('The liquid line is not marked yet');
    await handOn(element).type('x');
    expect(textOf(one(element, '.refusal'))).toBe('“500x” is not a plain number.');
    await handOn(element).type('{Control>}z{/Control}');
    expect(every<HTMLInputElement>(element, '[data-mark]').map(({ value }) => value)).toEqual(['0', '']);
  });

  test('axe finds nothing in either theme, and a phone need not scroll sideways', async () => {
    const element = await vessel();
    const hand = await marked(element, placeOf, [0, 500]);
    await press(element, '[data-aim=liquid]');
    await hand.click(placeOf(TRUTH_ML));
    await settled(element);
    expect(await axeFindings(element)).toEqual([]);
    await page.viewport(390, 844);
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, input[type=text]')).toEqual([]);
  });
});
