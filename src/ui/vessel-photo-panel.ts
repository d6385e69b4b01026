import { html, nothing, type TemplateResult } from 'lit';
import { describeProblem } from '../problems/problem.ts';
import type { Result } from '../problems/result.ts';
import type { PhotoReading } from '../tracing/vessel-photo.ts';
import './problem-note.ts';
import './shape-icon.ts';
import { figures, offWords } from './trace-words.ts';
import { markNumber, type VesselAction, type VesselAim, type VesselState } from './vessel-photo-state.ts';

export interface VesselMeans {
  readonly send: (action: VesselAction) => void;
  readonly backToPicture: () => void;
  readonly finish: () => void;
}

/** What is asked beside the photograph: marks with their numbers, the liquid line, the volume. */
export function vesselPanel(
  state: VesselState,
  reading: Result<PhotoReading>,
  means: VesselMeans,
): TemplateResult {
  const { aim, marks } = state.history.now;
  return html`<div class="block">
    ${aimChoice(aim, means)} ${aimAdvice(aim)}
    <ol class="rows">
      ${marks.map((_, index) => markRow(state, index, means))}
    </ol>
    ${outcome(reading)}
    <button
      type="button"
      class="primary"
      aria-disabled=${reading.ok ? 'false' : 'true'}
      @click=${() => reading.ok && means.finish()}
    >
      Use this volume
    </button>
  </div>`;
}

const aimChoice = (aim: VesselAim, means: VesselMeans) =>
  html`<div class="choice" role="group" aria-label="What a click marks">
    ${(['graduation', 'liquid'] as const).map(
      (name) =>
        html`<button
          type="button"
          data-aim=${name}
          aria-pressed=${name === aim}
          @click=${() => means.send({ type: 'aim', aim: name })}
        >
          ${name === 'graduation' ? 'Graduations' : 'Liquid line'}
        </button>`,
    )}
  </div>`;

const aimAdvice = (aim: VesselAim) =>
  aim === 'graduation'
    ? html`<p>
        Click on graduations that carry a number, at the scale itself, and type it. Two are needed, one below
        and one above the liquid; three or more also take up that the camera looked at an angle.
      </p>`
    : html`<p>
        Click on the lowest point of the curve. The camera must have stood at the height of the surface: from
        above or below, the curve is read wrong.
      </p>`;

/** What is missing is a note; what is wrong is a problem. */
const WAITING: readonly string[] = ['tracing.too-few-marks', 'tracing.no-liquid-line'];

function outcome(reading: Result<PhotoReading>): TemplateResult {
  if (!reading.ok) {
    const tone = WAITING.includes(reading.problem.code) ? 'info' : 'error';
    return html`<m-problem tone=${tone} .problem=${describeProblem(reading.problem)}></m-problem>`;
  }
  const { volumeMl, uMl, residualPx, marks } = reading.value;
  const off = residualPx === null ? '' : ` They lie ${offWords(residualPx)} off the scale.`;
  return html`<p class="facts" role="status">
    <strong class="number">${figures(volumeMl)} mL</strong>± ${figures(2 * uMl)} mL (two standard
    uncertainties) from ${marks} marks and pixels.${off}
  </p>`;
}

function markRow(state: VesselState, index: number, { send, backToPicture }: VesselMeans): TemplateResult {
  const mark = state.history.now.marks[index]!;
  const number = markNumber(mark);
  const refusal = mark.text !== '' && 'refusal' in number ? number.refusal : null;
  return html`<li class=${state.selected === index ? 'held' : ''}>
    <label class="mark">
      <span>Mark ${index + 1}</span>
      <input
        type="text"
        class="number"
        inputmode="decimal"
        autocomplete="off"
        data-mark=${index}
        aria-invalid=${refusal ? 'true' : 'false'}
        .value=${mark.text}
        @focus=${() => send({ type: 'select', spot: index })}
        @input=${(event: Event) => send({ type: 'type', index, text: (event.target as HTMLInputElement).value })}
        @keydown=${(event: KeyboardEvent) => event.key === 'Enter' && backToPicture()}
      />
      <span>mL</span>
    </label>
    <button
      type="button"
      class="quiet"
      aria-label=${`Remove mark ${index + 1}`}
      @click=${() => send({ type: 'remove', spot: index })}
    >
      <m-icon shape="cross"></m-icon>
    </button>
    ${refusal ? html`<span class="refusal">${refusal}</span>` : nothing}
  </li>`;
}
