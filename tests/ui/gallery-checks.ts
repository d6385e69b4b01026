import { html, type TemplateResult } from 'lit';
import '../../src/ui/stopwatch.ts';
import { HELD, stopwatch } from './check-samples.ts';

/** The parts of the gallery that show the checks other than crank delivery. */
export const CHECK_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  stopwatch: () =>
    html`<div class="two">
      <m-stopwatch .view=${stopwatch({ held: HELD })}></m-stopwatch>
      <m-stopwatch
        .view=${stopwatch({
          phase: 'running',
          elapsedSeconds: 23.4,
          held: { ...HELD, value: '52.0', state: 'below', share: 0.62 },
        })}
      ></m-stopwatch>
      <m-stopwatch .view=${stopwatch({ phase: 'running', elapsedSeconds: 57.2, held: HELD })}></m-stopwatch>
      <m-stopwatch .view=${stopwatch({ phase: 'running', elapsedSeconds: 60.1 })}></m-stopwatch>
      <m-stopwatch .view=${stopwatch({ phase: 'running', elapsedSeconds: 64.8 })}></m-stopwatch>
      <m-stopwatch .view=${stopwatch({ phase: 'stopped', elapsedSeconds: 60.3, held: HELD })}></m-stopwatch>
      <m-stopwatch .view=${stopwatch({ phase: 'stopped', elapsedSeconds: 48.7 })}></m-stopwatch>
      <m-stopwatch
        .view=${stopwatch({
          startedBy: 'signal',
          waitsFor: 'Starts when rail pressure rises through 60 MPa, stops when it falls through it.',
          held: { ...HELD, state: 'none', share: null },
        })}
      ></m-stopwatch>
    </div>`,
};
