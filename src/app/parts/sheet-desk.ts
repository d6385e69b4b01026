import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { LimitSheet, Tracing } from '../../limits/limit-sheet.ts';
import { parseLimitSheet } from '../../limits/parse-limit-sheet.ts';
import { reviseSheet } from '../../limits/revise-sheet.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import type { Result } from '../../problems/result.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { numberText } from '../../ui/curve-edit.ts';
import '../../ui/problem-note.ts';
import { printedSymbol } from '../../limits/printed-unit.ts';
import {
  curvesInUnit,
  EMPTY_CHART,
  EMPTY_SHEET,
  VOLUME_UNITS,
  type SheetDraft,
  type SpeedChartDraft,
  type VolumeUnit,
} from '../../ui/sheet-draft.ts';
import '../../ui/sheet-form.ts';
import type { TracedChart } from '../../ui/trace-result.ts';
import { pageStyles } from '../page-styles.ts';
import { LOW_RAIL_PRESSURE } from '../../procedures/library.ts';
import { draftOfSheet, sheetOfDraft } from '../sheet-from-draft.ts';
import './trace-part.ts';

const DELIVERY = { id: 'crank-delivery', title: 'Crank delivery' } as const;
/** What a sheet may hold limits for: every check of the shipped procedure that measures something; the charted one first. */
const CHECKS = [
  DELIVERY,
  ...LOW_RAIL_PRESSURE.checks.filter(
    ({ id, settings }) => id !== DELIVERY.id && settings.kind !== 'inspection',
  ),
].map(({ id, title }) => ({ id, title }));
const TRACED_CHECK = DELIVERY.id;
const EMPTY_DELIVERY = { ...EMPTY_CHART, check: TRACED_CHECK, title: DELIVERY.title };

/**
 * `sheet-desk`: one limit sheet being typed, traced or revised. Says `sheet-made` with a sheet that holds no mistake, and
 * `sheet-left` when the person gives up.
 */
