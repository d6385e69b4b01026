import { css, html, type CSSResult, type TemplateResult } from 'lit';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';

export const LAMP_NAMES = ['malfunction', 'redStop', 'amberWarning', 'protect'] as const;
export type LampName = (typeof LAMP_NAMES)[number];

/** `notAvailable`: the controller does not drive this lamp. */
export type LampLook = 'off' | 'on' | 'slow flash' | 'fast flash' | 'notAvailable';
export type LampsView = Readonly<Record<LampName, LampLook>>;

const LAMPS: Readonly<Record<LampName, { word: string; shape: IconShape; tone: string }>> = {
  malfunction: { word: 'Malfunction indicator', shape: 'engine', tone: 'marginal' },
  redStop: { word: 'Red stop', shape: 'fail', tone: 'fail' },
  amberWarning: { word: 'Amber warning', shape: 'marginal', tone: 'marginal' },
  protect: { word: 'Protect', shape: 'shield', tone: 'unsure' },
};
const LOOKS: Readonly<Record<LampLook, string>> = {
  off: 'off',
  on: 'on',
  'slow flash': 'flashes slowly',
  'fast flash': 'flashes fast',
  notAvailable: 'not driven',
};

const isLit = (look: LampLook): boolean => look !== 'off' && look !== 'notAvailable';

const lamp = (name: LampName, look: LampLook): TemplateResult => {
  const { word, shape, tone } = LAMPS[name];
  return html`<li class="lamp ${isLit(look) ? `lit ${tone}` : ''}">
    <m-icon shape=${shape}></m-icon><span>${word} <strong>${LOOKS[look]}</strong></span>
  </li>`;
};

/** The lamps of one controller: those that shine or flash as plates, the rest in one quiet line. */
export const lampRow = (lamps: LampsView): TemplateResult => {
  const shining = LAMP_NAMES.filter((name) => isLit(lamps[name]));
  const dark = LAMP_NAMES.filter((name) => lamps[name] === 'off').map((name) =>
    LAMPS[name].word.toLowerCase(),
  );
  const undriven = LAMP_NAMES.filter((name) => lamps[name] === 'notAvailable').map((name) =>
    LAMPS[name].word.toLowerCase(),
  );
  const rest = [
    dark.length === LAMP_NAMES.length
      ? 'All lamps are off.'
      : dark.length > 0
        ? `Off: ${dark.join(', ')}.`
        : '',
    undriven.length > 0 ? `Not driven: ${undriven.join(', ')}.` : '',
  ].filter((words) => words !== '');
  return html`<div class="lamps">
    ${
      shining.length > 0
        ? html`<ul aria-label="Lamps">
            ${shining.map((name) => lamp(name, lamps[name]))}
          </ul>`
        : ''
    }
    <p class="said">${rest.join(' ')}</p>
  </div>`;
};

export const lampStyles: CSSResult = css`
  .lamps,
  .lamps ul {
    display: flex;
    flex-wrap: wrap;
    gap: var(--m-space-2) var(--m-space-3);
    align-items: center;
  }
  .lamps .lamp {
    display: inline-flex;
    gap: var(--m-space-2);
    align-items: center;
    padding: var(--m-space-2) var(--m-space-3);
    border: var(--m-stroke-2) solid currentColor;
    border-radius: var(--m-radius-2);
  }
  .lamp m-icon {
    font-size: var(--m-text-l);
  }
  .lamp.fail {
    background: var(--m-fail-soft);
    color: var(--m-fail);
  }
  .lamp.marginal {
    background: var(--m-marginal-soft);
    color: var(--m-marginal);
  }
  .lamp.unsure {
    background: var(--m-unsure-soft);
    color: var(--m-unsure);
  }
  .said {
    color: var(--m-quiet);
    font-size: var(--m-text-s);
  }
`;
