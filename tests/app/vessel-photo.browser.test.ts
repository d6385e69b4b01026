import { html } from 'lit';
import { page as screen } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { makePhoto } from '../../src/app/make-photo.ts';
import { openPhotoDesk } from '../../src/app/photo-desk.ts';
import '../../src/app/parts/photo-strip.ts';
import '../../src/app/parts/volume-entry.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { photoSum } from '../../src/jobs/photo-store.ts';
import { MOST_PHOTO_BYTES } from '../../src/jobs/photo.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed } from '../../src/problems/result.ts';
import type { PictureBoard } from '../../src/ui/picture-board.ts';
import { drawVessel, VESSEL, vesselPlace } from '../ui/draw-vessel.ts';
import { axeFindings, clearPage, drawn, heard, mount, textOf } from '../ui/mount.ts';
import { asFile, handOn } from '../ui/trace-drive.ts';
import { deep, press, until } from './page.ts';
import { fakeServices } from './services.ts';

afterEach(clearPage);
beforeEach(() => screen.viewport(1280, 800));

const TRUTH_ML = 317;
const photoFile = () => asFile(drawVessel(TRUTH_ML), 'image/jpeg', 'vessel.jpg');

/** The JPEG with an EXIF block: orientation 6, and a place of taking as text. Source: Exif 2.3 (CIPA DC-008), tag 0x0112 in IFD0. */
async function withExif(file: Blob): Promise<File> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0];
  const block = [
    ...new TextEncoder().encode('Exif\0\0'),
    ...tiff,
    ...new TextEncoder().encode('SECRETPLACE'),
  ];
  const segment = Uint8Array.from([0xff, 0xe1, 0, block.length + 2, ...block]);
  return new File([bytes.slice(0, 2), segment, bytes.slice(2)], 'side.jpg', { type: 'image/jpeg' });
}
const has = (bytes: Uint8Array, words: string) => new TextDecoder('latin1').decode(bytes).includes(words);
const made = async (file: File) => {
  const result = await makePhoto(file, file.name);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
};

describe('a photograph made ready to be kept', () => {
  test('is turned upright and loses its EXIF, place included', async () => {
    const file = await withExif(await photoFile());
    expect(has(new Uint8Array(await file.arrayBuffer()), 'SECRETPLACE')).toBe(true);
    const photo = await made(file);
    expect([photo.widthPx, photo.heightPx]).toEqual([VESSEL.height, VESSEL.width]);
    expect(has(photo.bytes, 'SECRETPLACE')).toBe(false);
    expect(has(photo.bytes, 'Exif')).toBe(false);
    expect(photo.sha256).toBe(photoSum(photo.bytes));
  });

  test('of 20 MB and 9 megapixels becomes one that may be kept', async () => {
    const png = await asFile(drawVessel(TRUTH_ML), 'image/png', 'small.png');
    const bitmap = await createImageBitmap(png);
    const canvas = new OffscreenCanvas(2400, 3600);
    canvas.getContext('2d')!.drawImage(bitmap, 0, 0, 2400, 3600);
    const jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality: 1 });
    // A JPEG may carry anything behind its end (ITU-T T.81, B.2.1): so the file gets its size.
    const file = new File([jpeg, new Uint8Array(20_000_000)], 'large.jpg', { type: 'image/jpeg' });
    const photo = await made(file);
    expect(photo.bytes.length).toBeLessThanOrEqual(MOST_PHOTO_BYTES);
    expect(photo.widthPx * photo.heightPx).toBeLessThanOrEqual(4_000_000);
    expect(photo.widthPx / photo.heightPx).toBeCloseTo(2 / 3, 2);
  });

  test.each([
    ['text named .jpg', new File(['just words'], 'vessel.jpg', { type: 'image/jpeg' }), 'photo.not-a-photo'],
    ['nothing at all', new File([], 'vessel.jpg'), 'photo.not-a-photo'],
    ['a HEIF file', new File(['\0\0\0\u0018ftypheic\0\0\0\0'], 'a.heic'), 'photo.heic'],
    ['a JPEG cut short', new File([Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0)], 'a.jpg'), 'photo.broken'],
    ['60 MB and one byte', new File([new Uint8Array(60_000_001)], 'a.jpg'), 'photo.file-too-large'],
  ])('%s is refused', async (_, file, code) => {
    expect(await makePhoto(file, file.name)).toMatchObject({ ok: false, problem: { code } });
  });

  test('is refused where it is too small to be read', async () => {
    const canvas = new OffscreenCanvas(40, 300);
    canvas.getContext('2d')!.fillRect(0, 0, 40, 300);
    const blob = await canvas.convertToBlob({ type: 'image/png' });
    expect(await makePhoto(blob, 'a.png')).toMatchObject({ problem: { code: 'photo.too-small' } });
  });

  test('is made in the worker, and a worker that breaks off says so', async () => {
    const desk = openPhotoDesk({ newId: () => 'p', nowIso: () => '2026-11-25T08:00:00.000Z' });
    const taken = await desk.takePhoto(await photoFile());
    expect(taken).toMatchObject({ ok: true, value: { id: 'p', widthPx: 600, type: 'image/jpeg' } });
    const late = desk.takePhoto(await photoFile());
    desk.close();
    expect(await late).toMatchObject({ problem: { code: 'photo.work-failed' } });
  });
});

