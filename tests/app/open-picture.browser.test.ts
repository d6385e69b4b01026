import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { MOST_PIXELS, openPicture, pictureFileIn } from '../../src/app/open-picture.ts';
import { openPictureDesk, type PictureDesk } from '../../src/app/open-picture-worker.ts';
import { followLine } from '../../src/tracing/follow-line.ts';
import type { Corners } from '../../src/tracing/homography.ts';
import type { Picture } from '../../src/tracing/pixel.ts';
import { squaredFrame } from '../../src/tracing/squared-frame.ts';
import { warpPicture } from '../../src/tracing/warp-picture.ts';

/** A picture with a red left half and a blue right half. */
async function twoHalves(width: number, height: number, type: string): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = 'red';
  context.fillRect(0, 0, width / 2, height);
  context.fillStyle = 'blue';
  context.fillRect(width / 2, 0, width / 2, height);
  return canvas.convertToBlob({ type, quality: 0.95 });
}
const at = ({ width, data }: Picture, x: number, y: number) =>
  [...data.slice(4 * (y * width + x), 4 * (y * width + x) + 3)].map((channel) => Math.round(channel / 255));
const RED = [1, 0, 0];
const BLUE = [0, 0, 1];
const opened = async (file: Blob) => {
  const result = await openPicture(file);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
};
const code = async (file: Blob) => {
  const result = await openPicture(file);
  return result.ok ? 'ok' : result.problem.code;
};

/** The JPEG with an EXIF block that says this orientation. Source: Exif 2.3 (CIPA DC-008), tag 0x0112 in IFD0. */
async function oriented(jpeg: Blob, orientation: number): Promise<Blob> {
  const bytes = new Uint8Array(await jpeg.arrayBuffer());
  const tiff = [
    0x4d,
    0x4d,
    0,
    42,
    0,
    0,
    0,
    8,
    0,
    1,
    0x01,
    0x12,
    0,
    3,
    0,
    0,
    0,
    1,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
  ];
  const block = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  const segment = [0xff, 0xe1, 0, block.length + 2, ...block];
  return new Blob([bytes.slice(0, 2), new Uint8Array(segment), bytes.slice(2)], { type: 'image/jpeg' });
}

describe('a picture', () => {
  test.each(['image/png', 'image/jpeg', 'image/webp'])(
    'of type %s is opened pixel by pixel',
    async (type) => {
      const { picture, notes } = await opened(await twoHalves(300, 200, type));
      expect([picture.width, picture.height, notes]).toEqual([300, 200, []]);
      expect(at(picture, 20, 100)).toEqual(RED);
      expect(at(picture, 280, 100)).toEqual(BLUE);
    },
  );

  test('that a phone took on its side is turned upright: orientation 6 puts the left half on top', async () => {
    const { picture } = await opened(await oriented(await twoHalves(300, 200, 'image/jpeg'), 6));
    expect([picture.width, picture.height]).toEqual([200, 300]);
    expect(at(picture, 100, 20)).toEqual(RED);
    expect(at(picture, 100, 280)).toEqual(BLUE);
  });

  test('larger than four megapixels is made smaller, and a note says so', async () => {
    const { picture, notes } = await opened(await twoHalves(3000, 2000, 'image/png'));
    expect(picture.width * picture.height).toBeLessThanOrEqual(MOST_PIXELS);
    expect(picture.width / picture.height).toBeCloseTo(1.5, 2);
    expect(notes).toEqual(['The picture was made smaller, from 3000 × 2000 to 2449 × 1632 pixels.']);
  });

  test('that is see-through stands on white', async () => {
    const canvas = new OffscreenCanvas(100, 100);
    canvas.getContext('2d')!.clearRect(0, 0, 100, 100);
    const blob = await canvas.convertToBlob({ type: 'image/png' });
    expect(at((await opened(blob)).picture, 50, 50)).toEqual([1, 1, 1]);
  });

  test('is known by its bytes, whatever it is called', async () => {
    const bytes = await (await twoHalves(100, 100, 'image/png')).arrayBuffer();
    expect(await code(new File([bytes], 'chart.pdf', { type: 'application/pdf' }))).toBe('ok');
    expect(await code(new File(['%PDF-1.7 …'], 'chart.png', { type: 'image/png' }))).toBe(
      'tracing.not-a-picture',
    );
    expect(await code(new Blob([]))).toBe('tracing.not-a-picture');
  });

  test('that is cut short, too large or too small is refused with its reason', async () => {
    const png = await twoHalves(100, 100, 'image/png');
    expect(await code(png.slice(0, 20))).toBe('tracing.picture-broken');
    expect(await code(new Blob([new Uint8Array(20_000_001)]))).toBe('tracing.picture-too-large');
    expect(await code(await twoHalves(40, 300, 'image/png'))).toBe('tracing.picture-too-small');
  });

  test('is found among what was dropped or pasted', () => {
    const data = new DataTransfer();
    data.items.add(new File(['a'], 'notes.txt', { type: 'text/plain' }));
    data.items.add(new File(['b'], 'chart.png', { type: 'image/png' }));
    expect(pictureFileIn(data)?.name).toBe('chart.png');
    expect(pictureFileIn(new DataTransfer())).toBeNull();
    expect(pictureFileIn(null)).toBeNull();
  });
});

describe('the worker for pictures', () => {
  let desk: PictureDesk;
  let picture: Picture;
  beforeEach(async () => {
    desk = openPictureDesk();
    const canvas = new OffscreenCanvas(200, 120);
    const context = canvas.getContext('2d')!;
    context.fillStyle = 'white';
    context.fillRect(0, 0, 200, 120);
    context.strokeStyle = 'black';
    context.lineWidth = 3;
    context.moveTo(10, 100);
    context.lineTo(190, 20);
    context.stroke();
    ({ picture } = await opened(await canvas.convertToBlob({ type: 'image/png' })));
  });
  afterEach(() => desk.close());
  const corners: Corners = [
    { x: 5, y: 6 },
    { x: 190, y: 10 },
    { x: 195, y: 115 },
    { x: 2, y: 110 },
  ];

  test('squares up and follows exactly as the functions that it runs, two jobs at once', async () => {
    const squared = squaredFrame(corners, picture);
    if (!squared.ok) throw new Error(squared.problem.code);
    const { map, width, height } = squared.value;
    const click = { x: 100, y: 60 };
    const [warped, followed] = await Promise.all([desk.warp(picture, corners), desk.follow(picture, click)]);
    expect(warped).toEqual({ ok: true, value: warpPicture(picture, map, width, height) });
    expect(followed).toEqual(followLine(picture, click));
    expect(followed.ok).toBe(true);
  });

  test('hands problems over as they are', async () => {
    const crossed: Corners = [corners[0], corners[2], corners[1], corners[3]];
    expect(await desk.warp(picture, crossed)).toMatchObject({
      problem: { code: 'tracing.corners-unusable' },
    });
    expect(await desk.follow(picture, { x: 20, y: 20 })).toMatchObject({
      problem: { code: 'tracing.no-line-there' },
    });
  });

  test('that breaks off answers what was under way, and the next job starts it anew', async () => {
    const asked = desk.warp(picture, corners);
    desk.close();
    expect(await asked).toMatchObject({ ok: false, problem: { code: 'tracing.picture-work-failed' } });
    expect(await desk.warp(picture, corners)).toMatchObject({ ok: true });
  });
});
