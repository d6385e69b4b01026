import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { readResults, writeResults } from '../../training/result-exchange.ts';
import { resultsCsv } from '../../training/results-csv.ts';
import type { TrainingResult } from '../../training/training-result.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import { tableStyles } from '../../ui/table-styles.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { saveText } from '../training-file.ts';
import { MATCH_WORDS, spanWords } from '../training-words.ts';

/** `training-class`: the results of all trainees in one table, out as CSV or JSON, in from other machines. Event: `results-changed`. */
@customElement('training-class')
export class TrainingClass extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    tableStyles,
    css`
      .scroll {
        overflow-x: auto;
      }
      th,
      td {
        text-align: left;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) results: readonly TrainingResult[] = [];
  @state() private problem: Problem | null = null;
  @state() private said = '';
  @query('input') private input!: HTMLInputElement;

  override render() {
    return html`<section class="stack" aria-labelledby="class">
      <h2 id="class">Results of the class</h2>
      <div class="row">
        ${
          this.results.length === 0
            ? nothing
            : html`<button @click=${() => this.#save('csv')}>Save as CSV</button>
                <button @click=${() => this.#save('json')}>Save as JSON</button>`
        }
        <button @click=${() => this.input.click()}>Add results of another machine</button>
        <input
          type="file"
          hidden
          aria-label="Results file"
          accept=".json,application/json"
          @change=${this.#picked}
        />
      </div>
      <p role="status">${this.said}</p>
      ${this.problem ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>` : nothing}
      ${this.results.length === 0 ? html`<p class="quiet">A row comes here with each case that ends.</p>` : this.#table()}
    </section>`;
  }

  #table() {
    return html`<div class="scroll card" tabindex="0" role="region" aria-label="Results">
      <table>
        <thead>
          <tr>
            ${[
              'Trainee',
              'Case',
              'Ended',
              'Cause',
              'Decision',
              'Time',
              'Shortest',
              'Part points',
              'Shortest',
            ].map((name) => html`<th scope="col">${name}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${this.results.map(
            (each) =>
              html`<tr>
                <th scope="row">${each.trainee || 'no name'}</th>
                <td>${each.setTitle}, ${each.seed}</td>
                <td>${each.ended}</td>
                <td>${MATCH_WORDS[each.cause].words}</td>
                <td>${MATCH_WORDS[each.decision].words}</td>
                <td class="number">${spanWords(each.minutes)}</td>
                <td class="number">${spanWords(each.shortestMinutes)}</td>
                <td class="number">${each.partPoints}</td>
                <td class="number">${each.shortestPartPoints}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  #save(kind: 'csv' | 'json'): void {
    const name = `training-results-${this.services.nowIso().slice(0, 10)}.${kind}`;
    if (kind === 'csv') saveText(name, resultsCsv(this.results), 'text/csv');
    else saveText(name, writeResults(this.results), 'application/json');
  }

  readonly #picked = async () => {
    const file = this.input.files?.[0];
    this.input.value = '';
    if (file) await this.bring(await file.text());
  };

  /** Takes in the text of a results file. */
  async bring(text: string): Promise<void> {
    this.said = '';
    const read = readResults(text);
    const merged = read.ok ? await this.services.training.bring(read.value) : read;
    this.problem = merged.ok ? null : merged.problem;
    if (!merged.ok) return;
    const { added, same } = merged.value;
    this.said = `${added.length} added, ${same} were here already.`;
    this.dispatchEvent(new CustomEvent('results-changed', { bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'training-class': TrainingClass;
  }
  interface HTMLElementEventMap {
    'results-changed': CustomEvent<void>;
  }
}
