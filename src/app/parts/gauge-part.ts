import { html, nothing } from 'lit';
import '../../ui/gauge-entry.ts';
import { gaugeAsked, withInstrument } from '../gauge-asked.ts';
import type { RunDesk } from '../run-desk.ts';
import type { RunView } from '../run-view.ts';
import type { Services } from '../services.ts';

export interface GaugeReading {
  readonly desk: RunDesk;
  readonly view: RunView;
  readonly services: Pick<Services, 'settings'>;
}

/** A value read off the technician's own instrument, with what that is worth; nothing for checks that give no such value. */
export function gaugePart({ desk, view, services }: GaugeReading) {
  const asked = gaugeAsked(view.guide.settings, services.settings.value);
  if (!asked) return nothing;
  return html`<m-gauge-entry
    label=${asked.label}
    quantity=${asked.quantity}
    unit=${asked.unit}
    .likely=${asked.likely}
    .instruments=${asked.instruments}
    action-label="Grade it"
    @instrument-typed=${({ detail }: HTMLElementEventMap['instrument-typed']) =>
      services.settings.change({ instruments: withInstrument(services.settings.value.instruments, detail) })}
    @value-entered=${({ detail }: HTMLElementEventMap['value-entered']) => desk.enterValue(detail)}
  ></m-gauge-entry>`;
}
