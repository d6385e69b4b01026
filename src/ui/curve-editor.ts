import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CurveJoin, CurvePoint } from '../limits/boundary-curve.ts';
import { unitSymbol } from '../quantities/format.ts';
import type { UnitId } from '../quantities/unit.ts';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './curve-chart.ts';
import { curveEditorStyles } from './curve-editor-look.ts';
import {
  beginEdit,
  cellNumber,
  CURVE_NAMES,
  numberText,
  stepEdit,
  type CurveAction,
  type CurveDraft,
  type CurveEdit,
  type CurveName,
  type CurvePlace,
} from './curve-edit.ts';
import './curve-paste-panel.ts';
import {
  CURVE_WORDS,
  readCurves,
  type CurveChart,
  type CurveMistake,
  type CurveReading,
} from './curve-reading.ts';
import './curve-table.ts';
import './curve-try.ts';
import type { TriedText } from './curve-try.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** The draft after a change, and the chart it makes: null while there are mistakes. Volumes in the printed unit. */
export interface CurvesChanged {
  readonly draft: CurveDraft;
  readonly chart: CurveChart | null;
  readonly mistakes: readonly CurveMistake[];
}

const EMPTY: CurveDraft = { failBelow: [], passAbove: [], failAbove: [], join: 'straight' };
const JOINS: readonly (readonly [CurveJoin, string])[] = [
  ['straight', 'Straight'],
  ['monotone cubic', 'Smooth'],
];

