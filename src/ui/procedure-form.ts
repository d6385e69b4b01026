import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ADVICE_WORDS, type Procedure, type ProcedureCheck } from '../procedures/procedure.ts';
import type { ProblemText } from '../problems/problem.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import {
  linesOf,
  moved,
  settingNumbers,
  withAdvice,
  withCheck,
  without,
  withSetting,
} from './procedure-edit.ts';
import { readNumber } from './read-number.ts';
import './problem-note.ts';
import './shape-icon.ts';
import { fieldStyles } from './sheet-field-styles.ts';

type ListField = 'preparations' | 'howTo';

/**
 * `m-procedure-form`: a copy of a procedure to be changed: words, lists (one item a line), settings, order. Says `procedure-changed` with the
 * whole at each change and `procedure-saved` when the person is done; what is wrong with it comes back as `problems`.
 */
@customElement('m-procedure-form')
export class ProcedureForm extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    fieldStyles,
    css`
      .whole,
      details > div,
      .advice {
        display: grid;
        gap: var(--m-space-3);
      }
      details {
        border: var(--m-stroke-1) solid var(--m-line);
        border-radius: var(--m-radius-1);
        background: var(--m-surface);
      }
      summary {
        display: flex;
        gap: var(--m-space-3);
        align-items: center;
        min-height: var(--m-target);
        padding: var(--m-space-2) var(--m-space-4);
        cursor: pointer;
        font-weight: 600;
      }
      details > div {
        padding: 0 var(--m-space-4) var(--m-space-4);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
      }
      .numbers {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 12rem), 1fr));
      }
      textarea {
        resize: vertical;
      }
    `,
  ];

  @property({ attribute: false }) procedure: Procedure | null = null;
  @property({ attribute: false }) problems: readonly ProblemText[] = [];

  override render() {
    const { procedure } = this;
    if (!procedure) return nothing;
    return html`<div class="whole">
      ${this.#text('Title', procedure.title, (title) => this.#change({ ...procedure, title }))}
      ${this.#text('Revision, as you count it', procedure.revision, (revision) =>
        this.#change({ ...procedure, revision }),
      )}
      ${this.#text('Where it comes from', procedure.source, (source) =>
        this.#change({ ...procedure, source }),
      )}
      ${procedure.checks.map((check, place) => this.#check(procedure, check, place))}
      ${this.problems.map((each) => html`<m-problem tone="error" .problem=${each}></m-problem>`)}
      <div class="row">
        <button
          class="primary"
          aria-disabled=${this.problems.length > 0}
          @click=${() => this.problems.length === 0 && this.#say('procedure-saved', procedure)}
        >
          Keep this procedure
        </button>
        <button class="quiet" @click=${() => this.dispatchEvent(new CustomEvent('procedure-dropped'))}>
          Drop the changes
        </button>
      </div>
    </div>`;
  }

  #check(procedure: Procedure, check: ProcedureCheck, place: number) {
    const change = (next: (each: ProcedureCheck) => ProcedureCheck) =>
      this.#change(withCheck(procedure, check.id, next));
    return html`<details>
      <summary><span class="number">${place + 1}</span>${check.title}</summary>
      <div>
        <div class="row">
          <button ?disabled=${place === 0} @click=${() => this.#change(moved(procedure, check.id, -1))}>
            Earlier
          </button>
          <button
            ?disabled=${place === procedure.checks.length - 1}
            @click=${() => this.#change(moved(procedure, check.id, 1))}
          >
            Later
          </button>
          <button class="danger" @click=${() => this.#change(without(procedure, check.id))}>
            Take out of the procedure
          </button>
        </div>
        ${this.#text('Title', check.title, (title) => change((each) => ({ ...each, title })))}
        ${this.#area('Purpose', check.purpose, (purpose) => change((each) => ({ ...each, purpose })))}
        ${this.#cautions(check, change)}
        ${this.#list('Prepare, one step a line', check, 'preparations', change)}
        ${this.#list('Measure, one step a line', check, 'howTo', change)} ${this.#numbers(check, change)}
        ${ADVICE_WORDS.map((word) => this.#advice(check, word, change))}
      </div>
    </details>`;
  }

  #cautions(check: ProcedureCheck, change: Change) {
    const text = check.cautions.map((caution) => caution.text).join('\n');
    return this.#area('Cautions, one a line; each is ticked before the check', text, (typed) =>
      change((each) => ({
        ...each,
        cautions: linesOf(typed).map((line, place) => ({
          id: each.cautions.find((caution) => caution.text === line)?.id ?? `own-${place + 1}`,
          text: line,
        })),
      })),
    );
  }

  #list(label: string, check: ProcedureCheck, field: ListField, change: Change) {
    return this.#area(label, check[field].join('\n'), (typed) =>
      change((each) => ({ ...each, [field]: linesOf(typed) })),
    );
  }

  #numbers(check: ProcedureCheck, change: Change) {
    const rows = [
      ...settingNumbers(check.settings),
      { path: null, words: 'Runs that a finding needs', value: check.runsNeeded },
    ];
    return html`<div class="numbers">
      ${rows.map(({ path, words, value }) =>
        this.#text(words, String(value), (typed) => {
          const read = readNumber(typed, { min: null, max: null, unit: '' });
          if ('refusal' in read) return this.requestUpdate(); // what stood there stays
          change((each) =>
            path ? withSetting(each, path, read.value) : { ...each, runsNeeded: read.value },
          );
        }),
      )}
    </div>`;
  }

  #advice(check: ProcedureCheck, word: (typeof ADVICE_WORDS)[number], change: Change) {
    const { headline, next } = check.advice[word];
    return html`<fieldset class="advice">
      <legend>When it is ${word}</legend>
      ${this.#text('In one sentence', headline, (typed) =>
        change((each) => withAdvice(each, word, { headline: typed })),
      )}
      ${this.#area('What next, one step a line', next.join('\n'), (typed) =>
        change((each) => withAdvice(each, word, { next: linesOf(typed) })),
      )}
    </fieldset>`;
  }

  #text(label: string, value: string, take: (text: string) => void) {
    return html`<label class="field"
      ><span class="label">${label}</span>
      <input type="text" .value=${value} @change=${(event: Event) => take(typedIn(event))} />
    </label>`;
  }

  #area(label: string, value: string, take: (text: string) => void) {
    return html`<label class="field"
      ><span class="label">${label}</span>
      <textarea
        rows=${Math.min(8, value.split('\n').length + 1)}
        .value=${value}
        @change=${(event: Event) => take(typedIn(event))}
      ></textarea>
    </label>`;
  }

  #change(procedure: Procedure): void {
    this.procedure = procedure;
    this.#say('procedure-changed', procedure);
  }

  #say(name: 'procedure-changed' | 'procedure-saved', detail: Procedure): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

type Change = (next: (check: ProcedureCheck) => ProcedureCheck) => void;

const typedIn = (event: Event): string =>
  (event.target as HTMLInputElement | HTMLTextAreaElement).value.trim();

declare global {
  interface HTMLElementTagNameMap {
    'm-procedure-form': ProcedureForm;
  }
  interface HTMLElementEventMap {
    'procedure-changed': CustomEvent<Procedure>;
    'procedure-saved': CustomEvent<Procedure>;
    'procedure-dropped': CustomEvent<void>;
  }
}
