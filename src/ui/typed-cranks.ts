import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { readNumber, type NumberRange } from './read-number.ts';
import './shape-icon.ts';

/** One crank as the person wrote it. */
export interface TypedCrankText {
  readonly seconds: string;
  readonly rpm: string;
}

/** One crank as read, with what was written. */
export interface TypedCrank {
  readonly seconds: number;
  readonly rpm: number;
  readonly secondsText: string;
  readonly rpmText: string;
}

export interface CranksTyped {
  readonly rows: readonly TypedCrank[];
}

type Column = keyof TypedCrankText;

/** From 400 rpm the engine runs by itself (measurement.md 2), so that is no cranking speed. 120 s: common practice, no source. */
const RANGES: Readonly<Record<Column, NumberRange>> = {
  seconds: { min: 0.1, max: 120, unit: 's' },
  rpm: { min: 1, max: 400, unit: 'rpm' },
};
const LABELS: Readonly<Record<Column, string>> = { seconds: 'Time', rpm: 'Average speed' };
const EMPTY: TypedCrankText = { seconds: '', rpm: '' };

type Read = { readonly value: number } | { readonly refusal: string };
const read = (row: TypedCrankText, column: Column): Read => readNumber(row[column], RANGES[column]);

/**
 * `m-typed-cranks`: cranks from a stopwatch and a tachometer, typed by hand. Point or comma. Says `cranks-typed` when every
 * row can be read; else each field says what is wrong with it.
 */
