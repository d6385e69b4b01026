import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import './shape-icon.ts';
import { CODE_PARTS, codeMistake, type CodeDraft } from './typed-code-draft.ts';
import { typedCodesStyles } from './typed-codes-look.ts';

/** A trouble code as typed off another display or a note. */
export interface TypedCode {
  readonly spn: number;
  readonly fmi: number;
  readonly note: string;
}

/** A code from the bus, already in words. */
export interface HeardCode {
  readonly spn: number;
  readonly fmi: number;
  readonly words: string;
  readonly state: 'active' | 'previous';
}

export interface CodesChanged {
  readonly codes: readonly TypedCode[];
}

const EMPTY: CodeDraft = { spn: '', fmi: '', note: '' };
const draftOf = ({ spn, fmi, note }: TypedCode): CodeDraft => ({ spn: `${spn}`, fmi: `${fmi}`, note });
const isEmpty = ({ spn, fmi, note }: CodeDraft) => `${spn}${fmi}${note}`.trim() === '';

/**
 * `m-typed-codes`: trouble codes typed by hand as SPN and FMI with a note, those of the bus beside them. Says `codes-changed` with all
 * codes whenever a row is complete, changed or removed; rows that are not right yet are left out of it and say why.
 */
@customElement('m-typed-codes')
export class TypedCodes extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, fieldStyles, typedCodesStyles];

  @property({ attribute: false }) codes: readonly TypedCode[] = [];
  @property({ attribute: false }) heard: readonly HeardCode[] = [];
  /** Words for a code, e.g. "Rail pressure: too low"; empty where none are known. */
  @property({ attribute: false }) describe: (spn: number, fmi: number) => string = () => '';
  @property({ type: Boolean }) fixed = false;
  @state() private _rows: readonly CodeDraft[] = [EMPTY];
  @state() private _left: ReadonlySet<number> = new Set();

  protected override willUpdate(changed: PropertyValues<this>) {
    if (!changed.has('codes') || JSON.stringify(this.#right()) === JSON.stringify(this.codes)) return;
    this._rows = this.codes.length > 0 ? this.codes.map(draftOf) : [EMPTY];
    this._left = new Set();
  }

  #right(): readonly TypedCode[] {
    return this._rows
      .filter((row) => codeMistake(row) === null)
      .map(({ spn, fmi, note }) => ({ spn: Number(spn.trim()), fmi: Number(fmi.trim()), note: note.trim() }));
  }

  #say() {
    const codes = this.#right();
    if (JSON.stringify(codes) === JSON.stringify(this.codes)) return;
    this.codes = codes;
    const detail: CodesChanged = { codes };
    this.dispatchEvent(new CustomEvent('codes-changed', { detail, bubbles: true, composed: true }));
  }

  #type(at: number, part: keyof CodeDraft, text: string) {
    this._rows = this._rows.with(at, { ...(this._rows[at] ?? EMPTY), [part]: text });
  }

  #remove(at: number) {
    const rows = this._rows.toSpliced(at, 1);
    this._rows = rows.length > 0 ? rows : [EMPTY];
    this._left = new Set();
    this.#say();
    this.renderRoot.querySelector<HTMLElement>('.more')?.focus();
  }

  async #append() {
    this._rows = [...this._rows, EMPTY];
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`#spn-${this._rows.length - 1}`)?.focus();
  }

  #leave(at: number, event: FocusEvent) {
    const row = event.currentTarget as HTMLElement;
    if (event.relatedTarget instanceof Node && row.contains(event.relatedTarget)) return;
    this._left = new Set([...this._left, at]);
  }

  #cell(row: CodeDraft, at: number, part: keyof CodeDraft) {
    const { label, mode } = CODE_PARTS[part];
    const wrong = this._left.has(at) && !isEmpty(row) && codeMistake(row)?.part === part;
    return html`<div class="field ${part}">
      <label class="label" for="${part}-${at}">${label}<span class="unseen"> of code ${at + 1}</span></label>
      <input
        id="${part}-${at}"
        class=${mode === 'numeric' ? 'number' : ''}
        inputmode=${mode}
        maxlength=${mode === 'numeric' ? 8 : 200}
        autocomplete="off"
        aria-invalid=${wrong}
        aria-describedby="says-${at}"
        .value=${row[part]}
        @input=${(event: Event) => this.#type(at, part, (event.target as HTMLInputElement).value)}
        @change=${() => this.#say()}
      />
    </div>`;
  }

  #row(row: CodeDraft, at: number) {
    const mistake = isEmpty(row) ? null : codeMistake(row);
    const words = mistake === null && !isEmpty(row) ? this.describe(Number(row.spn), Number(row.fmi)) : '';
    return html`<li @focusout=${(event: FocusEvent) => this.#leave(at, event)}>
      ${this.#cell(row, at, 'spn')} ${this.#cell(row, at, 'fmi')} ${this.#cell(row, at, 'note')}
      <button class="quiet" aria-label="Remove code ${at + 1}" @click=${() => this.#remove(at)}>
        <m-icon shape="cross"></m-icon>
      </button>
      <div class="says" id="says-${at}">
        ${
          mistake && this._left.has(at)
            ? html`<p class="mistake"><m-icon shape="fail"></m-icon><span>${mistake.words}</span></p>`
            : words
              ? html`<p class="hint">${words}</p>`
              : nothing
        }
      </div>
    </li>`;
  }

  #read() {
    if (this.codes.length === 0) return html`<p class="label">None.</p>`;
    return html`<ul>
      ${this.codes.map(
        ({ spn, fmi, note }) =>
          html`<li class="code">
            <span class="number">SPN ${spn} · FMI ${fmi}</span>
            <span>${[this.describe(spn, fmi), note].filter(Boolean).join('. ')}</span>
          </li>`,
      )}
    </ul>`;
  }

  #typed() {
    return html`<section class="panel" aria-labelledby="typed">
      <h3 id="typed">Trouble codes, typed</h3>
      ${
        this.fixed
          ? this.#read()
          : html`<ol>
                ${this._rows.map((row, at) => this.#row(row, at))}
              </ol>
              <button class="more" @click=${() => void this.#append()}>
                <m-icon shape="plus"></m-icon>One more code
              </button>`
      }
    </section>`;
  }

  #bus() {
    return html`<section class="panel" aria-labelledby="bus">
      <h3 id="bus">Trouble codes, from the bus</h3>
      ${
        this.heard.length === 0
          ? html`<p class="label">
              None heard. Connect a bridge with the key on, and what the engine reports stands here.
            </p>`
          : html`<ul>
              ${this.heard.map(
                ({ spn, fmi, words, state }) =>
                  html`<li class="code">
                    <span class="number">SPN ${spn} · FMI ${fmi}</span>
                    <span
                      ><m-icon shape=${state === 'active' ? 'live' : 'waiting'}></m-icon>
                      ${state}${words ? html`. ${words}` : nothing}</span
                    >
                  </li>`,
              )}
            </ul>`
      }
    </section>`;
  }

  override render() {
    return html`<div class="both">${this.#typed()} ${this.#bus()}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-typed-codes': TypedCodes;
  }
  interface HTMLElementEventMap {
    'codes-changed': CustomEvent<CodesChanged>;
  }
}