/** `m-curve-editor`: the boundaries of one speed chart, in a table and on the chart at once. Says `curves-changed`. */
@customElement('m-curve-editor')
export class CurveEditor extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, curveEditorStyles];

  /** What to begin with. Setting another draft forgets what could be undone; setting what was said last does not. */
  @property({ attribute: false }) draft: CurveDraft = EMPTY;
  /** The unit in which the volumes were printed. */
  @property({ attribute: false }) unit: UnitId = 'mL';
  @state() private _edit: CurveEdit = beginEdit(EMPTY);
  @state() private _active: CurveName = 'failBelow';
  @state() private _chosen = 0;
  @state() private _tried: TriedText = { speed: '', volume: '' };
  /** Begin with the paste panel open and in focus. */
  @property({ type: Boolean }) pasting = false;
  /** Text for the paste panel; null while it is closed. */
  @state() private _paste: string | null = null;

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('draft') && this.draft !== this._edit.draft) this._edit = beginEdit(this.draft);
  }

  protected override firstUpdated() {
    if (this.pasting) void this.#openPaste('');
  }

  #act(action: CurveAction) {
    const before = this._edit.draft;
    this._edit = stepEdit(this._edit, action);
    const { draft } = this._edit;
    if (draft === before) return;
    this.draft = draft;
    const detail: CurvesChanged = { draft, ...readCurves(draft, unitSymbol(this.unit)) };
    this.dispatchEvent(new CustomEvent('curves-changed', { detail, bubbles: true, composed: true }));
  }

  #choose({ curve, index }: CurvePlace) {
    this._active = curve;
    this._chosen = index;
  }

  readonly #keys = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === 'z') this.#act({ do: event.shiftKey ? 'redo' : 'undo' });
    else if (key === 'y') this.#act({ do: 'redo' });
    else return;
    event.preventDefault();
  };

  async #openPaste(text: string) {
    this._paste = text;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('m-curve-paste')?.focus();
  }

  async #closePaste() {
    this._paste = null;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#paste')?.focus();
  }

  #tabKey(event: KeyboardEvent) {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const at = (CURVE_NAMES.indexOf(this._active) + by + CURVE_NAMES.length) % CURVE_NAMES.length;
    this.#choose({ curve: CURVE_NAMES[at] ?? 'failBelow', index: 0 });
    void this.updateComplete.then(() =>
      this.renderRoot.querySelector<HTMLElement>('[aria-selected="true"]')?.focus(),
    );
  }

  #tab(name: CurveName, { mistakes }: CurveReading) {
    const wrong = mistakes.some(({ curve }) => curve === name);
    const count = this._edit.draft[name].length;
    const on = name === this._active;
    return html`<button
      role="tab"
      id="tab-${name}"
      aria-selected=${on}
      aria-controls="points"
      tabindex=${on ? 0 : -1}
      @click=${() => this.#choose({ curve: name, index: 0 })}
      @keydown=${(event: KeyboardEvent) => this.#tabKey(event)}
    >
      <m-icon
        shape=${name === 'passAbove' ? 'pass' : 'fail'}
        class=${name === 'passAbove' ? 'is-pass' : 'is-fail'}
      ></m-icon>
      <span
        >${CURVE_WORDS[name]}<small
          >${count === 0 ? 'none' : `${count} ${count === 1 ? 'point' : 'points'}`}${wrong ? ', mistake' : ''}</small
        ></span
      >
    </button>`;
  }

  #toolbar() {
    const { past, future, draft } = this._edit;
    return html`<div class="toolbar">
      <fieldset>
        <legend class="unseen">How the points are joined</legend>
        <div class="choices">
          ${JOINS.map(
            ([join, words]) =>
              html`<label
                ><input
                  type="radio"
                  name="join"
                  .checked=${draft.join === join}
                  @change=${() => this.#act({ do: 'join', join })}
                />${words}</label
              >`,
          )}
        </div>
      </fieldset>
      <div class="row">
        <button aria-disabled=${past.length === 0} @click=${() => this.#act({ do: 'undo' })}>Undo</button>
        <button aria-disabled=${future.length === 0} @click=${() => this.#act({ do: 'redo' })}>Redo</button>
        <button
          id="paste"
          aria-expanded=${this._paste !== null}
          @click=${() => (this._paste === null ? void this.#openPaste('') : void this.#closePaste())}
        >
          <m-icon shape="copy"></m-icon>Paste from a spreadsheet
        </button>
      </div>
    </div>`;
  }

  #pastePanel() {
    if (this._paste === null) return nothing;
    return html`<m-curve-paste
      .text=${this._paste}
      .unit=${this.unit}
      .into=${this._active}
      @paste-taken=${(event: HTMLElementEventMap['paste-taken']) => {
        this.#act({ do: 'replace', curves: event.detail.curves });
        this._chosen = 0;
        void this.#closePaste();
      }}
      @paste-cancelled=${() => void this.#closePaste()}
    ></m-curve-paste>`;
  }

  #points(reading: CurveReading) {
    const rows = this._edit.draft[this._active];
    const none = this._active === 'failAbove' && rows.length === 0;
    return html`<div class="side">
      <div role="tablist" aria-label="Boundaries">${CURVE_NAMES.map((name) => this.#tab(name, reading))}</div>
      <div id="points" role="tabpanel" aria-labelledby="tab-${this._active}">
        <h3 class="printed">${CURVE_WORDS[this._active]}</h3>
        ${none ? html`<p class="hint">Most charts have no upper boundary. Add points only where the chart shows one.</p>` : nothing}
        <m-curve-table
          .curve=${this._active}
          .rows=${rows}
          .mistakes=${reading.mistakes.filter(({ curve }) => curve === this._active)}
          .unit=${this.unit}
          .chosen=${this._chosen}
          @curve-action=${(event: HTMLElementEventMap['curve-action']) => this.#act(event.detail)}
          @cells-pasted=${(event: HTMLElementEventMap['cells-pasted']) => void this.#openPaste(event.detail.text)}
        ></m-curve-table>
      </div>
      <m-curve-try
        .chart=${reading.chart}
        .tried=${this._tried}
        unit=${unitSymbol(this.unit)}
        @tried-typed=${(event: HTMLElementEventMap['tried-typed']) => (this._tried = event.detail)}
      ></m-curve-try>
    </div>`;
  }

  #triedPoint(): CurvePoint | null {
    const point: CurvePoint = [cellNumber(this._tried.speed), cellNumber(this._tried.volume)];
    return point.some(Number.isNaN) ? null : point;
  }

  override render() {
    const reading = readCurves(this._edit.draft, unitSymbol(this.unit));
    return html`<div
      @keydown=${this.#keys}
      @point-chosen=${(event: HTMLElementEventMap['point-chosen']) => this.#choose(event.detail)}
    >
      ${this.#toolbar()} ${this.#pastePanel()}
      <div class="both">
        <m-curve-chart
          class="panel"
          .draft=${this._edit.draft}
          .active=${this._active}
          .chosen=${this._chosen}
          .tried=${this.#triedPoint()}
          unit=${unitSymbol(this.unit)}
          @point-moved=${(event: HTMLElementEventMap['point-moved']) => this.#act({ do: 'move', ...event.detail })}
          @point-removed=${(event: HTMLElementEventMap['point-removed']) => this.#act({ do: 'remove', ...event.detail })}
          @place-clicked=${({ detail }: HTMLElementEventMap['place-clicked']) => (this._tried = { speed: numberText(detail.speed), volume: numberText(detail.volume) })}
        ></m-curve-chart>
        ${this.#points(reading)}
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-curve-editor': CurveEditor;
  }
  interface HTMLElementEventMap {
    'curves-changed': CustomEvent<CurvesChanged>;
  }
}
