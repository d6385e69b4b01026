import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { JOB_FIELD_FORMS, jobFieldMistake, type JobFieldForm, type JobFieldName } from './job-fields.ts';
import { jobFormStyles } from './job-form-look.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';

/** One field as it stands. `proposal`: what the bus says where that differs from the value; empty: nothing. */
export interface JobFieldView {
  readonly value: string;
  readonly from: 'typed' | 'bus' | null;
  readonly proposal: string;
  /** What is to be said of the value, e.g. of a VIN's check digit; empty: nothing. */
  readonly note: string;
  readonly noteTone: 'good' | 'doubt';
}

export interface JobFieldChanged {
  readonly field: JobFieldName;
  /** Without spaces at its ends; empty takes the field back. */
  readonly value: string;
  readonly from: 'typed' | 'bus';
}

export const EMPTY_FIELD: JobFieldView = { value: '', from: null, proposal: '', note: '', noteTone: 'good' };

/** So long after the last key what was typed is said, so that a killed page loses no more, ms. */
export const TYPING_PAUSE_MS = 1000;

const ORIGIN = { typed: 'typed', bus: 'from the bus' } as const;

/**
 * `m-job-form`: which vehicle, which engine, what the customer complains of. Each field is said as `field-changed` by itself: when it
 * is left, on Enter, and a second after the last key. What cannot be right is not said, and the field tells what to do.
 */
@customElement('m-job-form')
export class JobForm extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, jobFormStyles];

  @property({ attribute: false }) fields: Partial<Readonly<Record<JobFieldName, JobFieldView>>> = {};
  /** What the app found wrong besides. */
  @property({ attribute: false }) problems: readonly {
    readonly field: JobFieldName;
    readonly words: string;
  }[] = [];
  /** A signed job: to be read only. */
  @property({ type: Boolean }) fixed = false;
  /** Text that is not yet what the app holds. */
  @state() private _typing: ReadonlyMap<JobFieldName, string> = new Map();
  /** Fields that were left: their mistakes are shown. */
  @state() private _left: ReadonlySet<JobFieldName> = new Set();
  #pause: ReturnType<typeof setTimeout> | null = null;
  readonly #said = new Map<JobFieldName, string>();

  override disconnectedCallback() {
    super.disconnectedCallback();
    if (this.#pause !== null) clearTimeout(this.#pause);
  }

  protected override willUpdate(changed: PropertyValues<this>) {
    if (!changed.has('fields')) return;
    const still = [...this._typing].filter(([field, text]) => text.trim() !== this.#view(field).value);
    if (still.length !== this._typing.size) this._typing = new Map(still);
    this.#said.clear();
  }

  #view(field: JobFieldName): JobFieldView {
    return this.fields[field] ?? EMPTY_FIELD;
  }

  #say(field: JobFieldName, value: string, from: 'typed' | 'bus') {
    const detail: JobFieldChanged = { field, value, from };
    this.dispatchEvent(new CustomEvent('field-changed', { detail, bubbles: true, composed: true }));
  }

  /** Says what was typed, once, where it can be right. */
  #keep(field: JobFieldName) {
    const typed = this._typing.get(field)?.trim();
    if (typed === undefined || jobFieldMistake(field, typed) !== '') return;
    const value = JOB_FIELD_FORMS[field].kind === 'number' ? typed.replace(',', '.') : typed;
    if (value === (this.#said.get(field) ?? this.#view(field).value)) return;
    this.#said.set(field, value);
    this.#say(field, value, 'typed');
  }

  #type(field: JobFieldName, text: string) {
    this._typing = new Map([...this._typing, [field, text]]);
    if (this.#pause !== null) clearTimeout(this.#pause);
    this.#pause = setTimeout(() => this.#keep(field), TYPING_PAUSE_MS);
  }

  #leave(field: JobFieldName) {
    this._left = new Set([...this._left, field]);
    this.#keep(field);
  }

  #take(field: JobFieldName) {
    this._typing = new Map([...this._typing].filter(([each]) => each !== field));
    this.#say(field, this.#view(field).proposal, 'bus');
    this.renderRoot.querySelector<HTMLElement>(`#${field}`)?.focus();
  }

  #mistakes(field: JobFieldName): readonly string[] {
    const typed = this._typing.get(field);
    const own = typed === undefined || !this._left.has(field) ? '' : jobFieldMistake(field, typed.trim());
    const told = this.problems.filter((each) => each.field === field).map(({ words }) => words);
    return own === '' ? told : [own, ...told];
  }

  #input(field: JobFieldName, { kind }: JobFieldForm, wrong: boolean) {
    const text = this._typing.get(field) ?? this.#view(field).value;
    const typed = (event: Event) => this.#type(field, (event.target as HTMLInputElement).value);
    const left = () => this.#leave(field);
    if (kind === 'long') {
      return html`<textarea
        id=${field}
        rows="3"
        maxlength="2000"
        aria-invalid=${wrong}
        aria-describedby="says-${field}"
        .value=${text}
        @input=${typed}
        @change=${left}
      ></textarea>`;
    }
    return html`<input
      id=${field}
      autocomplete="off"
      maxlength="200"
      inputmode=${kind === 'number' ? 'decimal' : 'text'}
      autocapitalize=${kind === 'code' ? 'characters' : 'sentences'}
      spellcheck="false"
      aria-invalid=${wrong}
      aria-describedby="says-${field}"
      .value=${text}
      @input=${typed}
      @change=${left}
    />`;
  }

  #notes(field: JobFieldName) {
    const { note, noteTone } = this.#view(field);
    const mistakes = this.#mistakes(field);
    return html`<div id="says-${field}">
      ${mistakes.map((words) => html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${words}</span></p>`)}
      ${
        note === '' || mistakes.length > 0
          ? nothing
          : html`<p class="note ${noteTone}">
              <m-icon shape=${noteTone === 'good' ? 'pass' : 'marginal'}></m-icon><span>${note}</span>
            </p>`
      }
    </div>`;
  }

  #proposal(field: JobFieldName, label: string) {
    const { proposal, value } = this.#view(field);
    if (proposal === '' || proposal === value || this.fixed) return nothing;
    return html`<div class="proposal">
      <p>
        <span class="label">The bus says</span>
        <strong>${proposal}</strong>${value === '' ? '' : '. What you typed is kept.'}
      </p>
      <button aria-label="Take what the bus says: ${proposal} as ${label}" @click=${() => this.#take(field)}>
        Take what the bus says
      </button>
    </div>`;
  }

  #field(field: JobFieldName) {
    const form = JOB_FIELD_FORMS[field];
    const { value, from } = this.#view(field);
    const name = form.unit === '' ? form.label : `${form.label}, ${form.unit}`;
    if (this.fixed) {
      return html`<div class="field ${form.kind}">
        <p class="label">${name}</p>
        <p class="kept">${value || '–'}</p>
      </div>`;
    }
    return html`<div class="field ${form.kind}">
      <p class="head">
        <label class="label" for=${field}>${name}</label>
        ${from === null || value === '' ? nothing : html`<span class="from">${ORIGIN[from]}</span>`}
      </p>
      ${this.#input(field, form, this.#mistakes(field).length > 0)} ${this.#notes(field)}
      ${this.#proposal(field, form.label)}
    </div>`;
  }

  override render() {
    return html`<section class="panel" aria-label="Vehicle, engine and complaint">
      ${(Object.keys(JOB_FIELD_FORMS) as JobFieldName[]).map((field) => this.#field(field))}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-job-form': JobForm;
  }
  interface HTMLElementEventMap {
    'field-changed': CustomEvent<JobFieldChanged>;
  }
}
