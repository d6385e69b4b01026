import { html, render, type TemplateResult } from 'lit';
import { adoptDocumentStyles } from '../../src/ui/tokens.ts';
import '../../src/ui/arithmetic-sheet.ts';
import '../../src/ui/caution-list.ts';
import '../../src/ui/crank-clock.ts';
import '../../src/ui/crank-table.ts';
import '../../src/ui/empty-state.ts';
import '../../src/ui/limit-chart.ts';
import '../../src/ui/number-pad.ts';
import '../../src/ui/problem-note.ts';
import '../../src/ui/progress-note.ts';
import { ICON_SHAPES } from '../../src/ui/shape-icon.ts';
import '../../src/ui/source-state.ts';
import '../../src/ui/strip-chart.ts';
import '../../src/ui/value-tile.ts';
import '../../src/ui/verdict-panel.ts';
import '../../src/ui/vessel-drawing.ts';
import {
  BOUNDARIES,
  clock,
  EARLIER,
  POINT,
  ROWS,
  SERIES,
  STRIP_CRANKS,
  stripColumns,
  verdict,
} from './samples.ts';
import { CHECK_PARTS } from './gallery-checks.ts';
import { JOB_PARTS } from './gallery-job.ts';
import { SHEET_PARTS } from './gallery-sheets.ts';
import { SOURCE_PARTS } from './gallery-sources.ts';
import { TRACING_PARTS } from './gallery-tracing.ts';

/** A page to look at the elements in all their states; served by gallery-shots.mjs, never built. */
adoptDocumentStyles(document);
const sheet = new CSSStyleSheet();
sheet.replaceSync(`
  main { max-width: 1240px; margin: 0 auto; padding: 16px; display: grid; gap: 16px; }
  .two, .three { display: grid; gap: 16px; grid-template-columns: repeat(auto-fit, minmax(min(340px, 100%), 1fr)); align-items: start; }
  section { min-width: 0; display: grid; gap: 12px; }`);
document.adoptedStyleSheets.push(sheet);

