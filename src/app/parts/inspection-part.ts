import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { InspectedPoint } from '../../checks/inspection.ts';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { runValues } from '../../jobs/run-entries.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import { pointSlot, type InspectionPoint, type Observed } from '../../ui/inspection.ts';
import '../../ui/problem-note.ts';
import '../../ui/progress-note.ts';
import { openPhotoDesk, type PhotoDesk } from '../photo-desk.ts';
import type { RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';
import './photo-strip.ts';
import './training-sight.ts';

/**
 * `inspection-part`: the points of an inspection, each looked at and told, with a note and photographs. Each answer is kept at once; a
 * photograph is kept in the store first and then named in the run.
 */
@customElement('inspection-part')
export class InspectionPart extends LitElement {
  static override styles = [baseStyles];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) checked!: JudgedCheck;
  @property({ attribute: false }) services!: Services;
  /** How many photographs are being made ready, by point. */
  @state() private _making: ReadonlyMap<string, number> = new Map();
  /** Why the last photograph of a point was not kept. */
  @state() private _problems: ReadonlyMap<string, Problem> = new Map();
  #photos: PhotoDesk | null = null;
  readonly #keeping = new Set<Promise<void>>();

  /** A photograph that is on its way is still kept: the screen goes on to the verdict with the last answer. */
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    const photos = this.#photos;
    this.#photos = null;
    void Promise.allSettled(this.#keeping).then(() => photos?.close());
  }

  override render() {
    const { measurement } = this.checked;
    if (measurement.kind !== 'inspection') return nothing;
    const { points } = measurement.inspection;
    return html`<m-inspection
      .points=${points.map((each) => this.#said(each))}
      @observed=${(event: HTMLElementEventMap['observed']) => this.#observe(event.detail)}
      @photo-added=${this.#photoAdded}
      >${points.map((each) => this.#beside(each))}</m-inspection
    >`;
  }

  #said({ point: { id, ask, look }, note }: InspectedPoint): InspectionPoint {
    const said = this.#kept(id);
    // A photograph that was taken before anything was said says nothing yet.
    const pictured = said?.seen === 'not looked at' && said.note === '' && said.photoIds.length > 0;
    return { id, ask, look, note, seen: pictured ? null : (said?.seen ?? null) };
  }

  #beside({ point: { id, ask }, photoIds }: InspectedPoint) {
    const trouble = this._problems.get(id);
    return html`<div slot=${pointSlot(id)}>
      <training-sight .services=${this.services} .run=${this.desk.run} point=${id}></training-sight>
      ${trouble ? html`<m-problem tone="error" .problem=${describeProblem(trouble)}></m-problem>` : nothing}
      ${this._making.has(id) ? html`<m-progress label="Keeping the photograph"></m-progress>` : nothing}
      <photo-strip .photos=${this.services.photos} .ids=${photoIds} label="Photograph: ${ask}"></photo-strip>
    </div>`;
  }

  /** What was said last of a point; of the run as it is now, not as it was when the page was drawn. */
  #kept(point: string) {
    const { vessel, entries } = this.desk.run;
    return runValues(vessel, entries).observations.get(point) ?? null;
  }

  #observe({ point, seen, note }: Observed, added: readonly string[] = []): void {
    const photoIds = [...(this.#kept(point)?.photoIds ?? []), ...added];
    const at = { atIso: this.desk.nowIso(), reason: '' };
    this.desk.enter({ ...at, kind: 'observation', point, seen, note, photoIds });
  }

  readonly #photoAdded = ({ detail: { point, file } }: HTMLElementEventMap['photo-added']) => {
    const work = this.#keep(point, file).finally(() => this.#keeping.delete(work));
    this.#keeping.add(work);
  };

  async #keep(point: string, file: File): Promise<void> {
    this.#count(point, 1);
    this.#tell(point, null);
    this.#photos ??= openPhotoDesk(this.services);
    const made = await this.#photos.takePhoto(file);
    const kept = made.ok ? await this.services.photos.put(made.value) : made;
    this.#count(point, -1);
    if (!kept.ok) return this.#tell(point, kept.problem);
    const said = this.#kept(point);
    this.#observe({ point, seen: said?.seen ?? 'not looked at', note: said?.note ?? '' }, [kept.value.id]);
  }

  #count(point: string, by: number): void {
    const making = (this._making.get(point) ?? 0) + by;
    const others = [...this._making].filter(([each]) => each !== point);
    this._making = new Map(making > 0 ? [...others, [point, making]] : others);
  }

  #tell(point: string, problem: Problem | null): void {
    const others = [...this._problems].filter(([each]) => each !== point);
    this._problems = new Map(problem ? [...others, [point, problem]] : others);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'inspection-part': InspectionPart;
  }
}
