import type { Pixel } from '../tracing/pixel.ts';
import { toScreen, type Extent, type PictureView } from './picture-view.ts';
import type { ColourName } from './tokens.ts';

/** Something on the picture that can be taken hold of. Its shape tells its kind, so that colour never stands alone. */
export interface PictureSpot {
  readonly id: string;
  readonly at: Pixel;
  readonly shape: 'corner' | 'cross' | 'dot' | 'level';
  readonly tone: ColourName;
  /** A short text beside it; empty for none. */
  readonly label: string;
  /** Shown, but not to be taken hold of now. */
  readonly fixed?: boolean;
}

/** A line through places of the picture. */
export interface PictureLine {
  readonly places: readonly Pixel[];
  readonly tone: ColourName;
  readonly closed?: boolean;
  readonly dash?: readonly number[];
}

/** A round glass that shows the surroundings of `at` (picture) enlarged, its middle at `middle` (screen). */
export interface Loupe {
  readonly at: Pixel;
  readonly middle: Pixel;
}

export interface PictureScene {
  readonly image: CanvasImageSource & Extent;
  readonly view: PictureView;
  readonly spots: readonly PictureSpot[];
  readonly lines: readonly PictureLine[];
  readonly selected: string | null;
  readonly cross: Pixel | null;
  readonly loupe: Loupe | null;
  readonly colour: (name: ColourName) => string;
}

export const LOUPE_RADIUS = 64;
/** The loupe enlarges what the window shows this much, and a picture pixel to at least so many CSS pixels. */
const LOUPE_TIMES = 3;
const LOUPE_LEAST = 3;
/** Points nearer than this on the screen are drawn small, so that they do not hide the line under them, CSS pixels. */
const CROWDED = 14;

/** Draws picture, lines, spots, cross hair and loupe; the context counts in CSS pixels and is clear. */
export function paintPicture(context: CanvasRenderingContext2D, scene: PictureScene): void {
  paintLayer(context, scene, scene.view);
  if (scene.cross) paintCross(context, scene, toScreen(scene.view, scene.cross));
  if (scene.loupe) paintLoupe(context, scene, scene.loupe);
}

function paintLayer(context: CanvasRenderingContext2D, scene: PictureScene, view: PictureView): void {
  const { image } = scene;
  context.imageSmoothingEnabled = view.scale < 3;
  context.imageSmoothingQuality = 'high';
  context.drawImage(image, view.left, view.top, view.scale * image.width, view.scale * image.height);
  for (const line of scene.lines) paintLine(context, scene, { line, view });
  for (const spot of scene.spots) paintSpot(context, scene, { spot, view });
}

