import { html, type TemplateResult } from 'lit';
import '../../src/ui/check-order.ts';
import { CHECK_ROWS } from './job-samples.ts';

/** The parts of the gallery that show a job. */
export const JOB_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  checkorder: () =>
    html`<m-check-order .checks=${CHECK_ROWS} next-id="pump-return"></m-check-order>
      <m-check-order .checks=${CHECK_ROWS.slice(2, 4)} fixed></m-check-order>
      <m-check-order></m-check-order>`,
};
