import { html, type TemplateResult } from 'lit';
import { of } from 'rxjs';
import '../../src/app/pages/settings-page.ts';
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts';
import '../../src/ui/ask-dialog.ts';
import '../../src/ui/characteristic-picker.ts';
import '../../src/ui/identity-card.ts';
import '../../src/ui/link-health.ts';
import '../../src/ui/raw-monitor.ts';
import '../../src/ui/search-progress.ts';
import '../../src/ui/source-offers.ts';
import '../../src/ui/trouble-codes-list.ts';
import '../../src/ui/typed-cranks.ts';
import {
  bytesRow,
  CONTROLLERS,
  HEALTH,
  IDENTITY,
  LAST,
  mixedRow,
  OFFERS,
  REQUESTS,
  SERVICES,
  STEPS,
} from './source-samples.ts';

/** The settings page needs its settings only while it is looked at. */
const SERVICES_OF_PAGE = { settings: { state$: of(DEFAULT_SETTINGS) } };

/** The parts of the gallery that show the ways in, what the bus tells, and the settings. */
export const SOURCE_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  sources: () =>
    html`<m-source-offers .offers=${OFFERS} .last=${LAST}></m-source-offers>
      <div class="two">
        <m-search-progress .steps=${STEPS} .done=${0.4} .elapsedSeconds=${2.34}></m-search-progress>
        <m-search-progress
          heading="USB serial 1A86:7523"
          .steps=${STEPS.slice(0, 2)}
          .elapsedSeconds=${3.9}
          .outcome=${{
            tone: 'found',
            headline: 'Engine speed is coming in',
            facts: ['SLCAN', ...LAST.worked],
            advice: '',
          }}
        ></m-search-progress>
        <m-search-progress
          .steps=${STEPS.slice(0, 3)}
          .elapsedSeconds=${12.1}
          .outcome=${{
            tone: 'silent',
            headline: 'The bridge answers, the bus is silent',
            facts: ['115,200 baud', 'SLCAN'],
            advice: 'Turn the key on. Listening goes on.',
          }}
        ></m-search-progress>
        <m-search-progress
          .steps=${STEPS.slice(0, 1)}
          .elapsedSeconds=${14}
          .outcome=${{
            tone: 'nothing',
            headline: 'Nothing intelligible came',
            facts: [],
            advice: 'Look at the bytes in the raw monitor, or choose the speed by hand.',
          }}
          ><button>Open the raw monitor</button></m-search-progress
        >
      </div>`,
  health: () =>
    html`<m-link-health .health=${HEALTH}></m-link-health>
      <m-link-health .health=${HEALTH} ?expanded=${true}></m-link-health>
      <m-link-health ?expanded=${true}></m-link-health>`,
  monitor: () =>
    html`<m-raw-monitor .source=${{ count: () => 20_000, row: mixedRow }}></m-raw-monitor>
      <m-raw-monitor
        mode="bytes"
        .source=${{ count: () => 20_000, row: bytesRow }}
        .advice=${{
          message: 'Bytes come, but they mean nothing at this speed.',
          remedy: 'Choose another serial speed, or see in the bridge’s papers which protocol it speaks.',
        }}
      ></m-raw-monitor>`,
  facts: () =>
    html`<m-trouble-codes .controllers=${CONTROLLERS}></m-trouble-codes>
      <m-trouble-codes></m-trouble-codes>
      <m-identity .entries=${IDENTITY}></m-identity>`,
  forms: () =>
    html`<m-typed-cranks
        .rows=${[
          { seconds: '14,9', rpm: '151.8' },
          { seconds: '15.1', rpm: '' },
        ]}
      ></m-typed-cranks>
      <m-characteristic-picker .services=${SERVICES}></m-characteristic-picker>
      <m-characteristic-picker></m-characteristic-picker>`,
  settings: () => html`<settings-page .services=${SERVICES_OF_PAGE}></settings-page>`,
  ask: () => html`<m-ask open .requests=${REQUESTS} device-name="USB serial 1A86:7523"></m-ask>`,
};
