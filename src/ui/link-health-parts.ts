import { html, nothing } from 'lit';
import { formatNumber, NO_VALUE } from '../quantities/format.ts';
import './shape-icon.ts';
import { spanWords } from './span-words.ts';
import { VALUE_STATES, type ValueState } from './value-tile.ts';

/** One address on the bus that has been heard. `name`: what it usually is, or empty. */
export interface HeardAddress {
  readonly channel: number;
  readonly address: number;
  readonly name: string;
  readonly framesPerSecond: number;
}

/** How one signal comes. `value` is already in the person's unit. */
export interface SignalHealth {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  /** Where it comes from, e.g. "00"; empty where sources have no addresses. */
  readonly source: string;
  readonly perSecond: number | null;
  readonly ageSeconds: number | null;
  readonly state: ValueState;
}

/** What is known of how well data comes. Null: not known yet, or the bridge does not tell. */
export interface LinkHealthView {
  readonly framesPerSecond: number | null;
  /** The least and the most that the bus can be loaded, 0 to 100, since stuffing bits are not seen. */
  readonly busLoadPercent: readonly [low: number, high: number] | null;
  readonly malformed: number;
  /** Frames the bridge says it lost; null where it does not tell. */
  readonly lost: number | null;
  readonly brokenTransfers: number;
  readonly bytesPerSecond: number | null;
  readonly secondsSinceLast: number | null;
  readonly addresses: readonly HeardAddress[];
  readonly signals: readonly SignalHealth[];
}

export const NO_HEALTH: LinkHealthView = {
  framesPerSecond: null,
  busLoadPercent: null,
  malformed: 0,
  lost: null,
  brokenTransfers: 0,
  bytesPerSecond: null,
  secondsSinceLast: null,
  addresses: [],
  signals: [],
};

/** A rate: whole numbers from 10 on, tenths below, so that 0.2 a second is not shown as 0. */
export const rateWords = (perSecond: number | null): string =>
  formatNumber(perSecond, { decimals: perSecond !== null && Math.abs(perSecond) < 10 ? 1 : 0 });

/** Bus load as a range, or one number where both ends round to the same. */
export function loadWords(load: LinkHealthView['busLoadPercent']): string {
  if (!load) return NO_VALUE;
  const [low, high] = load.map((percent) => formatNumber(percent, { decimals: 0 }));
  return low === high ? `${low}` : `${low}–${high}`;
}

/** A source address as the standard writes it, with the channel where there is more than the first. */
export const addressWords = ({ channel, address }: Pick<HeardAddress, 'channel' | 'address'>): string =>
  `${address.toString(16).toUpperCase().padStart(2, '0')}${channel > 0 ? ` ch ${channel + 1}` : ''}`;

/** The addresses heard, as a table. */
export const addressTable = (addresses: readonly HeardAddress[]) =>
  html`<table class="addresses">
    <caption>
      Addresses heard
    </caption>
    <thead>
      <tr>
        <th scope="col" class="word">Address</th>
        <th scope="col" class="word">Usually</th>
        <th scope="col">Frames/s</th>
      </tr>
    </thead>
    <tbody>
      ${
        addresses.length === 0
          ? html`<tr>
              <td colspan="3" class="word none">None yet. A silent bus often means that the key is off.</td>
            </tr>`
          : addresses.map(
              (heard) =>
                html`<tr>
                  <th scope="row" class="hex">${addressWords(heard)}</th>
                  <td class="word">${heard.name || 'not known'}</td>
                  <td class="number">${rateWords(heard.framesPerSecond)}</td>
                </tr>`,
            )
      }
    </tbody>
  </table>`;

const signalRow = (signal: SignalHealth) => {
  const { word, shape } = VALUE_STATES[signal.state];
  const shown = signal.state === 'fresh' || signal.state === 'stale' ? signal.value : NO_VALUE;
  return html`<tr class=${signal.state}>
    <th scope="row">
      ${signal.label}${signal.source ? html` <span class="from">from <span class="hex">${signal.source}</span></span>` : nothing}
    </th>
    <td class="number value">${shown} <span class="unit">${signal.unit}</span></td>
    <td class="number" data-name="rate">${rateWords(signal.perSecond)} /s</td>
    <td class="number" data-name="age">
      ${signal.ageSeconds === null ? NO_VALUE : spanWords(signal.ageSeconds)}
    </td>
    <td class="word state"><m-icon shape=${shape}></m-icon> ${word}</td>
  </tr>`;
};

/** Each signal with its rate and freshness, as a table. */
export const signalTable = (signals: readonly SignalHealth[]) =>
  html`<table class="signals">
    <caption>
      Signals
    </caption>
    <thead>
      <tr>
        <th scope="col" class="word">Signal</th>
        <th scope="col">Value</th>
        <th scope="col">Rate</th>
        <th scope="col">Age</th>
        <th scope="col" class="word">State</th>
      </tr>
    </thead>
    <tbody>
      ${
        signals.length === 0
          ? html`<tr>
              <td colspan="5" class="word none">No signal yet. Each appears here with its first value.</td>
            </tr>`
          : signals.map(signalRow)
      }
    </tbody>
  </table>`;
