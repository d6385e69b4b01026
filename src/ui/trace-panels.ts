import { html, nothing, svg, type TemplateResult } from 'lit';
import { describeProblem } from '../problems/problem.ts';
import './problem-note.ts';
import {
  axesOf,
  axisView,
  CURVE_WORDS,
  curveView,
  scaleProblem,
  type MarkView,
  type TraceFrame,
} from './trace-result.ts';
import { CURVE_LOOKS, spotId } from './trace-scene.ts';
import {
  CURVE_NAMES,
  type AxisName,
  type CurveName,
  type TraceAction,
  type TraceSpot,
  type TraceState,
} from './trace-state.ts';
import { AXIS_WORDS, doubtWords, figures, offWords, scaleWords } from './trace-words.ts';

/** What a panel needs besides the state. */
export interface PanelMeans {
  readonly send: (action: TraceAction) => void;
  readonly backToPicture: () => void;
  readonly volumeUnit: string;
}

export interface CurveMeans extends PanelMeans {
  readonly snap: boolean;
  readonly following: boolean;
  readonly setSnap: (on: boolean) => void;
  readonly setFollowing: (on: boolean) => void;
}

/** Step one: the corners. */
export function cornersPanel({ send }: PanelMeans): TemplateResult {
  return html`<div class="block">
    <h3>Put the four handles on the corners of the chart’s frame</h3>
    <p>Drag each handle, or click near a corner: the nearest handle goes there. The loupe shows the place.</p>
    <button type="button" class="primary" @click=${() => send({ type: 'square up' })}>Square it up</button>
    <button type="button" @click=${() => send({ type: 'take straight' })}>
      The picture is straight already
    </button>
  </div>`;
}

/** Step two: one axis at a time, marks with the numbers printed at them. */
export function axesPanel(state: TraceState, frame: TraceFrame, means: PanelMeans): TemplateResult {
  const work = state.history.now;
  const { axis } = work;
  const unit = axis === 'x' ? 'rpm' : means.volumeUnit;
  const view = axisView(work, axis, frame);
  const words = view.fit.ok ? scaleWords(view.fit.value, unit) : null;
  const missing = scaleProblem(work, frame);
  return html`<div class="block">
    <h3>Click on printed numbers of each scale, and type them</h3>
    ${axisChoice(axis, means)} ${kindChoice(state, means)}
    <p>
      ${
        axis === 'x'
          ? 'Click on grid lines that go up from a printed speed.'
          : 'Click on grid lines that go across from a printed volume.'
      }
      Two are needed, far apart; three to five show how well they agree.
    </p>
    <ol class="rows">
      ${view.marks.map((mark, index) => markRow(state, { mark, index, unit }, means))}
    </ol>
    ${words ? html`<p class="facts"><strong class="number">${words.scale}</strong>${words.residual}</p>` : nothing}
    ${
      view.fit.ok || view.marks.length === 0
        ? nothing
        : html`<m-problem tone="info" .problem=${describeProblem(view.fit.problem)}></m-problem>`
    }
    <button
      type="button"
      class="primary"
      aria-disabled=${missing ? 'true' : 'false'}
      @click=${() => !missing && send(means, { type: 'step', step: 'curves' })}
    >
      Trace the curves
    </button>
    ${missing ? html`<p class="quiet-text">Both scales need two marks with numbers first.</p>` : nothing}
  </div>`;
}

const send = ({ send: tell }: PanelMeans, action: TraceAction) => tell(action);

const axisChoice = (axis: AxisName, means: PanelMeans) =>
  html`<div class="choice" role="group" aria-label="Scale to mark">
    ${(['x', 'y'] as const).map(
      (name) =>
        html`<button
          type="button"
          data-axis=${name}
          aria-pressed=${name === axis}
          @click=${() => send(means, { type: 'choose axis', axis: name })}
        >
          ${AXIS_WORDS[name]}
        </button>`,
    )}
  </div>`;

function kindChoice({ history: { now } }: TraceState, means: PanelMeans): TemplateResult {
  const { axis } = now;
  return html`<div class="choice" role="group" aria-label="How the scale is divided">
    ${(['linear', 'log'] as const).map(
      (kind) =>
        html`<button
          type="button"
          data-kind=${kind}
          aria-pressed=${now.axes[axis].kind === kind}
          @click=${() => send(means, { type: 'scale', axis, kind })}
        >
          ${kind === 'linear' ? 'Even steps' : 'Logarithmic'}
        </button>`,
    )}
  </div>`;
}

interface MarkRow {
  readonly mark: MarkView;
  readonly index: number;
  readonly unit: string;
}

function markRow(state: TraceState, { mark, index, unit }: MarkRow, means: PanelMeans): TemplateResult {
  const { axis, axes } = state.history.now;
  const spot: TraceSpot = { kind: 'mark', axis, index };
  const text = axes[axis].marks[index]!.text;
  const typed = (event: Event) =>
    send(means, { type: 'type', axis, index, text: (event.target as HTMLInputElement).value });
  return html`<li class=${isHeld(state, spot) ? 'held' : ''}>
    <label class="mark">
      <span>Mark ${index + 1}</span>
      <input
        type="text"
        class="number"
        inputmode="decimal"
        autocomplete="off"
        data-mark=${index}
        aria-invalid=${text !== '' && mark.refusal ? 'true' : 'false'}
        .value=${text}
        @focus=${() => send(means, { type: 'select', spot })}
        @input=${typed}
        @keydown=${(event: KeyboardEvent) => event.key === 'Enter' && means.backToPicture()}
      />
      <span>${unit}</span>
    </label>
    ${removeButton(`Remove mark ${index + 1}`, spot, means)}
    ${text !== '' && mark.refusal ? html`<span class="refusal">${mark.refusal}</span>` : nothing}
    ${mark.offPx === null ? nothing : html`<span class="off number">${offWords(mark.offPx)} off the scale</span>`}
  </li>`;
}