function paintLine(
  context: CanvasRenderingContext2D,
  { colour }: PictureScene,
  { line, view }: { line: PictureLine; view: PictureView },
): void {
  const path = new Path2D();
  line.places.forEach((place, index) => {
    const { x, y } = toScreen(view, place);
    if (index === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  });
  if (line.closed) path.closePath();
  context.lineJoin = 'round';
  halo(context, path, {
    tone: colour(line.tone),
    ground: colour('surface'),
    width: 2,
    dash: line.dash ?? [],
  });
}

interface Stroke {
  readonly tone: string;
  readonly ground: string;
  readonly width: number;
  readonly dash?: readonly number[];
}

/** A stroke with a halo of the ground, so that it is seen on any picture. */
function halo(context: CanvasRenderingContext2D, path: Path2D, { tone, ground, width, dash }: Stroke): void {
  context.save();
  context.setLineDash([]);
  context.globalAlpha = 0.75;
  context.strokeStyle = ground;
  context.lineWidth = width + 3;
  context.stroke(path);
  context.globalAlpha = 1;
  context.setLineDash([...(dash ?? [])]);
  context.strokeStyle = tone;
  context.lineWidth = width;
  context.stroke(path);
  context.restore();
}

/** The outline of a spot about its middle; `r` is its reach on the screen. */
function spotPath(shape: PictureSpot['shape'], { x, y }: Pixel, r: number): Path2D {
  const path = new Path2D();
  if (shape === 'dot') path.arc(x, y, r, 0, 2 * Math.PI);
  if (shape === 'corner') {
    path.rect(x - r, y - r, 2 * r, 2 * r);
    path.moveTo(x - r - 6, y);
    path.lineTo(x + r + 6, y);
    path.moveTo(x, y - r - 6);
    path.lineTo(x, y + r + 6);
  }
  if (shape === 'cross') {
    path.moveTo(x - r, y - r);
    path.lineTo(x + r, y + r);
    path.moveTo(x - r, y + r);
    path.lineTo(x + r, y - r);
  }
  if (shape === 'level') {
    path.moveTo(x - 6 * r, y);
    path.lineTo(x + 6 * r, y);
    path.moveTo(x, y - r);
    path.lineTo(x, y + r);
  }
  return path;
}

function paintSpot(
  context: CanvasRenderingContext2D,
  { colour, selected, spots }: PictureScene,
  { spot, view }: { spot: PictureSpot; view: PictureView },
): void {
  const at = toScreen(view, spot.at);
  const held = spot.id === selected;
  const crowded = spot.shape === 'dot' && isCrowded(spots, view);
  const reach = (spot.shape === 'corner' ? 11 : crowded ? 3.5 : 7) * (held ? 1.25 : 1);
  const path = spotPath(spot.shape, at, reach);
  const tone = colour(spot.tone);
  context.save();
  context.globalAlpha = spot.fixed ? 0.55 : 1;
  halo(context, path, { tone, ground: colour('surface'), width: held ? 3.5 : 2 });
  if (held)
    halo(context, ring(at, reach + 7), { tone: colour('focus'), ground: colour('surface'), width: 2.5 });
  if (spot.label) {
    context.font = `600 14px ${FONT}`;
    context.lineWidth = 4;
    context.lineJoin = 'round';
    context.strokeStyle = colour('surface');
    context.fillStyle = tone;
    context.strokeText(spot.label, at.x + reach + 6, at.y - reach);
    context.fillText(spot.label, at.x + reach + 6, at.y - reach);
  }
  context.restore();
}

const FONT = `'Helvetica Neue', 'Liberation Sans', Arial, sans-serif`;

const ring = ({ x, y }: Pixel, r: number): Path2D => {
  const path = new Path2D();
  path.arc(x, y, r, 0, 2 * Math.PI);
  return path;
};

/** Whether dots stand closer than they are wide, as after following a line. */
function isCrowded(spots: readonly PictureSpot[], { scale }: PictureView): boolean {
  const dots = spots.filter(({ shape }) => shape === 'dot');
  if (dots.length < 3) return false;
  const xs = dots.map(({ at }) => at.x);
  return ((Math.max(...xs) - Math.min(...xs)) * scale) / dots.length < CROWDED;
}

/** A cross hair with a gap, so that the place itself stays free. */
function paintCross(context: CanvasRenderingContext2D, { colour }: PictureScene, { x, y }: Pixel): void {
  const path = new Path2D();
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    path.moveTo(x + 5 * dx, y + 5 * dy);
    path.lineTo(x + 22 * dx, y + 22 * dy);
  }
  halo(context, path, { tone: colour('ink'), ground: colour('surface'), width: 1.5 });
}

function paintLoupe(context: CanvasRenderingContext2D, scene: PictureScene, { at, middle }: Loupe): void {
  const scale = Math.max(LOUPE_LEAST, LOUPE_TIMES * scene.view.scale);
  const view = { scale, left: middle.x - scale * at.x, top: middle.y - scale * at.y };
  const glass = ring(middle, LOUPE_RADIUS);
  context.save();
  context.fillStyle = scene.colour('sunken');
  context.fill(glass);
  context.clip(glass);
  // Without labels: in the glass the place counts.
  paintLayer(context, { ...scene, spots: scene.spots.map((spot) => ({ ...spot, label: '' })) }, view);
  paintCross(context, scene, middle);
  context.restore();
  halo(context, glass, { tone: scene.colour('ink'), ground: scene.colour('surface'), width: 2 });
}

/** Where the loupe stands: above a finger, beside it at the top edge; for mouse and keys in a corner away from the place. */
export function loupeMiddle(at: Pixel, pane: Extent, byFinger: boolean): Pixel {
  const [edge, off] = [LOUPE_RADIUS + 8, LOUPE_RADIUS + 44];
  const inX = (x: number) => Math.min(Math.max(edge, pane.width - edge), Math.max(edge, x));
  if (byFinger && at.y - off >= edge) return { x: inX(at.x), y: at.y - off };
  if (byFinger) {
    const right = at.x < pane.width / 2;
    return { x: inX(at.x + (right ? off : -off)), y: Math.max(edge, at.y) };
  }
  const nearCorner = at.x > pane.width - 3.4 * edge && at.y < 3.4 * edge;
  return { x: nearCorner ? edge : pane.width - edge, y: edge };
}
