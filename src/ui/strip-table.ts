import { html, type TemplateResult } from 'lit';
import { sliceTable, type StripColumns, type StripSeries } from './strip-chart-summary.ts';

const TABLE_ROWS = 30;

const cell = (value: number | null | undefined, digits: number) =>
  value === null || value === undefined ? '–' : value.toFixed(digits);

/** The stretch of a strip chart that is in view, as a table of least and most: what the canvas cannot say aloud. */
export function stripTable(
  chart: { readonly columns: StripColumns; readonly series: readonly StripSeries[]; readonly label: string },
  range: { min: number; max: number },
): TemplateResult {
  const rows = sliceTable(chart.columns, range, TABLE_ROWS);
  return html`<div class="table" tabindex="0" role="region" aria-label="${chart.label} as a table">
    <table>
      <caption>
        Least and most in each stretch
      </caption>
      <thead>
        <tr>
          <th scope="col">from, s</th>
          ${chart.series.map((one) => html`<th scope="col">${one.label}, ${one.unit}</th>`)}
        </tr>
      </thead>
      <tbody class="number">
        ${rows.map(
          (row) =>
            html`<tr>
              <th scope="row">${row.fromSeconds.toFixed(2)}</th>
              ${chart.series.map(({ digits }, index) => {
                const extent = row.extents[index];
                return html`<td>${cell(extent?.min, digits)} … ${cell(extent?.max, digits)}</td>`;
              })}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}