const removeButton = (label: string, spot: TraceSpot, means: PanelMeans) =>
  html`<button
    type="button"
    class="quiet"
    aria-label=${label}
    @click=${() => send(means, { type: 'remove', spot })}
  >
    <m-icon shape="cross"></m-icon>
  </button>`;

const isHeld = ({ selected }: TraceState, spot: TraceSpot) =>
  selected !== null && spotId(selected) === spotId(spot);

/** Step three: each boundary by clicks, or followed from one click. */
export function curvesPanel(state: TraceState, frame: TraceFrame, means: CurveMeans): TemplateResult {
  const work = state.history.now;
  const view = curveView(work, work.curve, frame);
  const count = work.curves[work.curve].length;
  return html`<div class="block">
    <h3>Trace the line of each boundary</h3>
    ${curveChoice(state, means)} ${wayChoice(means)}
    ${
      means.following
        ? html`<p>
            One click on the line “${CURVE_WORDS[work.curve]}”: it is followed by its colour, both ways.
          </p>`
        : html`<p>Click along the line “${CURVE_WORDS[work.curve]}”, closer together where it bends.</p>
            <label class="tick">
              <input
                type="checkbox"
                .checked=${means.snap}
                @change=${(event: Event) => means.setSnap((event.target as HTMLInputElement).checked)}
              />
              Snap to the middle of the line
            </label>`
    }
    ${
      count >= 2 && view
        ? html`<p class="facts">
            <strong class="number">${spanWords(view.points)}</strong>${doubtWords(view.u, means.volumeUnit)}
          </p>`
        : nothing
    }
    ${count > 0 ? pointList(state, frame, means) : nothing}
  </div>`;
}

const wayChoice = (means: CurveMeans) =>
  html`<div class="choice" role="group" aria-label="How to trace">
    ${[false, true].map(
      (follow) =>
        html`<button
          type="button"
          data-follow=${follow}
          aria-pressed=${follow === means.following}
          @click=${() => means.setFollowing(follow)}
        >
          ${follow ? 'Follow the line' : 'Click points'}
        </button>`,
    )}
  </div>`;

const spanWords = (points: readonly { readonly x: number }[]): string =>
  `${figures(points[0]!.x)} to ${figures(points.at(-1)!.x)} rpm`;

function curveChoice({ history: { now } }: TraceState, means: PanelMeans): TemplateResult {
  return html`<div class="choice" role="group" aria-label="Boundary to trace">
    ${CURVE_NAMES.map(
      (curve) =>
        html`<button
          type="button"
          data-curve=${curve}
          aria-pressed=${curve === now.curve}
          @click=${() => send(means, { type: 'choose curve', curve })}
        >
          <span>${curveSample(curve)} ${CURVE_WORDS[curve]} (${now.curves[curve].length})</span>
        </button>`,
    )}
  </div>`;
}

const curveSample = (curve: CurveName) =>
  html`<svg class="sample" viewBox="0 0 40 8" aria-hidden="true">
    ${svg`<path d="M0 4H40" stroke-dasharray=${CURVE_LOOKS[curve].dash.join(' ')} />`}
  </svg>`;

function pointList(state: TraceState, frame: TraceFrame, means: PanelMeans): TemplateResult {
  const { curve, curves } = state.history.now;
  const axes = axesOf(state.history.now, frame);
  if (!axes) return html``;
  const rows = pointRows(state, frame);
  return html`<details>
      <summary>${curves[curve].length} points</summary>
      <ol class="rows list">
        ${rows.map(({ index, words }, place) => {
          const spot: TraceSpot = { kind: 'point', curve, index };
          return html`<li class=${isHeld(state, spot) ? 'held' : ''}>
            <button
              type="button"
              class="pick number"
              @click=${() => {
                send(means, { type: 'select', spot });
                means.backToPicture();
              }}
            >
              ${words}
            </button>
            ${removeButton(`Remove point ${place + 1}`, spot, means)}
          </li>`;
        })}
      </ol>
    </details>
    <button
      type="button"
      class="danger"
      @click=${() => send(means, { type: 'replace curve', curve, places: [] })}
    >
      Clear this boundary
    </button>`;
}

/** The points of the curve from left to right, each with its place in the list that the state keeps. */
function pointRows(
  { history: { now } }: TraceState,
  frame: TraceFrame,
): readonly { index: number; words: string }[] {
  return now.curves[now.curve]
    .map((_, index) => {
      const alone = { ...now, curves: { ...now.curves, [now.curve]: [now.curves[now.curve][index]!] } };
      const point = curveView(alone, now.curve, frame)!.points[0]!;
      return { index, x: point.x, words: `${figures(point.x)} rpm, ${figures(point.y)}` };
    })
    .sort((a, b) => a.x - b.x);
}
