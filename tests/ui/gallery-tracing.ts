import { html, type TemplateResult } from 'lit';
import '../../src/ui/trace-chart.ts';
import '../../src/ui/vessel-photo.ts';
import { askew, CHART, drawChart, photograph, shadeAndNoise } from '../tracing/draw-chart.ts';
import { drawVessel } from './draw-vessel.ts';

/** A chart as it comes to the shop: photographed askew, with shade and noise. */
function chartPhoto() {
  const [width, height] = [1200, 900];
  const flat = drawChart({ ...CHART, width, height });
  return shadeAndNoise(photograph(flat, askew(width, height, 0.12)), 0.25, 4, 9);
}

/** The parts of the gallery that read pictures: `trace` and `photo`. */
export const TRACING_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  trace: () => html`<m-chart-trace .picture=${chartPhoto()}></m-chart-trace>`,
  photo: () => html`<m-vessel-photo .picture=${drawVessel(317)}></m-vessel-photo>`,
};
