import '../../src/ui/deviation.ts';
import '../../src/ui/pressure-curve.ts';
import { html, type TemplateResult } from 'lit';
import '../../src/ui/fact-list.ts';
import '../../src/ui/gauge-entry.ts';
import '../../src/ui/inspection.ts';
import '../../src/ui/steady-gauge.ts';
import '../../src/ui/stopwatch.ts';
import '../../src/ui/value-window.ts';
import { curve, deviation, FACTS, GAUGES, HELD, POINTS, SPEED, steady, stopwatch } from './check-samples.ts';

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
  steady: () =>
    html`<div class="two">
        <m-steady-gauge .view=${steady()}></m-steady-gauge>
        <m-steady-gauge
          .view=${steady({
            value: 322,
            trend: 'falling',
            speed: { ...SPEED, state: 'below', value: '583' },
            steadySeconds: 0,
            missing: ['Raise the speed to 650 rpm.', 'Then hold it for 5 s.'],
          })}
        ></m-steady-gauge>
        <m-steady-gauge
          can-take
          .view=${steady({ found: { mean: 411.6, halfSpread: 6.2, seconds: 5 }, steadySeconds: 5 })}
        ></m-steady-gauge>
      </div>
      <m-value-window
        label="Supply pressure"
        unit="kPa"
        .min=${350}
        .max=${500}
        .value=${{ value: 338, halfWidth: 14, label: 'run 3' }}
        .earlier=${[
          { value: 402, halfWidth: 14, label: 'run 1' },
          { value: 322, halfWidth: 14, label: 'run 2' },
        ]}
        caption="Bars: ± 2 standard uncertainties"
      ></m-value-window>
      <m-value-window
        unit="mL"
        .max=${120}
        .value=${{ value: 88, halfWidth: 3, label: 'run 1' }}
      ></m-value-window>
      <m-facts .facts=${FACTS}></m-facts>`,
  inspect: () =>
    html`<m-gauge-entry
        label="Supply pressure"
        unit="bar"
        text="4.1"
        .likely=${{ min: 0, max: 2000 }}
        .instruments=${GAUGES}
      ></m-gauge-entry>
      <m-gauge-entry .likely=${{ min: 0, max: 2000 }}></m-gauge-entry>
      <m-inspection .points=${POINTS}></m-inspection>`,
  curve: () =>
    html`<m-pressure-curve can-choose .view=${curve()}></m-pressure-curve>
      <m-pressure-curve
        .view=${curve({ spanSeconds: null, toSeconds: null, fitted: [], tauSeconds: null, words: 'Falling: 9 of 5 MPa.' })}
      ></m-pressure-curve>`,
  drive: () =>
    html`<m-deviation .view=${deviation({ recording: true, seconds: 125 })}></m-deviation>
      <m-deviation .view=${deviation()}></m-deviation>`,
};
