import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { WorkKind } from '../../jobs/job-entry.ts';
import { WORK_KINDS } from '../../jobs/job-entry.ts';
import type { JobWork } from '../../jobs/job-values.ts';
import { causeOf } from '../../procedures/library.ts';
import { STATION_IDS, STATIONS, type StationId } from '../../procedures/station.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/shape-icon.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import '../../ui/before-after.ts';
import { changeRows } from '../job-changes.ts';
import { dayAndTime } from '../job-rows.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';

/** `job-work`: parts replaced and work done, priming after it, and what it changed. Event: `job-entry`. */
@customElement('job-work')
export class JobWorkPart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      form {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 15rem), 1fr));
        align-items: end;
      }
      .wide {
        grid-column: 1 / -1;
      }
    `,
  ];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  @state() private adding = false;
  @state() private refusal = '';

  override render() {
    const { values } = this.view;
    const signed = values.state === 'signed';
    return html`<section class="stack" aria-labelledby="work">
      <h2 id="work">Parts and work</h2>
      <div class="card">
        ${
          values.works.length === 0
            ? html`<p class="quiet">
                Nothing was replaced yet. Note each part and each piece of work: what was measured before and
                after stands side by side, and the checks that it touches are asked for again.
              </p>`
            : values.works.map((work) => this.#work(work, signed))
        }
        ${
          signed || this.adding
            ? nothing
            : html`<div class="row">
                <button @click=${() => (this.adding = true)}>
                  <m-icon shape="plus"></m-icon> Note a part or work
                </button>
              </div>`
        }
        ${this.adding ? this.#form() : nothing} ${this.#changes()}
      </div>
    </section>`;
  }

  #work(work: JobWork, signed: boolean) {
    const cause = work.cause === null ? null : causeOf(this.view.job.procedure, work.cause);
    const prime = html`<p><strong>Prime before anything is run again.</strong></p>
      <ol class="plain stack">
        ${this.view.job.procedure.priming.map((step) => html`<li>${step}</li>`)}
      </ol>`;
    return html`<div class="stack">
      <p>
        <strong>${STATIONS[work.station].name}: ${work.what}</strong>, ${work.part}
        <span class="quiet"
          >·
          ${dayAndTime(work.atIso)}${cause ? html` · against: ${cause.text}` : nothing}${
            work.note ? html` · ${work.note}` : nothing
          }</span
        >
      </p>
      ${
        work.primedAtIso !== null
          ? html`<p class="quiet"><m-icon shape="pass"></m-icon> Primed ${dayAndTime(work.primedAtIso)}</p>`
          : signed
            ? html`<p class="quiet">Priming was not noted.</p>`
            : html`${prime}
                <div class="row">
                  <button
                    @click=${() => this.dispatchEvent(jobEntry({ kind: 'primed', workId: work.workId }))}
                  >
                    Primed
                  </button>
                </div>`
      }
    </div>`;
  }

  #form() {
    const [top] = this.view.next.causes;
    const likely = top ? causeOf(this.view.job.procedure, top.causeId) : null;
    return html`<form @submit=${this.#submit}>
      <label class="field"
        ><span class="label">Station</span>
        <select name="station">
          ${STATION_IDS.map(
            (id) =>
              html`<option value=${id} ?selected=${id === likely?.station}>${STATIONS[id].name}</option>`,
          )}
        </select>
      </label>
      <label class="field"
        ><span class="label">What was done</span>
        <select name="what">
          ${WORK_KINDS.map((what) => html`<option value=${what}>${what}</option>`)}
        </select>
      </label>
      <label class="field"
        ><span class="label">Part</span>
        <input name="part" type="text" maxlength="200" aria-invalid=${this.refusal !== ''} />
        ${this.refusal ? html`<span class="mistake">${this.refusal}</span>` : nothing}
      </label>
      <label class="field"
        ><span class="label">Against which cause</span>
        <select name="cause">
          <option value="">not named</option>
          ${this.view.job.procedure.causes.map(
            ({ id, text }) => html`<option value=${id} ?selected=${id === likely?.id}>${text}</option>`,
          )}
        </select>
      </label>
      <label class="field wide"
        ><span class="label">Note</span>
        <input name="note" type="text" maxlength="500" />
      </label>
      <div class="row wide">
        <button class="primary">Keep</button>
        <button type="button" class="quiet" @click=${() => (this.adding = false)}>Not now</button>
      </div>
    </form>`;
  }

  readonly #submit = (event: SubmitEvent) => {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const text = (name: string) => String(data.get(name) ?? '').trim();
    const part = text('part');
    if (part === '') return void (this.refusal = 'Name the part, or what was worked on.');
    this.refusal = '';
    this.adding = false;
    this.dispatchEvent(
      jobEntry({
        kind: 'work',
        workId: this.services.newId(),
        station: text('station') as StationId,
        what: text('what') as WorkKind,
        part,
        cause: text('cause') || null,
        note: text('note'),
      }),
    );
  };

  #changes() {
    const rows = changeRows(this.view);
    if (rows.length === 0) return nothing;
    return html`<m-before-after .rows=${rows}></m-before-after>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'job-work': JobWorkPart;
  }
}
