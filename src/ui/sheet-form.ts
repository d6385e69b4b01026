import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import {
  coverageWords,
  EMPTY_CHART,
  EMPTY_RANGE,
  EMPTY_SHEET,
  EMPTY_WINDOW,
  rangeWords,
  sheetDraftProblems,
  type FieldProblem,
  type LimitDraft,
  type SerialRangeDraft,
  type SheetDraft,
} from './sheet-draft.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import { sheetFormStyles } from './sheet-form-look.ts';
import './sheet-limit-form.ts';
import type { CheckChoice } from './sheet-limit-form.ts';
import './shape-icon.ts';

/** The whole draft after a change; it can be kept when `problems` is empty. */
export interface SheetChanged {
  readonly draft: SheetDraft;
  readonly problems: readonly FieldProblem[];
}

type TextField = 'title' | 'engineFamily' | 'revision' | 'validFrom' | 'readFrom' | 'readBy' | 'confirmedOn';

/**
 * `m-sheet-form`: a limit sheet typed in: which engines, which revision, where the numbers were read, and the limits. Says
 * `sheet-changed` with the whole draft at each change, `sheet-saved` when the person is done and nothing is wrong. Problems show
 * at a field once it was left, and all of them after "Keep".
 */
@customElement('m-sheet-form')
export class SheetForm extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, sheetFormStyles];

  @property({ attribute: false }) draft: SheetDraft = EMPTY_SHEET;
  @property({ attribute: false }) checks: readonly CheckChoice[] = [];
  /** What the app found besides, by the same field names. */
  @property({ attribute: false }) problems: readonly FieldProblem[] = [];
  /** Begin with the place for pasted columns of the first chart open. */
  @property({ type: Boolean }) pasting = false;
  @property({ attribute: 'action-label' }) actionLabel = 'Keep this sheet';
  @state() private _left: ReadonlySet<string> = new Set();
  @state() private _all = false;

  #found(): readonly FieldProblem[] {
    return [...sheetDraftProblems(this.draft), ...this.problems];
  }

  #say(name: 'sheet-changed' | 'sheet-saved') {
    const detail: SheetChanged = { draft: this.draft, problems: this.#found() };
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  #change(change: Partial<SheetDraft>) {
    this.draft = { ...this.draft, ...change };
    this.#say('sheet-changed');
  }

  #range(at: number, change: Partial<SerialRangeDraft>) {
    this.#change({
      ranges: this.draft.ranges.map((range, each) => (each === at ? { ...range, ...change } : range)),
    });
  }

  async #keep() {
    this._all = true;
    await this.updateComplete;
    if (this.#found().length === 0) this.#say('sheet-saved');
    else this.renderRoot.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }

  #shown(field: string): readonly string[] {
    if (!this._all && !this._left.has(field)) return [];
    return this.#found()
      .filter((each) => each.field === field)
      .map(({ words }) => words);
  }

  #said(field: string) {
    const words = this.#shown(field);
    return html`<div id="says-${field}">
      ${words.map((each) => html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${each}</span></p>`)}
    </div>`;
  }

  #field(
    field: string,
    label: string,
    {
      value,
      set,
      hint = '',
      type = 'text',
    }: { value: string; set: (text: string) => void; hint?: string; type?: string },
  ) {
    return html`<div class="field">
      <label class="label" for=${field}>${label}</label>
      <input
        id=${field}
        type=${type}
        autocomplete="off"
        aria-invalid=${this.#shown(field).length > 0 ? 'true' : 'false'}
        aria-describedby="says-${field}"
        .value=${value}
        @input=${(event: Event) => set((event.target as HTMLInputElement).value)}
        @blur=${() => (this._left = new Set([...this._left, field]))}
      />
      ${hint ? html`<p class="hint">${hint}</p>` : nothing} ${this.#said(field)}
    </div>`;
  }

  #text(field: TextField, label: string, more: { hint?: string; type?: string } = {}) {
    return this.#field(field, label, {
      value: this.draft[field],
      set: (text) => this.#change({ [field]: text }),
      ...more,
    });
  }

  #rangeRow(range: SerialRangeDraft, at: number) {
    const cell = (part: keyof SerialRangeDraft, label: string) =>
      this.#field(`ranges.${at}.${part}`, label, {
        value: range[part],
        set: (text) => this.#range(at, { [part]: text }),
      });
    return html`<li class="range" aria-label="Serial range ${at + 1}">
      ${cell('prefix', 'Begins with')} ${cell('from', 'From')} ${cell('to', 'To')}
      <button
        class="quiet"
        aria-label="Remove serial range ${at + 1}"
        @click=${() => this.#change({ ranges: this.draft.ranges.toSpliced(at, 1) })}
      >
        <m-icon shape="cross"></m-icon>
      </button>
      <p class="covers">${rangeWords(range)}</p>
    </li>`;
  }

  #ranges() {
    return html`<section class="panel" aria-labelledby="serials">
      <h2 id="serials">Serial numbers</h2>
      <p class="hint">Leave an end empty where the range is open.</p>
      <ul>
        ${this.draft.ranges.map((range, at) => this.#rangeRow(range, at))}
      </ul>
      <button @click=${() => this.#change({ ranges: [...this.draft.ranges, EMPTY_RANGE] })}>
        <m-icon shape="plus"></m-icon>One more range
      </button>
      <p class="all" role="status">
        <m-icon shape="engine"></m-icon><span>${coverageWords(this.draft.ranges)}</span>
      </p>
    </section>`;
  }

  #origin() {
    return html`<section class="panel" aria-labelledby="origin">
      <h2 id="origin">Which numbers these are</h2>
      <div class="fields">
        ${this.#text('title', 'Name of the sheet')} ${this.#text('engineFamily', 'Engine family')}
        ${this.#text('revision', 'Revision')} ${this.#text('validFrom', 'Valid from', { type: 'date' })}
        <div class="wide">
          ${this.#text('readFrom', 'Where the numbers were read', { hint: 'Title, page and date of the paper, so that another person finds them again.' })}
        </div>
        ${this.#text('readBy', 'Read or last compared by')}
        ${this.#text('confirmedOn', 'Confirmed on', { type: 'date', hint: 'When they were last compared with current service information.' })}
      </div>
    </section>`;
  }

  #limit(limit: LimitDraft, at: number) {
    const start = `limits.${at}.`;
    const own = this.#found()
      .filter(({ field }) => field.startsWith(start))
      .map(({ field, words }) => ({ field: field.slice(start.length), words }));
    return html`<m-sheet-limit
      .limit=${limit}
      .checks=${this.checks}
      .number=${at + 1}
      ?pasting=${this.pasting && at === 0}
      .problems=${own.filter(({ field }) => this._all || field === 'max' || field === 'min')}
      @limit-changed=${(event: HTMLElementEventMap['limit-changed']) => this.#change({ limits: this.draft.limits.with(at, event.detail) })}
      @limit-removed=${() => this.#change({ limits: this.draft.limits.toSpliced(at, 1) })}
    ></m-sheet-limit>`;
  }

  #limits() {
    const add = (limit: LimitDraft) => this.#change({ limits: [...this.draft.limits, limit] });
    return html`<section class="limits" aria-labelledby="limits">
      <h2 id="limits">Limits</h2>
      ${this.draft.limits.map((limit, at) => this.#limit(limit, at))} ${this.#said('limits')}
      <div class="row">
        <button @click=${() => add(EMPTY_CHART)}>
          <m-icon shape="plus"></m-icon>A chart of volume over speed
        </button>
        <button @click=${() => add(EMPTY_WINDOW)}>
          <m-icon shape="plus"></m-icon>A lowest and highest value
        </button>
      </div>
    </section>`;
  }

  override render() {
    const open = this._all ? this.#found().length : 0;
    return html`<div class="form">
      ${this.#origin()} ${this.#ranges()} ${this.#limits()}
      <div class="row end">
        <button class="primary" @click=${() => void this.#keep()}>${this.actionLabel}</button>
        <p role="status" class="hint">
          ${open === 0 ? nothing : open === 1 ? 'One field needs a look.' : `${open} fields need a look.`}
        </p>
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-sheet-form': SheetForm;
  }
  interface HTMLElementEventMap {
    'sheet-changed': CustomEvent<SheetChanged>;
    'sheet-saved': CustomEvent<SheetChanged>;
  }
}