const problem = {
  message: 'Cranking too slow for this chart.',
  remedy: 'Charge the batteries and repeat the run.',
};
const parts: Readonly<Record<string, () => TemplateResult>> = {
  run: () =>
    html`<m-source-state
        state="live"
        device-name="Bench bridge"
        .framesPerSecond=${412}
        .malformed=${3}
      ></m-source-state>
      <div class="two">
        <m-crank-clock
          .view=${clock({ state: 'cranking', crankNumber: 1, thisCrankSeconds: 12.4, totalSeconds: 12.4, warn: 3 })}
        ></m-crank-clock>
        <section>
          <m-value-tile
            label="Engine speed"
            value="152"
            unit="rpm"
            state="fresh"
            size="huge"
            trend="steady"
          ></m-value-tile>
          <m-value-tile
            label="Rail pressure"
            value="31.8"
            unit="MPa"
            state="fresh"
            size="huge"
            trend="rising"
          ></m-value-tile>
        </section>
      </div>
      <m-strip-chart
        label="Speed and pressures"
        .series=${SERIES}
        .columns=${stripColumns()}
        .cranks=${STRIP_CRANKS}
      ></m-strip-chart>`,
  tiles: () =>
    html`<div class="three">
        <m-value-tile
          label="Supply pressure"
          value="412"
          unit="kPa"
          state="fresh"
          trend="falling"
        ></m-value-tile>
        <m-value-tile
          label="Engine speed"
          value="150"
          unit="rpm"
          state="stale"
          age-seconds="2.4"
        ></m-value-tile>
        <m-value-tile
          label="Rail pressure"
          value="31.8"
          unit="MPa"
          state="lost"
          age-seconds="14"
        ></m-value-tile>
        <m-value-tile label="Fuel temperature" unit="°C" state="notAvailable"></m-value-tile>
        <m-value-tile label="Battery voltage" unit="V" state="waiting"></m-value-tile>
      </div>
      <div class="two">
        <m-value-tile
          label="Engine speed"
          value="152"
          unit="rpm"
          state="stale"
          age-seconds="2.4"
          size="huge"
        ></m-value-tile>
        <m-value-tile
          label="Rail pressure"
          value="31.8"
          unit="MPa"
          state="lost"
          age-seconds="214"
          size="huge"
        ></m-value-tile>
      </div>
      <div class="two">
        <m-crank-clock
          .view=${clock({ state: 'resting', thisCrankSeconds: 15, totalSeconds: 15, restLeftSeconds: 41.2 })}
        ></m-crank-clock>
        <m-crank-clock
          .view=${clock({ state: 'cranking', crankNumber: 2, thisCrankSeconds: 15, totalSeconds: 30, warn: 'now' })}
        ></m-crank-clock>
        <m-crank-clock
          .view=${clock({ state: 'over time', crankNumber: 2, thisCrankSeconds: 16.2, totalSeconds: 31.2, warn: 'over' })}
        ></m-crank-clock>
        <m-crank-clock
          .view=${clock({ state: 'done', crankNumber: 2, thisCrankSeconds: 15, totalSeconds: 30.1 })}
        ></m-crank-clock>
      </div>
      <p>${ICON_SHAPES.map((shape) => html`<m-icon shape=${shape} label=${shape}></m-icon> `)}</p>`,
  entry: () =>
    html`<div class="two">
      <m-vessel capacity-ml="500" graduation-ml="5" .levelMl=${317.5} ?guide=${true}></m-vessel>
      <m-number-pad
        label="Collected volume"
        unit="mL"
        text="317"
        min="0"
        max="500"
        action-label="Grade it"
      ></m-number-pad>
      <m-vessel capacity-ml="600" graduation-ml="50" .levelMl=${233}></m-vessel>
      <m-number-pad
        label="Collected volume"
        unit="mL"
        text="900"
        min="0"
        max="500"
        error="The vessel holds 500 mL. Read it again."
      ></m-number-pad>
    </div>`,
  verdicts: () =>
    html`<div class="two">
      <m-verdict
        .verdict=${verdict({})}
        sheet-line="Demonstration sheet, revision 1. Invented for practice."
      ></m-verdict>
      <m-verdict
        .verdict=${verdict({ word: 'marginal', leaning: 'marginal', nearest: { name: 'passAbove', atValue: 350, distance: -12, distancePercent: -3.4 } })}
      ></m-verdict>
      <m-verdict
        .verdict=${verdict({ word: 'fail low', leaning: 'fail low', confidence: 0.9998, nearest: { name: 'min', atValue: 125, distance: -35, distancePercent: -28 } })}
      ></m-verdict>
      <m-verdict
        .verdict=${verdict({ word: 'too close to call', leaning: 'marginal', confidence: 0.71, warnings: [{ message: 'The speed log has holes.', remedy: 'Repeat with the cable seated.' }] })}
      ></m-verdict>
      <m-verdict
        .verdict=${verdict({ word: 'not valid', leaning: null, confidence: null, nearest: null, reasons: [problem] })}
      ></m-verdict>
    </div>`,
  charts: () =>
    html`<m-limit-chart
        .boundaries=${BOUNDARIES}
        .point=${POINT}
        .earlier=${EARLIER}
        .nearest=${{ boundaryMl: 294.2, label: '24 mL above the fail line (8 %)' }}
        caption="Bars: ± 2 standard uncertainties. Demonstration sheet, invented."
      ></m-limit-chart>
      <m-limit-chart
        .boundaries=${BOUNDARIES}
        .point=${{ ...POINT, speedRpm: 84, volumeMl: 150 }}
      ></m-limit-chart>
      <m-crank-table .rows=${ROWS}></m-crank-table>
      <m-crank-table .rows=${[]}></m-crank-table>`,
  rest: () =>
    html`<m-cautions
        action-label="Start the run"
        .cautions=${[
          { id: 'a', text: 'High-pressure fuel can pierce the skin. Never feel for a leak with a hand.' },
          { id: 'b', text: 'The engine can start. Keep clear of belts and fan, and chock the wheels.' },
          { id: 'c', text: 'The engine maker’s current procedure for this serial number decides.' },
        ]}
      ></m-cautions>
      <m-problem tone="info" .problem=${problem}></m-problem>
      <m-problem tone="warn" .problem=${problem}></m-problem>
      <m-problem tone="error" .problem=${problem}></m-problem>
      <div class="two">
        <m-empty
          drawing="vessel"
          heading="No run yet"
          text="Crank the engine into a vessel, read it, and the verdict stands here."
        ></m-empty>
        <m-empty
          drawing="plug"
          heading="No source"
          text="Connect a bridge, drop a log on this page, or try it on the bench."
        ></m-empty>
        <m-empty
          drawing="log"
          heading="No recordings"
          text="Everything a source sends is kept here."
        ></m-empty>
        <m-empty drawing="bench" heading="Bench" text="A simulated engine to practise on."></m-empty>
        <m-empty drawing="trace" heading="No trace" text="The trace begins with the first reading."></m-empty>
      </div>
      <m-progress label="Reading the log" detail="12 of 60 MB" .done=${0.2}></m-progress>
      <m-progress label="Looking for cranks"></m-progress>
      <m-arithmetic
        .steps=${[
          {
            label: 'Average speed',
            formula: 'Σ ∫ n dt / Σ T',
            numbers: '(2280.1 + 2283.7) rpm·s / (14.97 + 15.04) s',
            result: '152.1 rpm',
            note: 'Trapezoids between samples; edges interpolated.',
          },
          {
            label: 'Boundary at that speed',
            formula: 'b₁ + (n − n₁)(b₂ − b₁)/(n₂ − n₁)',
            numbers: '290 + (152.1 − 150)(430 − 290)/(220 − 150)',
            result: '294.2 mL',
          },
        ]}
      ></m-arithmetic>
      ${['none', 'opening', 'waiting', 'stale', 'reopening', 'lost', 'ended', 'error'].map(
        (state) =>
          html`<m-source-state
            state=${state}
            device-name="USB bridge"
            .secondsSinceLast=${4.2}
            .secondsSinceLoss=${12.3}
          ></m-source-state>`,
      )}`,
  ...SOURCE_PARTS,
  ...TRACING_PARTS,
  ...SHEET_PARTS,
  ...JOB_PARTS,
  ...CHECK_PARTS,
};

const wanted = location.hash.slice(1) || 'run';
const target = document.querySelector('main');
if (target) render(parts[wanted]?.() ?? html`no such part`, target);
