import { html, LitElement, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/conclusion.ts';
import { earlierConclusions, marginalCaveat, suggestionView } from '../job-conclusion-view.ts';
import { EMPTY_DRAFT, type JobDraft } from '../job-drafts.ts';
import { dayAndTime } from '../job-rows.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';

/**
 * `job-conclusion`: what the evidence suggests, the technician's own conclusion, the signature, and opening again. What is typed is kept as a
 * draft until it is concluded. Event: `job-entry`.
 */
@customElement('job-conclusion')
export class JobConclusionPart extends LitElement {
  static override styles = [baseStyles, pageStyles];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;
  /** Null while it is being read: a form that is filled later would lose what was typed into it. */
  @state() private _draft: JobDraft | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('view');
    if (changed.has('view') && before?.job.id !== this.view.job.id) void this.#read(this.view.job.id);
    // Only now it is kept: what could not be kept must stay where it was typed.
    const kept = this.view.values.conclusion?.words;
    const isNew = kept !== undefined && before?.values.conclusion === null;
    if (isNew && kept === this._draft?.conclusion.words.trim()) this.#change(EMPTY_DRAFT.conclusion);
  }

  async #read(jobId: string): Promise<void> {
    this._draft = null;
    const draft = await this.services.drafts.read(jobId);
    if (jobId === this.view.job.id) this._draft = draft;
  }

  /** The focus in what comes next: the first decision, or the signature. */
  begin(): void {
    this.renderRoot.querySelector('m-conclusion')?.focusFirst();
  }

  override render() {
    const { view, _draft: draft } = this;
    if (!draft) return html``;
    const { state, signed, revision, conclusionOutdated, fields } = view.values;
    return html`<div class="stack">
      <h2>Conclusion</h2>
      <m-conclusion
        state=${state}
        .suggestion=${state === 'signed' ? null : suggestionView(view)}
        .caveats=${marginalCaveat(view)}
        .draft=${view.values.conclusion ?? draft.conclusion}
        .signature=${signed && { by: signed.by, time: dayAndTime(signed.atIso), revision }}
        .earlier=${earlierConclusions(view)}
        ?outdated=${conclusionOutdated && state === 'concluded'}
        technician=${fields.get('technician')?.value ?? ''}
        @conclusion-typed=${this.#typed}
        @concluded=${this.#concluded}
        @signed=${({ detail: { by } }: HTMLElementEventMap['signed']) =>
          this.dispatchEvent(jobEntry({ kind: 'signed', by }))}
        @reopened=${this.#reopened}
      ></m-conclusion>
    </div>`;
  }

  #change(conclusion: JobDraft['conclusion']): void {
    if (!this._draft) return;
    this._draft = { ...this._draft, conclusion };
    void this.services.drafts.change(this.view.job.id, { conclusion });
  }

  readonly #typed = ({ detail }: HTMLElementEventMap['conclusion-typed']) => this.#change({ ...detail });

  readonly #concluded = ({ detail }: HTMLElementEventMap['concluded']) => {
    const { decision, sentences } = this.view.suggested;
    const suggested = [decision, ...sentences].join(' ');
    this.dispatchEvent(jobEntry({ kind: 'conclusion', ...detail, suggested }));
  };

  /** The words of before are the beginning of the new ones; the decision is taken anew. */
  readonly #reopened = ({ detail: { reason } }: HTMLElementEventMap['reopened']) => {
    const before = this.view.values.conclusion;
    if (before && this._draft?.conclusion.words === '')
      this.#change({ decision: null, words: before.words, cause: before.cause, watchFor: before.watchFor });
    this.dispatchEvent(jobEntry({ kind: 'reopened', reason }));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'job-conclusion': JobConclusionPart;
  }
}