@customElement('m-typed-cranks')
export class TypedCranks extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    css`
      :host {
        container-type: inline-size;
      }
      .panel {
        max-width: var(--m-measure);
      }
      .in {
        display: none;
      }
      .crank {
        display: grid;
        grid-template-columns: 5.5rem minmax(0, 1fr) minmax(0, 1fr) auto;
        gap: var(--m-space-2) var(--m-space-4);
        align-items: start;
        padding: var(--m-space-3) 0;
        border-bottom: var(--m-stroke-1) solid var(--m-line);
      }
      .which,
      .remove {
        margin-top: calc(var(--m-text-s) * 1.45 + var(--m-space-1));
        min-height: var(--m-key);
      }
      .which {
        display: flex;
        align-items: center;
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .box {
        display: flex;
        align-items: baseline;
        gap: var(--m-space-2);
        margin-top: var(--m-space-1);
        padding: 0 var(--m-space-3);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
      }
      .box:focus-within {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: var(--m-focus-gap);
      }
      .wrong .box {
        border-color: var(--m-fail);
      }
      input {
        flex: 1;
        width: 100%;
        min-width: 0;
        min-height: var(--m-key);
        border: 0;
        outline: none;
        background: transparent;
        color: var(--m-ink);
        font-size: var(--m-text-xl);
        font-weight: 600;
        text-align: right;
      }
      .unit {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .error {
        display: flex;
        gap: var(--m-space-2);
        align-items: start;
        margin-top: var(--m-space-1);
        color: var(--m-fail);
        font-size: var(--m-text-s);
        font-weight: 600;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3);
        align-items: center;
        margin-top: var(--m-space-4);
      }
      .sum {
        color: var(--m-quiet);
      }
      @container (max-width: 32rem) {
        .crank {
          grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        }
        .unit {
          display: none;
        }
        .in {
          display: inline;
        }
        .which {
          margin: 0;
          min-height: var(--m-target);
        }
        .remove {
          margin: 0;
          min-height: var(--m-target);
          justify-self: end;
          grid-area: 1 / 2;
        }
        .actions button {
          flex: 1 1 100%;
        }
      }
    `,
  ];

  /** What stands in the fields. Changes as the person types. */
  @property({ attribute: false }) rows: readonly TypedCrankText[] = [EMPTY];
  @property({ attribute: 'action-label' }) actionLabel = 'Use these cranks';
  @state() private _checked = false;

  #type(at: number, column: Column, text: string) {
    this.rows = this.rows.map((row, each) => (each === at ? { ...row, [column]: text } : row));
  }

  async #focus(selector: string) {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }

  #grow() {
    this.rows = [...this.rows, EMPTY];
    void this.#focus(`#seconds-${this.rows.length - 1}`);
  }

  #remove(at: number) {
    this.rows = this.rows.filter((_, each) => each !== at);
    void this.#focus(`#seconds-${Math.min(at, this.rows.length - 1)}`);
  }

  #enter() {
    this._checked = true;
    const rows: TypedCrank[] = [];
    for (const row of this.rows) {
      const [seconds, rpm] = [read(row, 'seconds'), read(row, 'rpm')];
      if ('refusal' in seconds || 'refusal' in rpm) continue;
      rows.push({
        seconds: seconds.value,
        rpm: rpm.value,
        secondsText: row.seconds.trim(),
        rpmText: row.rpm.trim(),
      });
    }
    if (rows.length < this.rows.length) {
      void this.#focus('[aria-invalid="true"]');
      return;
    }
    this._checked = false;
    const detail: CranksTyped = { rows };
    this.dispatchEvent(new CustomEvent('cranks-typed', { detail, bubbles: true, composed: true }));
  }

  #field(row: TypedCrankText, at: number, column: Column) {
    const outcome = read(row, column);
    const refusal = this._checked && 'refusal' in outcome ? outcome.refusal : '';
    const id = `${column}-${at}`;
    return html`<div class=${refusal ? 'wrong' : ''}>
      <label class="label" for=${id}
        >${LABELS[column]}<span class="in">, ${RANGES[column].unit}</span
        ><span class="unseen"> of crank ${at + 1}</span></label
      >
      <div class="box">
        <input
          id=${id}
          class="number"
          inputmode="decimal"
          autocomplete="off"
          aria-invalid=${refusal ? 'true' : 'false'}
          aria-describedby="error-${id}"
          .value=${row[column]}
          @input=${(event: Event) => this.#type(at, column, (event.target as HTMLInputElement).value)}
          @keydown=${(event: KeyboardEvent) => event.key === 'Enter' && this.#enter()}
        />
        <span class="unit">${RANGES[column].unit}</span>
      </div>
      <p class="error" id="error-${id}" role="alert">
        ${refusal ? html`<m-icon shape="fail"></m-icon><span>${refusal}</span>` : nothing}
      </p>
    </div>`;
  }

  #row(row: TypedCrankText, at: number) {
    return html`<li class="crank" aria-label="Crank ${at + 1}">
      <p class="which">Crank ${at + 1}</p>
      ${this.#field(row, at, 'seconds')}${this.#field(row, at, 'rpm')}
      ${
        this.rows.length > 1
          ? html`<button
              class="remove quiet"
              aria-label="Remove crank ${at + 1}"
              @click=${() => this.#remove(at)}
            >
              <m-icon shape="cross"></m-icon>
            </button>`
          : nothing
      }
    </li>`;
  }

  /** The sum while it can be formed: a slip of the finger shows in it before anything is graded. */
  #sum() {
    const seconds = this.rows.map((row) => read(row, 'seconds'));
    const known = seconds.flatMap((each) => ('value' in each ? [each.value] : []));
    if (known.length < seconds.length) return nothing;
    return html`<p class="sum number">${known.reduce((sum, each) => sum + each, 0).toFixed(1)} s in all</p>`;
  }

  override render() {
    return html`<div class="panel">
      <ol>
        ${this.rows.map((row, at) => this.#row(row, at))}
      </ol>
      <div class="actions">
        <button class="primary" @click=${() => this.#enter()}>${this.actionLabel}</button>
        <button @click=${() => this.#grow()}><m-icon shape="plus"></m-icon>One more crank</button>
        ${this.#sum()}
      </div>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-typed-cranks': TypedCranks;
  }
  interface HTMLElementEventMap {
    'cranks-typed': CustomEvent<CranksTyped>;
  }
}
