import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/before-after.ts';
import '../../ui/work-list.ts';
import { changeRows } from '../job-changes.ts';
import { workCauses, workItems } from '../job-work-items.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';

/** `job-work`: parts replaced and work done, priming after it, and what it changed. Event: `job-entry`. */
@customElement('job-work')
export class JobWorkPart extends LitElement {
  static override styles = [baseStyles, pageStyles];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;

  /** Opens the form for a part or work, with the focus in it. */
  async begin(): Promise<void> {
    await this.renderRoot.querySelector('m-work-list')?.begin();
  }

  override render() {
    const { job, values } = this.view;
    const causes = workCauses(this.view);
    const rows = changeRows(this.view);
    const suspected = this.view.next.causes[0]?.causeId;
    return html`<section class="stack" aria-labelledby="work">
      <h2 id="work">Parts and work</h2>
      <m-work-list
        .items=${workItems(this.view)}
        .priming=${job.procedure.priming}
        .causes=${causes}
        station=${causes.find(({ id }) => id === suspected)?.station ?? ''}
        ?fixed=${values.state === 'signed'}
        @work-added=${this.#added}
        @work-primed=${({ detail: { workId } }: HTMLElementEventMap['work-primed']) =>
          this.dispatchEvent(jobEntry({ kind: 'primed', workId }))}
        @work-withdrawn=${({ detail: { workId, reason } }: HTMLElementEventMap['work-withdrawn']) =>
          this.dispatchEvent(jobEntry({ kind: 'work-withdrawn', workId, reason }))}
      ></m-work-list>
      ${rows.length === 0 ? nothing : html`<m-before-after .rows=${rows}></m-before-after>`}
    </section>`;
  }

  readonly #added = ({ detail }: HTMLElementEventMap['work-added']) =>
    this.dispatchEvent(jobEntry({ kind: 'work', workId: this.services.newId(), ...detail }));
}

declare global {
  interface HTMLElementTagNameMap {
    'job-work': JobWorkPart;
  }
}