@customElement('sheet-desk')
export class SheetDesk extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      label.field {
        max-width: 20rem;
      }
    `,
  ];

  /** The sheet that is revised; null for a new one. */
  @property({ attribute: false }) base: LimitSheet | null = null;
  /** All revisions that are kept, so that the new one takes no id of theirs. */
  @property({ attribute: false }) kept: readonly LimitSheet[] = [];
  @property({ attribute: false }) newId!: () => string;
  @property() today = '';
  /** Who read a sheet here last; the first guess for a new one. */
  @property({ attribute: 'reader-name' }) readerName = '';
  /** Begin with a picture of the chart. */
  @property({ type: Boolean }) tracing = false;
  /** Begin with a chart whose place for pasted columns is open. */
  @property({ type: Boolean }) pasting = false;
  @state() private draft: SheetDraft = EMPTY_SHEET;
  @state() private problem: Problem | null = null;
  /** The unit that the traced chart has its volumes printed in; null while it is the one of the chart in the draft. */
  @state() private pickedUnit: VolumeUnit | null = null;
  #tracings: ReadonlyMap<string, Tracing> = new Map();

  override connectedCallback(): void {
    super.connectedCallback();
    const { base } = this;
    this.draft = base
      ? { ...draftOfSheet(base), validFrom: this.today }
      : {
          ...EMPTY_SHEET,
          ...(this.pasting ? { limits: [EMPTY_DELIVERY] } : {}),
          validFrom: this.today,
          readBy: this.readerName,
        };
    const known = (base?.limits ?? []).flatMap((limit): [string, Tracing][] =>
      limit.kind === 'speed chart' && limit.tracing ? [[limit.check, limit.tracing]] : [],
    );
    this.#tracings = new Map(known);
  }

  override render() {
    return html`<div class="stack">
      <div class="row">
        <h2>${this.base ? `New revision of ${this.base.title}` : 'New limit sheet'}</h2>
        <button @click=${() => this.#say('sheet-left', null)}>Leave without keeping it</button>
      </div>
      ${this.problem ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>` : nothing}
      ${
        this.tracing
          ? html`${this.#unitChoice()}
              <trace-part volume-unit=${this.#unit} @chart-traced=${this.#traced}></trace-part>`
          : html`<div class="row">
                <button @click=${() => (this.tracing = true)}>Trace a picture of the chart</button>
              </div>
              <m-sheet-form
                .draft=${this.draft}
                .checks=${CHECKS}
                ?pasting=${this.pasting}
                @sheet-changed=${(event: HTMLElementEventMap['sheet-changed']) => (this.draft = event.detail.draft)}
                @sheet-saved=${this.#saved}
              ></m-sheet-form>`
      }
    </div>`;
  }

  get #chart(): SpeedChartDraft {
    const typed = this.draft.limits.find(
      ({ check, kind }) => check === TRACED_CHECK && kind === 'speed chart',
    );
    return typed?.kind === 'speed chart' ? typed : EMPTY_DELIVERY;
  }

  get #unit(): VolumeUnit {
    return this.pickedUnit ?? this.#chart.unit;
  }

  #unitChoice() {
    const pick = (event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      this.pickedUnit = VOLUME_UNITS.find((unit) => unit === value) ?? null;
    };
    return html`<label class="field"
      >Volumes on the chart are printed in
      <select @change=${pick}>
        ${VOLUME_UNITS.map(
          (unit) =>
            html`<option value=${unit} ?selected=${unit === this.#unit}>${printedSymbol(unit)}</option>`,
        )}
      </select>
    </label>`;
  }

  readonly #traced = (event: HTMLElementEventMap['chart-traced']) => {
    const { curves, uVolumeMl, notes } = event.detail;
    const unit = this.#unit;
    const chart = { ...this.#chart, unit, curves: curvesInUnit(draftCurves(curves), 'mL', unit) };
    const others = this.draft.limits.filter(({ check }) => check !== TRACED_CHECK);
    this.draft = { ...this.draft, limits: [chart, ...others] };
    const worst = Math.max(0, ...Object.values(uVolumeMl));
    this.#tracings = new Map([
      ...this.#tracings,
      [TRACED_CHECK, { uVolumeMl: worst, note: notes.join(' ') || 'traced' }],
    ]);
    this.tracing = false;
  };

  readonly #saved = (event: HTMLElementEventMap['sheet-saved']) => {
    const made = this.#sheet(event.detail.draft);
    if (made.ok) this.#say('sheet-made', made.value);
    else this.problem = made.problem;
  };

  #sheet(draft: SheetDraft): Result<LimitSheet> {
    const { base } = this;
    const id = this.newId();
    const typed = sheetOfDraft(draft, { id, sheetId: base?.sheetId ?? id, tracings: this.#tracings, base });
    if (!base) return parseLimitSheet(typed);
    const { title, engineFamily, serialRanges, validFrom, readFrom, confirmedBy, confirmedOn, limits } =
      typed;
    const change = {
      title,
      engineFamily,
      serialRanges,
      validFrom,
      readFrom,
      confirmedBy,
      confirmedOn,
      limits,
    };
    const named = typed.revision === base.revision ? {} : { revision: typed.revision };
    return parseLimitSheet(reviseSheet(base, { ...change, ...named }, this.kept));
  }

  #say(name: 'sheet-made' | 'sheet-left', detail: LimitSheet | null): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

/** Traced points as rows to be looked over. */
function draftCurves(curves: TracedChart['curves']) {
  const rows = (name: 'failBelow' | 'passAbove' | 'failAbove') =>
    (curves[name] ?? []).map(([speed, volume]) => ({ speed: numberText(speed), volume: numberText(volume) }));
  return {
    failBelow: rows('failBelow'),
    passAbove: rows('passAbove'),
    failAbove: rows('failAbove'),
    join: 'straight' as const,
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'sheet-desk': SheetDesk;
  }
  interface HTMLElementEventMap {
    'sheet-made': CustomEvent<LimitSheet>;
    'sheet-left': CustomEvent<null>;
  }
}
