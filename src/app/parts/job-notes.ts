import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/shape-icon.ts';
import { fieldStyles } from '../../ui/sheet-field-styles.ts';
import { EMPTY_DRAFT, type JobDraft } from '../job-drafts.ts';
import { dayAndTime } from '../job-rows.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';
import './photo-strip.ts';
import './photo-take.ts';

/**
 * `job-notes`: what was seen, in words and photographs, oldest first. A note that is being written is kept as a draft, its photographs at once.
 * Event: `job-entry`.
 */
@customElement('job-notes')
export class JobNotesPart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    fieldStyles,
    css`
      .words {
        white-space: pre-line;
        overflow-wrap: anywhere;
      }
      li + li {
        padding-top: var(--m-space-3);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      textarea {
        resize: vertical;
      }
    `,
  ];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  /** Null while it is being read: a form that is filled later would lose what was typed into it. */
  @state() private _draft: JobDraft['note'] | null = null;
  @state() private _taking = false;
  @state() private _missing = false;
  @state() private _problem: Problem | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('view')) return;
    const before = changed.get('view');
    const { job, values } = this.view;
    if (before?.job.id !== job.id) return void this.#read(job.id);
    // Only now it is kept: what could not be kept must stay where it was typed.
    const isNew = values.notes.length > before.values.notes.length;
    if (isNew && values.notes.at(-1)?.text === this._draft?.text.trim()) this.#change(EMPTY_DRAFT.note);
  }

  async #read(jobId: string): Promise<void> {
    this._draft = null;
    const draft = await this.services.drafts.read(jobId);
    if (jobId === this.view.job.id) this._draft = draft.note;
  }

  #change(note: JobDraft['note']): void {
    this._draft = note;
    void this.services.drafts.change(this.view.job.id, { note });
  }

  override render() {
    const { notes, state } = this.view.values;
    return html`<section class="stack" aria-labelledby="notes">
      <h2 id="notes">Notes and photographs</h2>
      <div class="card">
        ${
          notes.length === 0
            ? html`<p class="quiet">
                No note yet. What you saw, heard or were told: a leak, a bent line, a plate worth a
                photograph.
              </p>`
            : html`<ol class="plain stack">
                ${notes.map(
                  ({ text, photoIds, atIso }) =>
                    html`<li class="stack">
                      <p class="quiet">${dayAndTime(atIso)}</p>
                      <p class="words">${text}</p>
                      ${this.#photos(photoIds)}
                    </li>`,
                )}
              </ol>`
        }
        ${state === 'signed' || !this._draft ? nothing : this.#form(this._draft)}
      </div>
    </section>`;
  }

  #photos(ids: readonly string[]) {
    if (ids.length === 0) return nothing;
    return html`<photo-strip
      .photos=${this.services.photos}
      .ids=${ids}
      label="Photograph of the note"
    ></photo-strip>`;
  }

  #form({ text, photoIds }: JobDraft['note']) {
    const { _problem: problem } = this;
    return html`<div class="stack">
      <div class="field">
        <label class="label" for="text">Note</label>
        <textarea
          id="text"
          rows="3"
          maxlength="4000"
          aria-invalid=${this._missing}
          aria-describedby="missing"
          .value=${text}
          @input=${(event: Event) => this.#change({ photoIds, text: (event.target as HTMLTextAreaElement).value })}
        ></textarea>
        <div id="missing">
          ${
            this._missing
              ? html`<p class="mistake">
                  <m-icon shape="fail"></m-icon
                  ><span>Write what there is to see; a few words are enough.</span>
                </p>`
              : nothing
          }
        </div>
      </div>
      ${this.#photos(photoIds)}
      ${problem ? html`<m-problem tone="error" .problem=${describeProblem(problem)}></m-problem>` : nothing}
      ${
        this._taking
          ? html`<photo-take
              .means=${this.services}
              advice="Near enough that it can be told what it is."
              @photo-taken=${this.#taken}
            ></photo-take>`
          : nothing
      }
      <div class="row">
        <button @click=${() => this.#keep()}>Keep the note</button>
        <button aria-expanded=${this._taking} @click=${() => (this._taking = !this._taking)}>
          ${this._taking ? 'No photograph' : 'Add a photograph'}
        </button>
        ${
          photoIds.length > 0
            ? html`<button
                class="quiet"
                @click=${() => this.#change({ text, photoIds: photoIds.slice(0, -1) })}
              >
                Take the last photograph off
              </button>`
            : nothing
        }
      </div>
    </div>`;
  }

  readonly #taken = async ({ detail: photo }: HTMLElementEventMap['photo-taken']) => {
    const kept = await this.services.photos.put(photo);
    this._problem = kept.ok ? null : kept.problem;
    if (!kept.ok || !this._draft) return;
    this._taking = false;
    this.#change({ ...this._draft, photoIds: [...this._draft.photoIds, photo.id] });
  };

  #keep(): void {
    const { text, photoIds } = this._draft ?? EMPTY_DRAFT.note;
    this._missing = text.trim() === '';
    if (this._missing) return this.renderRoot.querySelector<HTMLElement>('#text')?.focus();
    this.dispatchEvent(jobEntry({ kind: 'note', text: text.trim(), photoIds: [...photoIds] }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'job-notes': JobNotesPart;
  }
}
