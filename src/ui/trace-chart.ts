import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../problems/problem.ts';
import { ok, type Result } from '../problems/result.ts';
import { unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { followLine } from '../tracing/follow-line.ts';
import { applyMap, type Corners } from '../tracing/homography.ts';
import { distancePx, type Picture, type Pixel } from '../tracing/pixel.ts';
import { snapToLine } from '../tracing/snap.ts';
import { squaredFrame } from '../tracing/squared-frame.ts';
import { smoothPlaces, thinOut } from '../tracing/traced-curve.ts';
import { warpPicture } from '../tracing/warp-picture.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import './picture-board.ts';
import type { PictureBoard, PlaceSet, SpotMoved } from './picture-board.ts';
import { historyKey } from './picture-history.ts';
import { undoButtons } from './picture-undo.ts';
import './problem-note.ts';
import './progress-note.ts';
import { axesPanel, cornersPanel, curvesPanel, type CurveMeans } from './trace-panels.ts';
import {
  axesOf,
  CURVE_WORDS,
  frameOf,
  tracedChart,
  type TracedChart,
  type TraceFrame,
} from './trace-result.ts';
import { sceneOf, spotId, spotOfId } from './trace-scene.ts';
import { beginTrace, stepTrace, type TraceAction, type TraceState, type TraceStep } from './trace-state.ts';
import { traceStyles } from './trace-styles.ts';
import { placeWords } from './trace-words.ts';

/** Squares a picture up by four corners; heavy, so that the app may give it to a worker. */
export type Warp = (picture: Picture, corners: Corners) => Promise<Result<Picture>>;
/** Follows a line from a click in the squared-up picture. */
export type Follow = (picture: Picture, click: Pixel) => Promise<Result<readonly Pixel[]>>;

const warpHere: Warp = (picture, corners) => {
  const squared = squaredFrame(corners, picture);
  if (!squared.ok) return Promise.resolve(squared);
  const { map, width, height } = squared.value;
  return Promise.resolve(ok(warpPicture(picture, map, width, height)));
};
const followHere: Follow = (picture, click) => Promise.resolve(followLine(picture, click));

/** How far a followed line may lie off the straight lines through the points that are kept, px. */
const KEEP_PX = 0.4;

const STEPS: readonly { step: TraceStep; word: string }[] = [
  { step: 'corners', word: 'Corners' },
  { step: 'axes', word: 'Scales' },
  { step: 'curves', word: 'Boundaries' },
];

/** A picture squared up, and by which corners. */
interface Flat {
  readonly corners: Corners;
  readonly picture: Picture;
}

/**
 * `m-chart-trace`: from a picture of a chart to its boundaries: corners, scales, curves, with undo over everything.
 * `warp` and `follow` do the heavy work and may be given to a worker. Event: `chart-traced`.
 */
@customElement('m-chart-trace')
export class ChartTrace extends LitElement {
  static override styles = [baseStyles, buttonStyles, traceStyles];

  @property({ attribute: false }) picture: Picture | null = null;
  /** The unit in which volumes are printed on the chart; what is handed over is mL. */
  @property({ attribute: 'volume-unit' }) volumeUnit: UnitId = 'mL';
  @property({ attribute: false }) warp: Warp = warpHere;
  @property({ attribute: false }) follow: Follow = followHere;
  @state() private _trace: TraceState | null = null;
  @state() private _flat: Flat | null = null;
  @state() private _working = '';
  @state() private _problem: Problem | null = null;
  @state() private _note = '';
  @state() private _snap = true;
  @state() private _following = false;
  @query('m-picture-board') private _board!: PictureBoard | null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('picture')) return;
    this._trace = this.picture && beginTrace(this.picture);
    this._flat = null;
    this._problem = null;
  }

  /** One action of the person; the last problem and note were about the one before. */
  readonly #send = (action: TraceAction) => {
    if (!this._trace || !this.picture) return;
    this._problem = null;
    this._note = '';
    if (action.type === 'square up') {
      const frame = frameOf({ ...this._trace.history.now, straight: false }, this.picture);
      if (!frame.ok) {
        this._problem = frame.problem;
        return;
      }
    }
    this._trace = stepTrace(this._trace, action);
    void this.#flatten();
  };

  /** Makes the squared-up picture where a step needs one that is not there yet. */
  async #flatten(): Promise<void> {
    const { picture } = this;
    const work = this._trace?.history.now;
    if (!picture || !work || this.#shown() || this._working) return;
    this._working = 'Squaring the picture up';
    const { corners } = work;
    const warped = await this.warp(picture, corners);
    this._working = '';
    if (this.picture !== picture) return;
    if (warped.ok) {
      this._flat = { corners, picture: warped.value };
      // Corners that were moved meanwhile ask once more.
      return this.#flatten();
    }
    this._problem = warped.problem;
    this._trace = this._trace && stepTrace(this._trace, { type: 'step', step: 'corners' });
  }

  #frame(): TraceFrame | null {
    if (!this._trace || !this.picture) return null;
    const frame = frameOf(this._trace.history.now, this.picture);
    return frame.ok ? frame.value : null;
  }

  /** The picture that the step works on; null while it is being made. */
  #shown(): Picture | null {
    const work = this._trace?.history.now;
    if (!work || work.step === 'corners' || work.straight) return this.picture;
    return this._flat?.corners === work.corners ? this._flat.picture : null;
  }

  readonly #set = ({ detail: { at, by } }: CustomEvent<PlaceSet>) => {
    const work = this._trace?.history.now;
    const frame = this.#frame();
    if (!work) return;
    if (work.step === 'corners') return this.#nearestCorner(work.corners, at);
    if (!frame) return;
    if (work.step === 'axes') {
      this.#send({ type: 'add mark', at: applyMap(frame.back, at) });
      void this.#typeNext();
    } else if (this._following) void this.#followFrom(at, frame);
    else this.#addPoint(at, by, frame);
  };

  #nearestCorner(corners: Corners, at: Pixel): void {
    const offs = corners.map((corner) => distancePx(corner, at));
    const index = offs.indexOf(Math.min(...offs));
    this.#send({ type: 'move', spot: { kind: 'corner', index }, at, gesture: null });
  }

  /** The number belongs to the mark: its field is ready for typing. */
  async #typeNext(): Promise<void> {
    await this.updateComplete;
    [...(this.shadowRoot?.querySelectorAll<HTMLInputElement>('[data-mark]') ?? [])].at(-1)?.focus();
  }

  #addPoint(click: Pixel, by: PlaceSet['by'], frame: TraceFrame): void {
    const picture = this.#shown();
    const snapped = this._snap && picture ? snapToLine(picture, click) : null;
    this.#send({ type: 'add point', at: applyMap(frame.back, snapped?.at ?? click) });
    // With keys the cross hair goes on to the next place; a click leaves the point held, for nudging.
    if (by === 'keys') this.#send({ type: 'select', spot: null });
    if (this._snap && !snapped) this._note = 'No line stands out there: the point lies where you put it.';
  }

  async #followFrom(click: Pixel, frame: TraceFrame): Promise<void> {
    const picture = this.#shown();
    const curve = this._trace?.history.now.curve;
    if (!picture || !curve) return;
    this._working = 'Following the line';
    const followed = await this.follow(picture, click);
    this._working = '';
    if (!followed.ok) {
      this._problem = followed.problem;
      return;
    }
    const kept = thinOut(smoothPlaces(followed.value), KEEP_PX);
    this.#send({ type: 'replace curve', curve, places: kept.map((place) => applyMap(frame.back, place)) });
    this._note = `Followed over ${followed.value.length} pixels; ${kept.length} points kept. Judge it in the loupe.`;
  }

  readonly #moved = ({ detail: { id, at, gesture } }: CustomEvent<SpotMoved>) => {
    const spot = spotOfId(id);
    const frame = this.#frame();
    if (!spot) return;
    if (spot.kind === 'corner') this.#send({ type: 'move', spot, at, gesture });
    else if (frame) this.#send({ type: 'move', spot, at: applyMap(frame.back, at), gesture });
  };

  readonly #picked = ({ detail }: CustomEvent<string | null>) =>
    this.#send({ type: 'select', spot: spotOfId(detail) });

  readonly #removed = ({ detail }: CustomEvent<string>) => {
    const spot = spotOfId(detail);
    if (spot) this.#send({ type: 'remove', spot });
  };

  readonly #keyed = (event: KeyboardEvent) => {
    const key = historyKey(event);
    if (!key) return;
    event.preventDefault();
    this.#send({ type: key });
  };

  readonly #finish = () => {
    const { picture } = this;
    if (!this._trace || !picture) return;
    const chart = tracedChart(this._trace.history.now, picture, this.volumeUnit);
    if (!chart.ok) {
      this._problem = chart.problem;
      return;
    }
    this.dispatchEvent(
      new CustomEvent<TracedChart>('chart-traced', { detail: chart.value, bubbles: true, composed: true }),
    );
  };

  #means(): CurveMeans {
    return {
      send: this.#send,
      backToPicture: () => this._board?.focusPane(),
      volumeUnit: unitSymbol(this.volumeUnit),
      snap: this._snap,
      following: this._following,
      setSnap: (on) => (this._snap = on),
      setFollowing: (on) => (this._following = on),
    };
  }

  #boardLabel(trace: TraceState): string {
    const { step, axis, curve } = trace.history.now;
    if (step === 'corners') return 'Picture of the chart. Put the four handles on the corners of its frame.';
    if (step === 'axes')
      return `Picture of the chart. Enter marks a printed ${axis === 'x' ? 'speed' : 'volume'}.`;
    const how = this._following ? 'Enter follows the line' : 'Enter sets a point of the line';
    return `Picture of the chart. ${how} “${CURVE_WORDS[curve]}”.`;
  }

  #steps(trace: TraceState, canTrace: boolean) {
    const now = trace.history.now.step;
    const open = (step: TraceStep) => {
      if (step === now) return;
      if (step === 'corners' || now !== 'corners') this.#send({ type: 'step', step });
      else this.#send({ type: trace.history.now.straight ? 'take straight' : 'square up' });
    };
    return html`<ol class="steps">
      ${STEPS.map(({ step, word }, index) => {
        const off = step === 'curves' && !(canTrace && now !== 'corners');
        return html`<li>
          <button
            type="button"
            data-step=${step}
            aria-current=${step === now ? 'step' : 'false'}
            aria-disabled=${off ? 'true' : 'false'}
            @click=${() => !off && open(step)}
          >
            <span class="count number">${index + 1}</span> ${word}
          </button>
        </li>`;
      })}
    </ol>`;
  }

  #panel(trace: TraceState, frame: TraceFrame | null) {
    const { step } = trace.history.now;
    const means = this.#means();
    if (step === 'corners' || !frame) return cornersPanel(means);
    if (step === 'axes') return axesPanel(trace, frame, means);
    return html`${curvesPanel(trace, frame, means)}
      <button type="button" class="primary finish" @click=${this.#finish}>Use these boundaries</button>`;
  }

  override render() {
    const trace = this._trace;
    if (!trace) return nothing;
    const frame = this.#frame();
    const { now } = trace.history;
    const axes = frame && now.step !== 'corners' ? axesOf(now, frame) : null;
    const { spots, lines } = sceneOf(now, frame);
    const describe = (at: Pixel) => placeWords(axes, at, unitSymbol(this.volumeUnit));
    return html`<div class="block" @keydown=${this.#keyed}>
      ${this.#steps(trace, axes !== null)}
      <div class="bench">
        <m-picture-board
          .picture=${this.#shown()}
          .label=${this.#boardLabel(trace)}
          .spots=${spots}
          .lines=${lines}
          .selected=${trace.selected && spotId(trace.selected)}
          .describe=${describe}
          @place-set=${this.#set}
          @spot-picked=${this.#picked}
          @spot-moved=${this.#moved}
          @spot-removed=${this.#removed}
        >
          ${undoButtons(trace.history, this.#send)}
        </m-picture-board>
        <div class="asks">
          ${this._working ? html`<m-progress label=${this._working}></m-progress>` : nothing}
          ${
            this._problem
              ? html`<m-problem tone="error" .problem=${describeProblem(this._problem)}></m-problem>`
              : nothing
          }
          <p class="quiet-text note" role="status">${this._note}</p>
          ${this.#panel(trace, frame)}
        </div>
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-chart-trace': ChartTrace;
  }
  interface HTMLElementEventMap {
    'chart-traced': CustomEvent<TracedChart>;
  }
}
