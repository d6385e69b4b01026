import { html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { JOB_FIELDS } from '../../jobs/job-entry.ts';
import { describeCode } from '../../j1939/trouble-code-words.ts';
import { vinCheckDigit } from '../../j1939/vin-check-digit.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/job-form.ts';
import type { JobFieldView } from '../../ui/job-form.ts';
import type { JobFieldName } from '../../ui/job-fields.ts';
import '../../ui/typed-codes.ts';
import type { HeardCode } from '../../ui/typed-codes.ts';
import type { JobView } from '../job-view.ts';
import { pageStyles } from '../page-styles.ts';
import { fieldMistakes } from '../job-field-mistakes.ts';
import type { Services } from '../services.ts';
import { jobEntry } from './job-entry-event.ts';

/** `job-identity`: who is there, what the customer says, the trouble codes. Each field is kept as it is left. Event: `job-entry`. */
@customElement('job-identity')
export class JobIdentity extends LitElement {
  static override styles = [baseStyles, pageStyles];

  @property({ attribute: false }) view!: JobView;
  @property({ attribute: false }) services!: Services;

  override render() {
    const { values } = this.view;
    const signed = values.state === 'signed';
    return html`<div class="stack">
      <h2>Vehicle, engine and complaint</h2>
      <m-job-form
        .fields=${fieldViews(this.view)}
        .problems=${signed ? [] : fieldMistakes(this.view.job, this.services.nowIso())}
        ?fixed=${signed}
        @field-changed=${this.#fieldChanged}
      ></m-job-form>
      <m-typed-codes
        .codes=${values.typedCodes}
        .heard=${heardCodes(this.view)}
        .describe=${codeWords}
        ?fixed=${signed}
        @codes-changed=${this.#codesChanged}
      ></m-typed-codes>
    </div>`;
  }

  readonly #fieldChanged = ({ detail: { field, value, from } }: HTMLElementEventMap['field-changed']) => {
    if (value === (this.view.values.fields.get(field)?.value ?? '')) return;
    // What is typed stands against the bus: to take what the bus says is to take back what was typed.
    const entry = from === 'bus' ? { value: '', from: 'typed' as const } : { value, from };
    this.dispatchEvent(jobEntry({ kind: 'field', field, ...entry }));
  };

  readonly #codesChanged = ({ detail: { codes } }: HTMLElementEventMap['codes-changed']) =>
    this.dispatchEvent(jobEntry({ kind: 'typed-codes', codes: [...codes] }));
}

/** The fields as the form shows them: what holds, who said it, and what the bus says besides. */
function fieldViews({ values }: JobView): Partial<Record<JobFieldName, JobFieldView>> {
  const views = JOB_FIELDS.map((field) => {
    const held = values.fields.get(field);
    const heard = values.heardFields.get(field)?.value ?? '';
    const value = held?.value ?? '';
    return [
      field,
      { value, from: held?.from ?? null, proposal: heard === value ? '' : heard, ...noteOn(field, value) },
    ] as const;
  });
  return Object.fromEntries(views);
}

function noteOn(field: JobFieldName, value: string): Pick<JobFieldView, 'note' | 'noteTone'> {
  const fits = field === 'vin' && vinCheckDigit(value.toUpperCase()) === 'fits';
  return { note: fits ? 'The check digit fits.' : '', noteTone: 'good' };
}

const codeWords = (spn: number, fmi: number): string => {
  const { what, how } = describeCode({ spn, fmi, occurrences: null, otherSpns: [] });
  return [what, how].filter(Boolean).join(': ');
};

function heardCodes({ values: { busCodes } }: JobView): readonly HeardCode[] {
  const of = (state: HeardCode['state'], reports: NonNullable<typeof busCodes>['active']) =>
    reports.flatMap(({ codes }) =>
      codes.map(({ spn, fmi }) => ({ spn, fmi, words: codeWords(spn, fmi), state })),
    );
  return busCodes ? [...of('active', busCodes.active), ...of('previous', busCodes.previous)] : [];
}

declare global {
  interface HTMLElementTagNameMap {
    'job-identity': JobIdentity;
  }
}
