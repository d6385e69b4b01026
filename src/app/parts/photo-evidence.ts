import { html, nothing, type TemplateResult } from 'lit';
import type { PhotoStore } from '../../jobs/photo-store.ts';
import type { RunValues } from '../../jobs/run-entries.ts';
import './photo-strip.ts';

/** The photograph that a volume was read off, with its marks and uncertainty; nothing for a volume that was typed. */
export function photoEvidence(
  volume: RunValues['volume'],
  photos: PhotoStore | null,
): TemplateResult | typeof nothing {
  if (!volume?.photo || !photos) return nothing;
  const { photo } = volume;
  return html`<section class="card" aria-label="Photograph of the vessel">
    <p>
      Read off this photograph: <strong class="number">${volume.readingsMl.join(' + ')} mL</strong>, standard
      uncertainty of the reading <span class="number">${photo.standardUncertaintyMl.toPrecision(2)} mL</span>.
    </p>
    <photo-strip
      .photos=${photos}
      .ids=${[photo.photoId]}
      .marks=${new Map([[photo.photoId, photo]])}
      label="Photograph of the vessel"
    ></photo-strip>
  </section>`;
}
