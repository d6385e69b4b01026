import { svg, type SVGTemplateResult } from 'lit';
import type { StationId } from '../procedures/station.ts';

/** A symbol for each station on a 40 × 40 field, after the signs of fluid power: circle pump, lozenge filter, square valve. */
export const STATION_SYMBOL: Readonly<Record<StationId, SVGTemplateResult>> = {
  tank: svg`<path d="M5 8v25h30V8" /><path d="M5 17h30" class="fine" /><path d="M11 23h6M21 23h8M14 28h12" class="fine" />`,
  'suction line': svg`<path d="M2 14h36M2 26h36" /><path d="M14 20h10m-4-4 4 4-4 4" class="fine" />`,
  'suction filter': svg`<path d="M20 4 36 20 20 36 4 20z" /><path d="M20 5v30" class="dashes" /><path d="M9 25h22" class="fine" />`,
  'supply pump': svg`<circle cx="20" cy="20" r="16" /><path d="M36 20 25 13v14z" class="solid" />`,
  'pressure filter': svg`<path d="M20 4 36 20 20 36 4 20z" /><path d="M20 5v30" class="dashes" />`,
  'metering valve': svg`<path d="M6 8h28v24H6z" /><path d="M10 20h18m-5-5 5 5-5 5" class="fine" /><path d="M12 36 30 3" class="fine" />`,
  'high-pressure pump': svg`<circle cx="20" cy="20" r="16" /><path d="M36 20 25 13v14zM4 20l11-7v14z" class="solid" />`,
  rail: svg`<path d="M3 12h34v16H3z" /><path d="M10 28v7M20 28v7M30 28v7" class="fine" /><path d="M9 20h22" class="fine" />`,
  'relief valve': svg`<path d="M10 14h22v20H10z" /><path d="M16 30V18m-4 5 4-5 4 5" class="fine" /><path d="M21 13l-4-3 8-3-8-3 8-3" class="fine" />`,
  injectors: svg`<path d="M13 3h14v14H13zM16 17h8v12h-8z" /><path d="M20 29v4M14 38l4-4M20 39v-3M26 38l-4-4" class="fine" />`,
};
