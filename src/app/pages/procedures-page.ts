import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { LOW_RAIL_PRESSURE } from '../../procedures/library.ts';
import { procedureMistakes } from '../../procedures/procedure-mistakes.ts';
import type { Procedure } from '../../procedures/procedure.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/procedure-form.ts';
import '../../ui/procedure-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';

/** `procedures-page`: the shipped procedure to be read, and the copies of it that were made and changed here. */
@customElement('procedures-page')
export class ProceduresPage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .lead {
        max-width: var(--m-measure);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @state() private kept: readonly Procedure[] = [LOW_RAIL_PRESSURE];
  @state() private chosen: Procedure = LOW_RAIL_PRESSURE;
  @state() private draft: Procedure | null = null;
  @state() private problems: readonly Problem[] = [];

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#load();
  }

  async #load(): Promise<void> {
    const listing = await this.services.procedures.list();
    if (listing.ok) this.kept = listing.value.items;
    this.problems = listing.ok ? listing.value.damaged.map(({ problem }) => problem) : [listing.problem];
  }

  override render() {
    const { draft, chosen } = this;
    return html`<div class="column">
      <div class="stack">
        <h1>Procedures</h1>
        <p class="lead quiet">
          The order of checks with what to prepare, the cautions and the advice. The shipped one cannot be
          changed; a copy can. A job keeps the procedure that it was begun with.
        </p>
      </div>
      ${this.problems.map(
        (each) => html`<m-problem tone="error" .problem=${describeProblem(each)}></m-problem>`,
      )}
      ${draft ? this.#edit(draft) : this.#read(chosen)}
    </div>`;
  }

  #read(chosen: Procedure) {
    return html`<div class="row">
        <label class="field"
          >Procedure
          <select @change=${this.#choose}>
            ${this.kept.map(
              ({ id, title, revision }) =>
                html`<option value=${id} ?selected=${id === chosen.id}>
                  ${title}, revision ${revision}
                </option>`,
            )}
          </select>
        </label>
        <button @click=${() => (this.draft = this.#copyOf(chosen))}>Make a copy to change</button>
        ${
          chosen.id === LOW_RAIL_PRESSURE.id
            ? nothing
            : html`<button class="danger" @click=${this.#remove}>Remove this copy</button>`
        }
      </div>
      <m-procedure-view .procedure=${chosen}></m-procedure-view>`;
  }

  #edit(draft: Procedure) {
    return html`<m-procedure-form
      .procedure=${draft}
      .problems=${procedureMistakes(draft).map(describeProblem)}
      @procedure-changed=${(event: HTMLElementEventMap['procedure-changed']) => (this.draft = event.detail)}
      @procedure-saved=${this.#keep}
      @procedure-dropped=${() => (this.draft = null)}
    ></m-procedure-form>`;
  }

  readonly #choose = (event: Event) => {
    const { value } = event.target as HTMLSelectElement;
    this.chosen = this.kept.find(({ id }) => id === value) ?? LOW_RAIL_PRESSURE;
  };

  #copyOf(procedure: Procedure): Procedure {
    const title = procedure.id === LOW_RAIL_PRESSURE.id ? `${procedure.title}, own copy` : procedure.title;
    return { ...procedure, id: this.services.newId(), title, revision: `${procedure.revision}.1` };
  }

  readonly #keep = async (event: HTMLElementEventMap['procedure-saved']) => {
    const kept = await this.services.procedures.put(event.detail);
    if (!kept.ok) return void (this.problems = [kept.problem]);
    this.draft = null;
    await this.#load();
    this.chosen = event.detail;
  };

  readonly #remove = async () => {
    const removed = await this.services.procedures.remove(this.chosen.id);
    if (!removed.ok) return void (this.problems = [removed.problem]);
    this.chosen = LOW_RAIL_PRESSURE;
    await this.#load();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'procedures-page': ProceduresPage;
  }
}