describe('the volume entry', () => {
  const services = () => fakeServices();
  const entry = (given: ReturnType<typeof services>) =>
    mount(html`<volume-entry .vessel=${vesselById('cylinder-500')} .services=${given}></volume-entry>`);
  const give = async (element: HTMLElement, file: File) => {
    if (!deep<HTMLDialogElement>(element, 'dialog')!.open) press(element, 'Read it off a photograph');
    await until(() => deep(element, 'photo-take') !== null);
    const input = deep<HTMLInputElement>(element, 'input[type=file]:not([capture])')!;
    const data = new DataTransfer();
    data.items.add(file);
    input.files = data.files;
    input.dispatchEvent(new Event('change'));
  };
  const mark = async (element: HTMLElement, volumes: readonly number[], type: 'mouse' | 'touch') => {
    await until(() => deep(element, 'm-picture-board') !== null);
    await drawn();
    await drawn();
    const hand = handOn(deep<PictureBoard>(element, 'm-vessel-photo')!);
    for (const ml of volumes) {
      await hand.click(vesselPlace(ml), type);
      await hand.type(`${ml}`);
    }
    press(element, 'Liquid line');
    await drawn();
    await hand.click(vesselPlace(TRUTH_ML), type);
  };

  test.each([
    ['with the mouse at 1280', 1280, 800, 'mouse'],
    ['with a finger at 390', 390, 844, 'touch'],
  ] as const)(
    'reads the vessel off a photograph %s, and keeps the photograph first',
    async (_, w, h, type) => {
      await screen.viewport(w, h);
      const given = services();
      const element = await entry(given);
      const told = heard(element, 'volume-photographed');
      await give(element, await photoFile());
      await mark(element, [0, 500], type);
      expect(await given.photos.get('id-1')).toMatchObject({ problem: { code: 'storage.not-found' } });
      press(element, 'Use this volume');
      await until(() => told.length > 0);
      const { valueMl, photo } = told[0] as HTMLElementEventMap['volume-photographed']['detail'];
      expect(Math.abs(valueMl - TRUTH_ML)).toBeLessThan(VESSEL.graduationMl / 2);
      expect(photo).toMatchObject({ photoId: 'id-1', marks: [{ volumeMl: 0 }, { volumeMl: 500 }] });
      expect(await given.photos.get('id-1')).toMatchObject({ ok: true, value: { name: 'vessel.jpg' } });
      expect(deep<HTMLDialogElement>(element, 'dialog')!.open).toBe(false);
    },
  );

  test('reads nothing outside the marks, and keeps nothing', async () => {
    const given = services();
    const element = await entry(given);
    const told = heard(element, 'volume-photographed');
    await give(element, await photoFile());
    await mark(element, [0, 200], 'mouse');
    expect(textOf(element)).toContain('outside the marks (0 to 200 mL)');
    press(element, 'Use this volume');
    await drawn();
    expect(told).toEqual([]);
    expect(await given.photos.get('id-1')).toMatchObject({ ok: false });
  });

  test('says what is wrong with a file, and takes another one after it', async () => {
    const given = services();
    const element = await entry(given);
    await give(element, new File(['just words'], 'vessel.jpg', { type: 'image/jpeg' }));
    await until(() => textOf(element).includes('“vessel.jpg” is not a photograph'));
    await give(element, await photoFile());
    await until(() => deep(element, 'm-picture-board') !== null);
    expect(textOf(element)).not.toContain('is not a photograph');
  });

  test('tells no volume where the photograph could not be kept; the marks stand', async () => {
    const base = services();
    const put = () => Promise.resolve(failed(problem('storage.full')));
    const element = await entry({ ...base, photos: { ...base.photos, put } });
    const told = heard(element, 'volume-photographed');
    await give(element, await photoFile());
    await mark(element, [0, 500], 'mouse');
    press(element, 'Use this volume');
    await until(() => deep(element, 'm-problem[tone=error]') !== null);
    expect(told).toEqual([]);
    expect(textOf(element)).toContain('Mark 2');
  });
});

describe('photo-strip', () => {
  test('shows what is kept, names what is missing, opens large, and gives its addresses back', async () => {
    const given = fakeServices();
    const desk = openPhotoDesk({ ...given, newId: () => 'p' });
    const taken = await desk.takePhoto(await photoFile());
    desk.close();
    await given.photos.put(taken.ok ? taken.value : null);
    const marks = new Map([
      ['p', { marks: [{ at: { x: 300, y: 50 }, volumeMl: 500 }], liquid: { x: 300, y: 343 } }],
    ]);
    const strip = await mount(
      html`<photo-strip
        .photos=${given.photos}
        .ids=${['p', 'gone']}
        .marks=${marks}
        label="The vessel"
      ></photo-strip>`,
    );
    await until(() => (deep<HTMLImageElement>(strip, 'img')?.naturalWidth ?? 0) === 600);
    expect(textOf(strip)).toContain('Photograph gone is not kept here');
    expect(textOf(strip)).toContain('500');
    expect(await axeFindings(strip)).toEqual([]);
    deep<HTMLButtonElement>(strip, '.thumb')!.click();
    await until(() => deep<HTMLDialogElement>(strip, 'dialog')?.open === true);
    const url = deep<HTMLImageElement>(strip, 'img')!.src;
    strip.remove();
    await expect(fetch(url)).rejects.toThrow();
  });
});
