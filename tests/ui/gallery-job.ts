import { html, type TemplateResult } from 'lit';
import '../../src/ui/before-after.ts';
import '../../src/ui/check-order.ts';
import '../../src/ui/work-list.ts';
import '../../src/ui/conclusion.ts';
import '../../src/ui/fuel-path.ts';
import '../../src/ui/job-list.ts';
import '../../src/ui/job-sheet.ts';
import '../../src/ui/job-form.ts';
import '../../src/ui/typed-codes.ts';
import '../../src/ui/what-next.ts';
import { BEFORE_AFTER, CAUSES, SHEET_VIEW, WORKS } from './job-page-samples.ts';
import { CHECK_ROWS, CONCLUSION, FIELDS, HEARD, JOBS, NEXT, PATH, SUGGESTION, TYPED } from './job-samples.ts';

/** The parts of the gallery that show a job. */
export const JOB_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  checkorder: () =>
    html`<m-check-order .checks=${CHECK_ROWS} next-id="pump-return"></m-check-order>
      <m-check-order .checks=${CHECK_ROWS.slice(2, 4)} fixed></m-check-order>
      <m-check-order></m-check-order>`,
  fuelpath: () =>
    html`<m-fuel-path
        .stations=${PATH}
        selected="high-pressure pump"
        words="Cleared from the tank to the separator, and the injectors. The loss must lie between the supply pump and the rail."
      ></m-fuel-path>
      <m-fuel-path></m-fuel-path>`,
  whatnext: () =>
    html`<m-what-next
        .next=${NEXT}
        defers-to="The engine maker’s current procedure for this serial number stands above this advice."
      ></m-what-next>
      <m-what-next
        .next=${{ ...NEXT, step: 'conclude', sentence: 'Conclude the job.', why: '', action: 'Conclude', causes: [] }}
      ></m-what-next>`,
  jobform: () =>
    html`<m-job-form
        .fields=${FIELDS}
        .problems=${[{ field: 'unitNumber', words: 'Another job of this unit is open.' }]}
      ></m-job-form>
      <m-typed-codes
        .codes=${TYPED}
        .heard=${HEARD}
        .describe=${() => 'Rail pressure: too low'}
      ></m-typed-codes>
      <m-typed-codes></m-typed-codes> <m-job-form fixed .fields=${FIELDS}></m-job-form>
      <m-typed-codes fixed .codes=${TYPED}></m-typed-codes>`,
  conclusion: () =>
    html`<m-conclusion
        .suggestion=${SUGGESTION}
        .draft=${{ ...CONCLUSION, decision: 'run on and watch' }}
        .caveats=${['Marginal: it may hold under light load. Whether it holds at full load was not measured.']}
      ></m-conclusion>
      <m-conclusion state="concluded" .draft=${CONCLUSION} technician="A. Reader"></m-conclusion>
      <m-conclusion
        state="signed"
        .draft=${CONCLUSION}
        .signature=${{ by: 'A. Reader', time: '2026-11-25 12:04', revision: 2 }}
      ></m-conclusion>`,
  joblist: () =>
    html`<m-job-list .jobs=${JOBS} total="4"></m-job-list> <m-job-list></m-job-list>
      <m-job-list .jobs=${[]} total="4" search="Q9"></m-job-list> <m-job-list state="loading"></m-job-list>
      <m-job-list
        state="error"
        .problem=${{ message: 'The jobs cannot be read: the browser closed its storage.', remedy: 'Load the page again.' }}
        .damaged=${[
          {
            name: 'job 7c1f',
            problem: { message: 'The document is damaged.', remedy: 'Import its job file again.' },
          },
        ]}
      ></m-job-list>`,
  worklist: () =>
    html`<m-work-list
        .items=${WORKS}
        .priming=${['Fill the filter.', 'Work the hand pump until it is hard.']}
        .causes=${CAUSES}
      ></m-work-list>
      <m-work-list></m-work-list>
      <m-work-form station="high-pressure pump" .causes=${CAUSES}></m-work-form>`,
  beforeafter: () =>
    html`<m-before-after .rows=${BEFORE_AFTER}></m-before-after> <m-before-after></m-before-after>`,
  jobsheet: () => html`<m-job-sheet .view=${SHEET_VIEW}></m-job-sheet>`,
};
